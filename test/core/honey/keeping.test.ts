import fc from 'fast-check';
import { heatDamage } from '../../../src/core/honey/keeping';
import { headroom, LEGAL_LIMITS, type HoneyState } from '../../../src/core/honey/keeping-limits';
import { pailDamage } from '../../../src/core/honey/pail-damage';
import {
  doseOver,
  historyOfReadings,
  historyOfSteps,
} from '../../../src/core/honey/temperature-history';
import { warmPails } from '../../../src/core/honey/warm-pails';

const held = (hours: number, temperatureC: number) =>
  heatDamage(historyOfSteps([{ hours, temperatureC }]));
const temperature = fc.double({ min: 10, max: 80, noNaN: true });

describe('what a history of temperatures costs', () => {
  // Derived from the half-lives of White, Kushnir & Subers 1964.
  test.each([
    [48, 40, 0.956],
    [24, 50, 0.879],
    [48, 50, 0.773],
    [1, 60, 0.973],
  ])('%d h at %d °C leave %d of the diastase', (hours, temperatureC, left) => {
    expect(Math.abs(held(hours, temperatureC).diastaseLeft - left)).toBeLessThan(0.002);
  });

  // The same, from half-lives remembered (high).
  test.each([
    [48, 40, 0.866],
    [24, 50, 0.582],
    [1, 60, 0.863],
  ])('%d h at %d °C leave %d of the invertase', (hours, temperatureC, left) => {
    expect(Math.abs(held(hours, temperatureC).invertaseLeft - left)).toBeLessThan(0.003);
  });

  // HMF bands (see hmf.test.ts): 30 mg/kg at 40 °C after 20 to 50 days.
  test('35 days at 40 °C gain about 30 mg/kg of HMF, at the extremes 21 and 52.5', () => {
    const { hmfGainMgPerKg, hours } = held(35 * 24, 40);

    expect(hours).toBe(840);
    expect(hmfGainMgPerKg.least).toBeCloseTo(21, 6);
    expect(hmfGainMgPerKg.most).toBeCloseTo(52.5, 6);
    expect(Math.abs(hmfGainMgPerKg.likely - 33.2)).toBeLessThan(0.05);
  });

  // Diyala 2023: 40 °C for up to 95 h: no significant change of HMF or diastase.
  test('four days at 40 °C change little', () => {
    const { hmfGainMgPerKg, diastaseLeft } = held(95, 40);

    expect(hmfGainMgPerKg.likely).toBeLessThan(5);
    expect(diastaseLeft).toBeGreaterThan(0.9);
  });

  test('time below 10 °C is counted at 10 °C and told apart', () => {
    const cold = heatDamage(
      historyOfReadings(
        [
          { atHours: 0, temperatureC: 14 },
          { atHours: 4, temperatureC: 6 },
          { atHours: 10, temperatureC: -12 },
        ],
        24,
      ),
    );

    expect(cold.hours).toBe(10);
    expect(cold.hoursBelowRange).toBeCloseTo(8, 9);
    expect(held(100, -20)).toEqual({ ...held(100, 10), hoursBelowRange: 100 });
    expect(held(100, 10).hoursBelowRange).toBe(0);
  });

  test('a history above 80 °C, or in steps that last less than nothing, is refused', () => {
    expect(() => held(1, 80.1)).toThrow(/temperatureC must be a number from -40 to 80/);
    expect(() => held(1, -40.1)).toThrow(/temperatureC must be a number from -40 to 80/);
    expect(() => held(-1, 40)).toThrow(/hours must be a number from 0 upwards/);
    expect(held(0, 40).diastaseLeft).toBe(1);
  });

  test('it does not matter where a history is split', () => {
    fc.assert(
      fc.property(
        temperature,
        temperature,
        fc.double({ min: 0.01, max: 500, noNaN: true }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (fromC, toC, hours, part) => {
          const start = { atHours: 0, temperatureC: fromC };
          const end = { atHours: hours, temperatureC: toC };
          const middle = { atHours: hours * part, temperatureC: fromC + part * (toC - fromC) };

          const whole = heatDamage(historyOfReadings([start, end], 1000));
          const split = heatDamage(historyOfReadings([start, middle, end], 1000));

          const close = (a: number, b: number) =>
            expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-7 * Math.abs(b) + 1e-300);
          close(split.hmfGainMgPerKg.likely, whole.hmfGainMgPerKg.likely);
          close(split.hmfGainMgPerKg.most, whole.hmfGainMgPerKg.most);
          close(Math.log(split.diastaseLeft), Math.log(whole.diastaseLeft));
          close(split.hours, whole.hours);
        },
      ),
      { numRuns: 1000 },
    );
  });

  // Independent calculation: the trapezoid rule in two thousand pieces.
  test('a ramp is summed as a fine staircase would be', () => {
    const rate = (temperatureC: number) => Math.exp(0.15 * temperatureC);
    const pieces = 2000;
    let staircase = 0;
    for (let piece = 0; piece < pieces; piece += 1) {
      staircase += rate(60 - (45.3 * (piece + 0.5)) / pieces) * (7 / pieces);
    }

    expect(doseOver({ hours: 7, fromC: 60, toC: 14.7 }, rate) / staircase).toBeCloseTo(1, 5);
    // By hand: ∫ exp(0.15·T) dt over the ramp.
    const exact = ((rate(60) - rate(14.7)) / 0.15 / 45.3) * 7;
    expect(doseOver({ hours: 7, fromC: 60, toC: 14.7 }, rate) / exact).toBeCloseTo(1, 9);
    expect(doseOver({ hours: 7, fromC: 14.7, toC: 60 }, rate) / exact).toBeCloseTo(1, 9);
  });

  test('an hour more or a degree warmer costs more', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 78, noNaN: true }),
        fc.double({ min: 1, max: 48, noNaN: true }),
        (temperatureC, hours) => {
          const usual = held(hours, temperatureC);

          for (const more of [held(hours + 1, temperatureC), held(hours, temperatureC + 1)]) {
            expect(more.hmfGainMgPerKg.least).toBeGreaterThan(usual.hmfGainMgPerKg.least);
            expect(more.diastaseLeft).toBeLessThan(usual.diastaseLeft);
            expect(more.invertaseLeft).toBeLessThanOrEqual(usual.invertaseLeft);
          }
        },
      ),
      { numRuns: 1000 },
    );
  });
});

describe('a logged history', () => {
  const reading = (atHours: number, temperatureC: number) => ({ atHours, temperatureC });

  test('a gap is counted at the warmer of its ends and told', () => {
    const withGap = historyOfReadings([reading(0, 20), reading(1, 20), reading(9, 50)], 2);

    expect(withGap.gapHours).toBe(8);
    expect(withGap.ramps).toEqual([
      { hours: 1, fromC: 20, toC: 20 },
      { hours: 8, fromC: 50, toC: 50 },
    ]);
    expect(heatDamage(withGap).gapHours).toBe(8);
    const cooling = historyOfReadings([reading(0, 50), reading(9, 20)], 2);
    expect(cooling.ramps).toEqual([{ hours: 9, fromC: 50, toC: 50 }]);
  });

  test('readings just as far apart as allowed are joined by a straight line', () => {
    const joined = historyOfReadings([reading(0, 20), reading(2, 50)], 2);

    expect(joined).toEqual({ ramps: [{ hours: 2, fromC: 20, toC: 50 }], gapHours: 0 });
  });

  test('no reading, or one, is no history', () => {
    expect(historyOfReadings([], 2).ramps).toEqual([]);
    expect(historyOfReadings([reading(3, 20)], 2)).toEqual({ ramps: [], gapHours: 0 });
  });

  test('readings that do not follow each other, or no number, are refused', () => {
    const of =
      (...readings: { atHours: number; temperatureC: number }[]) =>
      () =>
        historyOfReadings(readings, 2);

    expect(of(reading(1, 20), reading(1, 20))).toThrow('readings must follow each other in time');
    expect(of(reading(NaN, 20))).toThrow('atHours must be a number');
    expect(of(reading(0, 81))).toThrow(/temperatureC must be a number from -40 to 80/);
    expect(() => historyOfReadings([], 0.5)).not.toThrow();
    expect(() => historyOfReadings([], 0)).toThrow('longestGapHours must be a number above 0');
    expect(() => historyOfReadings([], NaN)).toThrow('longestGapHours must be a number above 0');
  });
});

describe('what a warming costs across a pail', () => {
  const warmed = (keepCells: boolean) =>
    warmPails({
      pails: [
        {
          count: 1,
          shape: { diameterM: 0.29, fillHeightM: 0.267 },
          honey: {
            conductivityWPerMK: 0.536,
            densityKgPerM3: 1421,
            specificHeatJPerKgK: 2260,
            meltingHeatJPerKg: 16_300,
            meltingFromC: 35,
            meltingToC: 45,
          },
          films: { sideWPerM2K: 5, topWPerM2K: 5, bottomWPerM2K: 5 },
          startC: 12,
          grid: { rings: 6, layers: 7 },
        },
      ],
      air: { kind: 'held', temperatures: [{ fromHours: 0, temperatureC: 50 }] },
      untilHours: 48,
      keepCells,
    }).groups[0]!;

  test('the edge suffers most, the core least, and the mean lies between', () => {
    const group = warmed(true);

    const { worst, best, mean } = pailDamage(group)!;

    const core = heatDamage(
      historyOfReadings(
        group.samples.map(({ atHours, coreC }) => ({ atHours, temperatureC: coreC })),
        2,
      ),
    );
    const edge = heatDamage(
      historyOfReadings(
        group.samples.map(({ atHours, warmestC }) => ({ atHours, temperatureC: warmestC })),
        2,
      ),
    );
    expect(worst.diastaseLeft).toBeLessThan(mean.diastaseLeft);
    expect(mean.diastaseLeft).toBeLessThan(best.diastaseLeft);
    expect(Math.abs(best.diastaseLeft - core.diastaseLeft)).toBeLessThan(0.002);
    expect(worst).toEqual(edge);
    expect(worst.hmfGainMgPerKg.likely).toBeGreaterThan(mean.hmfGainMgPerKg.likely);
    expect(mean.hmfGainMgPerKg.least).toBeLessThan(mean.hmfGainMgPerKg.likely);
    expect(mean.hmfGainMgPerKg.likely).toBeLessThan(mean.hmfGainMgPerKg.most);
    expect(mean.hours).toBe(48);
    expect(mean.gapHours).toBe(0);
    expect(mean.hoursBelowRange).toBe(0);
  });

  test('a pail all at one temperature suffers the same everywhere', () => {
    const cellsC = Float64Array.of(45, 45);
    const temperatures = { coreC: 45, surfaceC: 45, meanC: 45, coldestC: 45, warmestC: 45 };
    const sample = (atHours: number) => ({ ...temperatures, meltedPercent: 0, atHours, cellsC });

    const found = pailDamage({
      samples: [sample(0), sample(24)],
      cellShare: Float64Array.of(0.25, 0.75),
    })!;

    for (const part of [found.worst, found.best, found.mean]) {
      expect(part.diastaseLeft).toBeCloseTo(held(24, 45).diastaseLeft, 12);
      expect(part.invertaseLeft).toBeCloseTo(held(24, 45).invertaseLeft, 12);
      expect(part.hmfGainMgPerKg.most).toBeCloseTo(held(24, 45).hmfGainMgPerKg.most, 12);
    }
  });

  test('without the cells there is no answer, and one sample is too few', () => {
    expect(() => pailDamage(warmed(false))).toThrow(/cellsC must be kept with every sample/);
    expect(pailDamage({ samples: [], cellShare: Float64Array.of(1) })).toBeUndefined();
  });
});

describe('what is left of the limits', () => {
  const fresh: HoneyState = { hmfMgPerKg: 10, diastaseNumber: 16, invertaseLeft: 1 };

  // Directive 2001/110/EC, Annex II.
  test('the law asks for HMF of at most 40 mg/kg and diastase of at least 8, with two exceptions', () => {
    expect(LEGAL_LIMITS).toEqual({
      general: { hmfMgPerKg: 40, diastaseNumber: 8 },
      'low-enzyme': { hmfMgPerKg: 15, diastaseNumber: 3 },
      tropical: { hmfMgPerKg: 80, diastaseNumber: 8 },
    });
  });

  // White, Kushnir & Subers 1964: diastase halves at 20 °C in 1480 d. UK club table: +30 in 300 d.
  test('kept at 20 °C, HMF of 10 reaches 40 in 300 days at the earliest; diastase halves in 1480', () => {
    const [binding, other] = headroom({ state: fresh, law: LEGAL_LIMITS.general, keptAtC: 20 });

    expect(binding).toMatchObject({ limit: 'hmf', rule: 'law', limitValue: 40, left: 30 });
    expect(binding!.daysLeft).toBeCloseTo(300, 6);
    expect(other).toMatchObject({ limit: 'diastase', rule: 'law', limitValue: 8, left: 8 });
    expect(Math.abs(other!.daysLeft / 1480 - 1)).toBeLessThan(0.01);
  });

  test('a stricter club limit binds before the law', () => {
    const [binding, ...others] = headroom({
      state: fresh,
      law: LEGAL_LIMITS.general,
      club: { hmfMgPerKg: 15, diastaseNumber: 10, invertaseLeft: 0.8 },
      keptAtC: 20,
    });

    expect(binding).toMatchObject({ limit: 'hmf', rule: 'club', limitValue: 15, left: 5 });
    expect(others.map(({ limit, rule }) => `${rule} ${limit}`)).toContain('club invertase');
    expect(others).toHaveLength(4);
    // By hand: ln(1/0.8) of 820 d / ln 2 (half-life remembered, high).
    const invertase = others.find(({ limit }) => limit === 'invertase')!;
    expect(Math.abs(invertase.daysLeft / ((820 * Math.log(1.25)) / Math.LN2) - 1)).toBeLessThan(
      0.01,
    );
    expect(invertase.left).toBeCloseTo(0.2, 12);
  });

  test('a limit that is reached or passed leaves no day', () => {
    const [binding, other] = headroom({
      state: { hmfMgPerKg: 41, diastaseNumber: 8, invertaseLeft: 1 },
      law: LEGAL_LIMITS.general,
      keptAtC: 14,
    });

    expect([binding!.daysLeft, other!.daysLeft]).toEqual([0, 0]);
    const left = Object.fromEntries([binding!, other!].map((entry) => [entry.limit, entry.left]));
    expect(left).toEqual({ hmf: -1, diastase: 0 });
  });

  test('without any limit there is nothing to bind', () => {
    expect(headroom({ state: fresh, keptAtC: 20 })).toEqual([]);
  });

  test('warmer keeping never leaves more days', () => {
    fc.assert(
      fc.property(fc.double({ min: 10, max: 79, noNaN: true }), (keptAtC) => {
        const days = (temperatureC: number) =>
          headroom({
            state: fresh,
            law: LEGAL_LIMITS.general,
            club: { invertaseLeft: 0.5 },
            keptAtC: temperatureC,
          })[0]!.daysLeft;

        expect(days(keptAtC + 1)).toBeLessThan(days(keptAtC));
      }),
      { numRuns: 1000 },
    );
  });

  test('states, limits and temperatures without sense are refused', () => {
    const of =
      (state: Partial<HoneyState>, keptAtC = 20, club = {}) =>
      () =>
        headroom({ state: { ...fresh, ...state }, club, keptAtC });

    expect(of({ hmfMgPerKg: -1 })).toThrow(/hmfMgPerKg must be a number from 0 to 10000/);
    expect(of({ diastaseNumber: NaN })).toThrow(/diastaseNumber must be a number from 0 to 1000/);
    expect(of({ invertaseLeft: 1.1 })).toThrow(/invertaseLeft must be a number from 0 to 1/);
    expect(of({}, 9)).toThrow(/temperatureC must be a number from 10 to 80/);
    expect(of({}, 20, { hmfMgPerKg: -1 })).toThrow(/hmfMgPerKg must be/);
    expect(of({}, 20, { diastaseNumber: -1 })).toThrow(/diastaseNumber must be/);
    expect(of({}, 20, { invertaseLeft: 2 })).toThrow(/invertaseLeft must be/);
  });
});
