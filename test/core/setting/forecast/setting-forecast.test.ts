import fc from 'fast-check';
import { seededRandom } from '../../../../src/core/random';
import {
  beliefFromRegression,
  scaleEnlargement,
  type SettingBelief,
} from '../../../../src/core/setting/forecast/setting-belief';
import {
  chanceSetBy,
  coolRoomDays,
  settingForecast,
} from '../../../../src/core/setting/forecast/setting-forecast';
import type { Distribution } from '../../../../src/core/setting/regression/error-law';
import { fitRegression } from '../../../../src/core/setting/regression/fit-regression';
import { predictQuantiles } from '../../../../src/core/setting/regression/predict-quantiles';
import { estimateOf } from '../regression/regression-cases';
import { drawnTime, simulatedClub } from '../regression/simulated-batches';

const distributions: Distribution[] = ['weibull', 'lognormal', 'loglogistic'];

/** A batch of which place and scale are known for certain. */
function certain(distribution: Distribution, median: number, scale: number): SettingBelief {
  const variance = { linearPredictor: 0, logScale: 0, both: 0 };
  const part = {
    distribution,
    weight: 1,
    linearPredictor: Math.log(median),
    logScale: Math.log(scale),
    variance,
  };
  return { kind: 'belief', parts: [part] };
}

test('when place and scale are known the days are those of the law', () => {
  // By hand: Weibull quantiles are typical x (-log(1 - share))^scale.
  const belief = certain('weibull', 20, 0.4);

  const { setBy, within, chanceOfNotSetSoFar } = settingForecast(belief);

  expect(setBy.map(({ certainty }) => certainty)).toEqual([0.5, 0.8, 0.95]);
  for (const { certainty, days } of setBy) {
    expect(days).not.toBeNull();
    expect(days).toBeCloseTo(20 * (-Math.log(1 - certainty)) ** 0.4, 5);
    expect(coolRoomDays(belief, certainty)).toBeCloseTo(days!, 8);
    expect(chanceSetBy(belief, days!)).toBeCloseTo(certainty, 7);
  }
  expect(within.map(({ certainty }) => certainty)).toEqual([0.5, 0.8, 0.95]);
  expect(within[1]!.earliestDays).toBeCloseTo(20 * (-Math.log(0.9)) ** 0.4, 5);
  expect(within[1]!.latestDays).toBeCloseTo(20 * (-Math.log(0.1)) ** 0.4, 5);
  expect(chanceOfNotSetSoFar).toBe(1);
});

test('a law without memory takes as long again, however long it has taken', () => {
  // By hand: with scale 1 the Weibull law is the exponential.
  const belief = certain('weibull', 10, 1);

  expect(coolRoomDays(belief, 0.8, 25)).toBeCloseTo(25 - 10 * Math.log(0.2), 5);
  expect(chanceSetBy(belief, 30, 25)).toBeCloseTo(1 - Math.exp(-0.5), 7);
  expect(settingForecast(belief, 25).chanceOfNotSetSoFar).toBeCloseTo(Math.exp(-2.5), 7);
  expect(chanceSetBy(belief, 25, 25)).toBeCloseTo(0, 12);
  expect(chanceSetBy(belief, 0)).toBeCloseTo(0, 12);
});

test('with exact log-normal times and nothing else known the days are those of the t distribution', () => {
  // Source: G. J. Hahn and W. Q. Meeker, "Statistical Intervals" (1991), section 4.7: mean + t x s x
  // sqrt(1 + 1/n) on the logarithm; t with 23 degrees of freedom from any table.
  const logs = Array.from({ length: 24 }, (_, i) => 2.5 + 0.35 * Math.sin(i * 2.1) + 0.01 * i);
  const times = logs.map(Math.exp);
  const mean = logs.reduce((sum, log) => sum + log, 0) / 24;
  const deviation = Math.sqrt(logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / 23);
  const observations = times.map((time) => ({ lower: time, upper: time }));

  const belief = beliefFromRegression(
    estimateOf({ observations, covariates: [] }, 'lognormal'),
    {},
  );

  if (belief.kind !== 'belief') throw new Error('expected a belief');
  for (const [share, t] of [
    [0.5, 0],
    [0.8, 0.858],
    [0.9, 1.319],
    [0.975, 2.069],
  ] as const) {
    const expected = mean + t * deviation * Math.sqrt(1 + 1 / 24);
    expect(Math.abs(Math.log(coolRoomDays(belief, share)!) - expected)).toBeLessThan(
      0.02 * deviation * (1 + t),
    );
  }
});

test('the less is known, the wider the forecast; a correlated place and scale count as such', () => {
  const narrow = certain('lognormal', 14, 0.4);
  const wide = (variance: { linearPredictor: number; logScale: number; both: number }) => ({
    ...narrow,
    parts: narrow.parts.map((part) => ({ ...part, variance })),
  });
  const width = (belief: SettingBelief) => {
    const { earliestDays, latestDays } = settingForecast(belief).within[1]!;
    return Math.log(latestDays! / earliestDays!);
  };

  // By hand: a normal place with known scale adds its variance.
  const placed = wide({ linearPredictor: 0.09, logScale: 0, both: 0 });
  expect(width(placed)).toBeCloseTo(2 * 1.281552 * Math.sqrt(0.16 + 0.09), 4);
  expect(width(wide({ linearPredictor: 0, logScale: 0.04, both: 0 }))).toBeGreaterThan(
    width(narrow),
  );
  const [up, down] = [0.05, -0.05].map((both) =>
    coolRoomDays(wide({ linearPredictor: 0.09, logScale: 0.04, both }), 0.95),
  );
  expect(up).toBeGreaterThan(down!);
});

test('parts count by their weights', () => {
  // By hand: half of the batches about 10 days, half about 30, both within a day or so.
  const [ten, thirty] = [certain('lognormal', 10, 0.02), certain('lognormal', 30, 0.02)];
  const parts = [ten, thirty].flatMap(({ parts: [part] }) => [{ ...part!, weight: 0.5 }]);
  const belief: SettingBelief = { ...ten, parts };

  expect(chanceSetBy(belief, 20)).toBeCloseTo(0.5, 7);
  expect(coolRoomDays(belief, 0.25)).toBeCloseTo(10, 2);
  expect(coolRoomDays(belief, 0.75)).toBeCloseTo(30, 2);
  // Once it has not set by 20 days it is one of the slow ones.
  expect(coolRoomDays(belief, 0.5, 20)).toBeCloseTo(30, 2);
});

test('a later look that finds it not set moves the day out, never in', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...distributions),
      fc.double({ min: 1, max: 40, noNaN: true }),
      fc.double({ min: 0, max: 20, noNaN: true }),
      (distribution, first, more) => {
        const belief = certain(distribution, 14, 0.3);
        const before = coolRoomDays(belief, 0.8, first)!;
        const after = coolRoomDays(belief, 0.8, first + more);

        expect(before).toBeGreaterThan(first);
        expect(after).toBeGreaterThanOrEqual(before * (1 - 1e-6));
      },
    ),
    { numRuns: 40 },
  );
});

test('a batch far beyond all experience still gets a day, and how rare it is is said', () => {
  for (const distribution of distributions) {
    const { setBy, chanceOfNotSetSoFar } = settingForecast(certain(distribution, 14, 0.3), 200);

    expect(setBy.every(({ days }) => days !== null && days > 200)).toBe(true);
    expect(chanceOfNotSetSoFar).toBeLessThan(1e-3);
  }
});

test('where next to nothing is known no day is named', () => {
  const belief = certain('weibull', 14, 0.3);
  const [part] = belief.parts;
  for (const logScale of [16, 1e6]) {
    const variance = { linearPredictor: 400, logScale, both: 0 };
    const { setBy, within } = settingForecast({ ...belief, parts: [{ ...part!, variance }] });

    expect(setBy.every(({ days }) => days === null || (days > 0 && days <= 3653))).toBe(true);
    expect(setBy[2]!.days).toBeNull();
    expect(within[2]!.latestDays).toBeNull();
  }
});

test('days and certainties that are none are refused', () => {
  const belief = certain('weibull', 14, 0.3);

  for (const days of [-1, NaN, Infinity])
    expect(() => settingForecast(belief, days)).toThrow(RangeError);
  for (const certainty of [0, 1, NaN]) {
    expect(() => coolRoomDays(belief, certainty)).toThrow(RangeError);
  }
  expect(() => chanceSetBy(belief, 3, 4)).toThrow(RangeError);
  expect(() => chanceSetBy(belief, NaN)).toThrow(RangeError);
});

test('the belief of a regression stands where its prediction does', () => {
  const { data } = club(5, 'weibull');
  const fit = estimateOf(data, 'weibull');
  const profile = { source: 'lime', seedPercent: 6 };

  const belief = beliefFromRegression(fit, profile);
  const prediction = predictQuantiles(fit, profile, [0.5]);

  if (belief.kind !== 'belief' || prediction.kind !== 'estimate') throw new Error('none');
  const [part] = belief.parts;
  const factor = scaleEnlargement(4, fit.covariance);
  expect(factor).toBeCloseTo(Math.exp(4 * fit.standardErrors[4]! ** 2), 12);
  expect(part!.linearPredictor).toBe(prediction.linearPredictor);
  expect(Math.exp(part!.logScale)).toBeCloseTo(fit.scale * factor, 12);
  expect(Math.sqrt(part!.variance.linearPredictor)).toBeCloseTo(
    prediction.linearPredictorStandardError * factor,
    10,
  );
  expect(part!.variance.logScale).toBeCloseTo(fit.standardErrors[4]! ** 2, 12);
  // By hand: columns are 1, 1 (lime), 0 (heather), 6.
  const last = fit.covariance[4]!;
  expect(part!.variance.both).toBeCloseTo((last[0]! + last[1]! + 6 * last[3]!) * factor, 12);
  expect(() => beliefFromRegression(fit, {})).toThrow(RangeError);
});

test('of a level set aside nothing is believed', () => {
  const observations = [5, 6, 8, 9].map((time) => ({ lower: time, upper: time }));
  const fit = estimateOf(
    {
      observations: [...observations, { lower: 9, upper: null }],
      covariates: [
        {
          kind: 'factor',
          name: 'source',
          levels: ['clover', 'lime'],
          values: ['clover', 'clover', 'clover', 'clover', 'lime'],
        },
      ],
    },
    'weibull',
  );

  expect(beliefFromRegression(fit, { source: 'lime' })).toMatchObject({
    kind: 'no-estimate',
    level: { level: 'lime' },
  });
});

const sources = { clover: 14, lime: 20, heather: 9 };

function club(seed: number, distribution: Distribution, batches = 40) {
  const scale = distribution === 'loglogistic' ? 0.22 : 0.4;
  return simulatedClub({
    seed,
    batches,
    distribution,
    scale,
    sources,
    perPercentSeed: -0.05,
    lastDay: 30,
  });
}

test.each(distributions)(
  'what is said with 80 percent certainty comes true for 76 to 84 in a hundred (%s)',
  (distribution) => {
    // 150 clubs of 40 batches, each asked about 12 batches that it has not seen, planned and running.
    const counts = { planned: 0, within: 0, bySaidDay: 0, running: 0, runningWithin: 0 };
    for (let seed = 1; seed <= 150; seed += 1) {
      const fit = fitRegression(club(seed, distribution).data, distribution);
      if (fit.kind !== 'estimate' || fit.setAside.length > 0) continue;
      const random = seededRandom(100_000 + seed);
      for (let asked = 0; asked < 12; asked += 1) {
        const source = (['clover', 'lime', 'heather'] as const)[asked % 3]!;
        const seedPercent = 3 + 12 * random();
        const linear = Math.log(sources[source]) - 0.05 * (seedPercent - 8);
        const scale = distribution === 'loglogistic' ? 0.22 : 0.4;
        const time = drawnTime(random, distribution, linear, scale);
        const belief = beliefFromRegression(fit, { source, seedPercent });
        if (belief.kind !== 'belief') throw new Error('expected a belief');

        const share = chanceSetBy(belief, time);
        counts.planned += 1;
        if (share > 0.1 && share < 0.9) counts.within += 1;
        if (share < 0.8) counts.bySaidDay += 1;
        const lastLook = Math.floor(0.8 * sources[source]);
        if (time <= lastLook) continue;
        const running = chanceSetBy(belief, time, lastLook);
        counts.running += 1;
        if (running > 0.1 && running < 0.9) counts.runningWithin += 1;
      }
    }

    const { planned, within, bySaidDay, running, runningWithin } = counts;
    expect(planned).toBeGreaterThan(1700);
    for (const covered of [within / planned, bySaidDay / planned, runningWithin / running]) {
      expect(covered).toBeGreaterThan(0.76);
      expect(covered).toBeLessThan(0.84);
    }
  },
);
