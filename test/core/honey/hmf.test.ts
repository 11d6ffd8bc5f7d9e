import fc from 'fast-check';
import { hmfGainPerHour } from '../../../src/core/honey/hmf';

const DAY = 24;
const YEAR = 365.25 * DAY;
const hoursTo30 = (temperatureC: number, pace: 'least' | 'likely' | 'most') =>
  30 / hmfGainPerHour(temperatureC, pace);

describe('HMF formed by warmth', () => {
  // White et al. as copied in the Manual of Beekeeping (3 samples); an adviser of the Danish
  // Beekeepers' Association. Hours to gain 30 mg/kg.
  test.each([
    [30, 100 * DAY, 300 * DAY, 'Manual of Beekeeping'],
    [40, 20 * DAY, 50 * DAY, 'Manual of Beekeeping'],
    [50, 4 * DAY, 10 * DAY, 'Manual of Beekeeping'],
    [60, 1 * DAY, 2.5 * DAY, 'Manual of Beekeeping'],
    [70, 3, 5, 'Manual of Beekeeping'],
    [80, 0, 2, 'Manual of Beekeeping'],
    [10, 25 * YEAR, 30 * YEAR, 'Danish adviser'],
    [20, 600 * DAY, 800 * DAY, 'Danish adviser'],
    [30, 150 * DAY, 250 * DAY, 'Danish adviser'],
    [40, 20 * DAY, 50 * DAY, 'Danish adviser'],
    [50, 4.5 * DAY, 9 * DAY, 'Danish adviser'],
    [60, 1 * DAY, 2.5 * DAY, 'Danish adviser'],
    [70, 5, 15, 'Danish adviser'],
    [80, 0.5, 40 / 60, 'Danish adviser'],
  ])('at %d °C the likely wait for 30 mg/kg lies from %d to %d hours (%s)', (t, from, to) => {
    expect(hoursTo30(t, 'likely')).toBeGreaterThanOrEqual(from - 1e-9);
    expect(hoursTo30(t, 'likely')).toBeLessThanOrEqual(to + 1e-9);
  });

  // The outer ends of all published bands, the UK club table (300 d, 60 d, 4.5 h) among them.
  test.each([
    [10, 25 * YEAR, 30 * YEAR],
    [20, 300 * DAY, 800 * DAY],
    [30, 60 * DAY, 300 * DAY],
    [40, 20 * DAY, 50 * DAY],
    [50, 4 * DAY, 10 * DAY],
    [60, 1 * DAY, 2.5 * DAY],
    [70, 3, 15],
    [80, 0.5, 2],
  ])('at %d °C the waits run from %d to %d hours', (temperatureC, shortest, longest) => {
    expect(hoursTo30(temperatureC, 'most') / shortest).toBeCloseTo(1, 9);
    expect(hoursTo30(temperatureC, 'least') / longest).toBeCloseTo(1, 9);
  });

  // Derived: the geometric means of the bands, mg/kg per day. At 70 °C, where the bands (3–5 and
  // 5–15 h) meet at 5 h only, their geometric mean of 83 is not the likely rate but within reach.
  test('the likely rate is the geometric mean of the bands', () => {
    const perDay = (temperatureC: number) => hmfGainPerHour(temperatureC, 'likely') * DAY;

    expect(Math.abs(perDay(30) / 0.155 - 1)).toBeLessThan(0.01);
    expect(Math.abs(perDay(40) / 0.95 - 1)).toBeLessThan(0.01);
    expect(Math.abs(perDay(50) / 4.7 - 1)).toBeLessThan(0.015);
    expect(Math.abs(perDay(60) / 19 - 1)).toBeLessThan(0.01);
    expect(hmfGainPerHour(70, 'least') * DAY).toBeLessThan(83);
    expect(hmfGainPerHour(70, 'most') * DAY).toBeGreaterThan(83);
  });

  // Derived: Q10 from 40 to 50 °C is about 5.
  test('ten degrees more, from 40 to 50 °C, form it about five times as fast', () => {
    expect(hmfGainPerHour(50, 'likely') / hmfGainPerHour(40, 'likely')).toBeCloseTo(5, 1);
  });

  // By hand: halfway between 40 and 50 °C in 1/T lies 44.92 °C; the rate there is the geometric mean.
  test('between the published temperatures the logarithm follows 1/T', () => {
    const middleC = 2 / (1 / 313.15 + 1 / 323.15) - 273.15;

    const found = hmfGainPerHour(middleC, 'likely');

    const mean = Math.sqrt(hmfGainPerHour(40, 'likely') * hmfGainPerHour(50, 'likely'));
    expect(found / mean).toBeCloseTo(1, 9);
  });

  test('warmer always forms more, and the paces keep their order', () => {
    fc.assert(
      fc.property(fc.double({ min: 10, max: 79.9, noNaN: true }), (temperatureC) => {
        const [least, likely, most] = (['least', 'likely', 'most'] as const).map((pace) => {
          const here = hmfGainPerHour(temperatureC, pace);
          expect(hmfGainPerHour(temperatureC + 0.1, pace)).toBeGreaterThan(here);
          return here;
        });
        expect(least).toBeLessThan(likely!);
        expect(likely).toBeLessThan(most!);
      }),
      { numRuns: 1000 },
    );
  });

  test.each([9.9, 80.1, NaN])('no rate is given at %d °C', (temperatureC) => {
    expect(() => hmfGainPerHour(temperatureC, 'likely')).toThrow(
      /temperatureC must be a number from 10 to 80/,
    );
  });
});
