import fc from 'fast-check';
import { diastaseLossPerHour, invertaseLossPerHour } from '../../../src/core/honey/enzyme-loss';

const halfLifeHours = (perHour: number) => Math.LN2 / perHour;
const DAY = 24;
const YEAR = 365.25 * DAY;

describe('enzymes lost to warmth', () => {
  // White, Kushnir & Subers 1964, Food Technology 18(4), as reproduced by Crane 1980.
  test.each([
    [20, 1480 * DAY, 0.03],
    [30, 200 * DAY, 0.03],
    [40, 31 * DAY, 0.03],
    [50, 5.38 * DAY, 0.03],
    [60, 1.05 * DAY, 0.03],
    [70, 5.3, 0.04],
    [80, 1.2, 0.04],
    [10, 34 * YEAR, 0.04],
    [52, 3 * DAY, 0.4],
  ])('half the diastase is lost at %d °C in %d hours', (temperatureC, hours, tolerance) => {
    const found = halfLifeHours(diastaseLossPerHour(temperatureC));

    expect(Math.abs(found / hours - 1)).toBeLessThan(tolerance);
  });

  // The same, from memory (high).
  test.each([
    [25, 540],
    [32, 126],
    [35, 78],
  ])('half the diastase is lost at %d °C in %d days', (temperatureC, days) => {
    const found = halfLifeHours(diastaseLossPerHour(temperatureC));

    expect(Math.abs(found / (days * DAY) - 1)).toBeLessThan(0.15);
  });

  // White, Kushnir & Subers 1964 (Crane 1980, Table 8): 30 and 70 °C read.
  test.each([
    [30, 83 * DAY],
    [70, 47 / 60],
  ])('half the invertase is lost at %d °C in %d hours', (temperatureC, hours) => {
    const found = halfLifeHours(invertaseLossPerHour(temperatureC));

    expect(Math.abs(found / hours - 1)).toBeLessThan(0.02);
  });

  // The same table, rounded figures read: 26 and 2 years, 10 days, 1 day, 5 hours, 9 minutes.
  test.each([
    [10, 26, YEAR],
    [20, 2, YEAR],
    [40, 10, DAY],
    [50, 1, DAY],
    [60, 5, 1],
    [80, 9, 1 / 60],
  ])('rounded, the half-life of invertase at %d °C is %d units', (temperatureC, count, unit) => {
    const found = halfLifeHours(invertaseLossPerHour(temperatureC)) / unit;

    expect(Math.round(found)).toBe(count);
  });

  // The same, from memory (high): 820 d, 9.6 d, 1.28 d, 4.7 h, 8.6 min.
  test.each([
    [20, 820 * DAY],
    [40, 9.6 * DAY],
    [50, 1.28 * DAY],
    [60, 4.7],
    [80, 8.6 / 60],
  ])('half the invertase is lost at %d °C in %d hours (remembered)', (temperatureC, hours) => {
    const found = halfLifeHours(invertaseLossPerHour(temperatureC));

    expect(Math.abs(found / hours - 1)).toBeLessThan(0.02);
  });

  // Derived from the rows of 20 to 80 °C: 147.5 kJ/mol (published from memory: 35.0 kcal/mol, 146).
  test('the activation energies are those of the published rows', () => {
    const energy = (rate: (temperatureC: number) => number) =>
      (8.314 * Math.log(rate(80) / rate(20))) / (1 / 293.15 - 1 / 353.15) / 1000;

    expect(Math.abs(energy(diastaseLossPerHour) - 147.5)).toBeLessThan(0.5);
    expect(Math.abs(energy(invertaseLossPerHour) - 169.6)).toBeLessThan(0.5);
  });

  // Calderone (Cornell): 40 days at 25 °C do as much damage as 60 minutes at 145 °F (62.8 °C).
  test('an hour at 62.8 °C costs about as much as 40 days at 25 °C', () => {
    const equal = diastaseLossPerHour(62.8) / (diastaseLossPerHour(25) * DAY);

    expect(Math.abs(equal / 40 - 1)).toBeLessThan(0.2);
  });

  test('warmer always costs more, of invertase more than of diastase', () => {
    fc.assert(
      fc.property(fc.double({ min: 10, max: 79.9, noNaN: true }), (temperatureC) => {
        expect(diastaseLossPerHour(temperatureC + 0.1)).toBeGreaterThan(
          diastaseLossPerHour(temperatureC),
        );
        expect(invertaseLossPerHour(temperatureC + 0.1)).toBeGreaterThan(
          invertaseLossPerHour(temperatureC),
        );
        expect(invertaseLossPerHour(temperatureC)).toBeGreaterThan(
          diastaseLossPerHour(temperatureC),
        );
      }),
      { numRuns: 1000 },
    );
  });

  test.each([9.9, 80.1, NaN])('no rate is given at %d °C', (temperatureC) => {
    const range = /temperatureC must be a number from 10 to 80/;

    expect(() => diastaseLossPerHour(temperatureC)).toThrow(range);
    expect(() => invertaseLossPerHour(temperatureC)).toThrow(range);
  });
});
