import fc from 'fast-check';
import {
  LEAST_COVERED_FRACTION,
  LONGEST_GAP_MS,
  meanTemperature,
  type ProbeReading,
} from '../../../src/core/readings/mean-temperature';

const hourMs = 3_600_000;

/** Readings of one probe, by the hour. */
function read(pairs: [hour: number, temperatureC: number][], probeId = 'a'): ProbeReading[] {
  return pairs.map(([hour, temperatureC]) => ({ probeId, atMs: hour * hourMs, temperatureC }));
}

function over(fromHour: number, untilHour: number, readings: readonly ProbeReading[], least = 0) {
  return meanTemperature({
    readings,
    fromMs: fromHour * hourMs,
    untilMs: untilHour * hourMs,
    longestGapMs: LONGEST_GAP_MS,
    leastCoveredFraction: least,
  });
}

describe('the mean temperature', () => {
  test('of a rise from 10 to 20 °C is 15, whatever was read in between on the line', () => {
    const expected = { meanC: 15, minC: 10, maxC: 20, coveredFraction: 1 };
    expect(over(0, 4, read([[0, 10], [4, 20]]))).toEqual(expected); // prettier-ignore
    expect(over(0, 4, read([[0, 10], [1, 12.5], [1.5, 13.75], [4, 20]]))).toEqual(expected); // prettier-ignore
  });

  test('weights time, not readings: ten readings in a warm minute do not make a warm day', () => {
    const warmMinute = Array.from({ length: 10 }, (_, index): [number, number] => [
      6 + index / 600,
      30,
    ]);
    const mean = over(0, 12, read([[0, 10], [5.99, 10], ...warmMinute, [6.025, 10], [12, 10]]))!; // prettier-ignore
    // Up within 0.01 h, 0.015 h at 30, down within 0.01 h: 20 degrees for 0.005 + 0.015 + 0.005 h.
    expect(mean.meanC).toBeCloseTo(10 + (20 * 0.025) / 12, 9);
    expect(mean.maxC).toBe(30);
  });

  test('takes the ends of the span from the readings around it', () => {
    // 12 at hour 1, 18 at hour 4: by the line from 10 to 20 over hours 0 to 5.
    expect(over(1, 4, read([[0, 10], [5, 20]]))).toEqual({ meanC: 15, minC: 12, maxC: 18, coveredFraction: 1 }); // prettier-ignore
  });

  test('of two probes is that of both where both tell, and of the one where one tells', () => {
    const readings = [...read([[0, 10], [4, 10]]), ...read([[2, 20], [6, 20]], 'b')]; // prettier-ignore
    // 10 for two hours, 15 for two, 20 for two.
    expect(over(0, 6, readings)).toEqual({ meanC: 15, minC: 10, maxC: 20, coveredFraction: 1 });
    expect(over(0, 4, readings)!.meanC).toBeCloseTo(12.5, 12);
  });

  test('bridges a gap of six hours, and none that is longer', () => {
    expect(over(0, 6, read([[0, 10], [6, 10]]))!.coveredFraction).toBe(1); // prettier-ignore
    expect(over(0, 7, read([[0, 10], [6.01, 10]]))).toBeNull(); // prettier-ignore
  });

  test('leaves a gap out instead of making something up', () => {
    const mean = over(0, 20, read([[0, 10], [5, 10], [15, 20], [20, 20]])); // prettier-ignore
    expect(mean).toEqual({ meanC: 15, minC: 10, maxC: 20, coveredFraction: 0.5 });
  });

  test('is not given where less than half of the span is told of', () => {
    const readings = read([[0, 10], [5, 10]]); // prettier-ignore
    expect(over(0, 10, readings, LEAST_COVERED_FRACTION)!.coveredFraction).toBe(0.5);
    expect(over(0, 10.1, readings, LEAST_COVERED_FRACTION)).toBeNull();
  });

  test.each([
    ['no reading', []],
    ['one reading', read([[1, 10]])],
    ['readings before and after alone', read([[-2, 10], [-1, 10], [9, 10], [10, 10]])], // prettier-ignore
  ])('is not given for %s', (_, readings) => {
    expect(over(0, 4, readings)).toBeNull();
  });

  test.each([
    ['a span of no length', { untilMs: 0 }],
    ['a span without an end', { untilMs: NaN }],
    ['no gap at all', { longestGapMs: 0 }],
    ['a gap that is no number', { longestGapMs: NaN }],
    ['more than the whole', { leastCoveredFraction: 1.01 }],
    ['a time that is no number', { readings: [{ probeId: 'a', atMs: NaN, temperatureC: 1 }] }],
    ['no temperature', { readings: [{ probeId: 'a', atMs: 1, temperatureC: Infinity }] }],
  ])('cannot be asked for with %s', (_, wrong) => {
    const span = { readings: [], fromMs: 0, untilMs: 1, longestGapMs: 1, leastCoveredFraction: 0 };
    expect(() => meanTemperature({ ...span, ...wrong })).toThrow(RangeError);
  });
});

const someReadings = fc.array(
  fc.record({
    probeId: fc.constantFrom('a', 'b', 'c'),
    atMs: fc.integer({ min: -10 * 3600, max: 40 * 3600 }).map((seconds) => seconds * 1000),
    temperatureC: fc.integer({ min: -100, max: 600 }).map((deci) => deci / 10),
  }),
  { maxLength: 40 },
);

/** One temperature for each probe and time. */
const readingsOfRecord = someReadings.map((readings) => [
  ...new Map(readings.map((reading) => [`${reading.probeId} ${reading.atMs}`, reading])).values(),
]);

describe('whatever was read', () => {
  test('the mean agrees with a count minute by minute, done another way', () => {
    fc.assert(
      fc.property(readingsOfRecord, (readings) => {
        const mean = over(0, 24, readings);
        const moments = bySampling(readings, 24);
        if (moments.length < 60) return;
        const sampled = moments.reduce((sum, one) => sum + one, 0) / moments.length;
        expect(mean).not.toBeNull();
        // Each end of a line may be missed by half a step of 10 s, and 61 degrees at most stand to either side.
        expect(Math.abs(mean!.meanC - sampled)).toBeLessThan(
          (readings.length * 2 * 10 * 71) / (moments.length * 10),
        );
        expect(mean!.coveredFraction).toBeCloseTo((moments.length * 10) / (24 * 3600), 1.5);
      }),
      { numRuns: 100 },
    );
  });

  test('the mean lies between the coldest and the warmest, and no more than the span is covered', () => {
    fc.assert(
      fc.property(readingsOfRecord, (readings) => {
        const mean = over(0, 24, readings);
        if (mean === null) return;
        expect(mean.meanC).toBeGreaterThanOrEqual(mean.minC - 1e-9);
        expect(mean.meanC).toBeLessThanOrEqual(mean.maxC + 1e-9);
        expect(mean.coveredFraction).toBeGreaterThan(0);
        expect(mean.coveredFraction).toBeLessThanOrEqual(1 + 1e-12);
      }),
    );
  });

  test('the order in which readings come makes no difference', () => {
    fc.assert(
      fc.property(
        readingsOfRecord.chain((readings) =>
          fc.tuple(
            fc.constant(readings),
            fc.shuffledSubarray(readings, { minLength: readings.length }),
          ),
        ),
        ([readings, shuffled]) => {
          const [one, other] = [over(0, 24, readings), over(0, 24, shuffled)];
          expect(other === null).toBe(one === null);
          if (one === null || other === null) return;
          expect(other.meanC).toBeCloseTo(one.meanC, 9);
          expect([other.minC, other.maxC]).toEqual([one.minC, one.maxC]);
        },
      ),
    );
  });

  test('two spans that follow each other give, by their covered times, the mean of both', () => {
    fc.assert(
      fc.property(readingsOfRecord, fc.integer({ min: 1, max: 23 }), (readings, hour) => {
        const [first, second, whole] = [
          over(0, hour, readings),
          over(hour, 24, readings),
          over(0, 24, readings),
        ];
        const parts = [
          [first, hour],
          [second, 24 - hour],
        ] as const;
        const covered = parts.map(([part, hours]) => (part?.coveredFraction ?? 0) * hours);
        const sum = parts.reduce(
          (total, [part], index) => total + (part?.meanC ?? 0) * (covered[index] as number),
          0,
        );
        const coveredHours = covered[0]! + covered[1]!;
        expect(coveredHours).toBeCloseTo((whole?.coveredFraction ?? 0) * 24, 9);
        if (whole !== null) expect(whole.meanC).toBeCloseTo(sum / coveredHours, 6);
      }),
    );
  });
});

/** Every ten seconds: what the probes that tell of that moment show on the mean, found by looking at each reading. */
function bySampling(readings: readonly ProbeReading[], hours: number): number[] {
  const found: number[] = [];
  for (let atMs = 5_000; atMs < hours * hourMs; atMs += 10_000) {
    const shown: number[] = [];
    for (const probeId of ['a', 'b', 'c']) {
      const own = readings.filter((reading) => reading.probeId === probeId);
      const before = own
        .filter((reading) => reading.atMs <= atMs)
        .reduce<ProbeReading | null>(
          (last, one) => (last && last.atMs > one.atMs ? last : one),
          null,
        );
      const after = own
        .filter((reading) => reading.atMs > atMs)
        .reduce<ProbeReading | null>(
          (next, one) => (next && next.atMs < one.atMs ? next : one),
          null,
        );
      if (before === null || after === null || after.atMs - before.atMs > LONGEST_GAP_MS) continue;
      const share = (atMs - before.atMs) / (after.atMs - before.atMs);
      shown.push(before.temperatureC * (1 - share) + after.temperatureC * share);
    }
    if (shown.length > 0) found.push(shown.reduce((sum, one) => sum + one, 0) / shown.length);
  }
  return found;
}
