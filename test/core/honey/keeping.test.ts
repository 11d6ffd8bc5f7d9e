import fc from 'fast-check';
import { heatDamage } from '../../../src/core/honey/keeping';
import {
  doseOver,
  historyOfReadings,
  historyOfSteps,
} from '../../../src/core/honey/temperature-history';

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
