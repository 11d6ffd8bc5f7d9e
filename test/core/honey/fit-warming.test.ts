import type { TemperatureAt } from '../../../src/core/honey/air-plan';
import { MELTING_ENTHALPY_J_PER_KG } from '../../../src/core/honey/crystals';
import { fitWarming, type WarmingLog } from '../../../src/core/honey/fit-warming';
import { inverse } from '../../../src/core/honey/solve-symmetric';
import { studentT95 } from '../../../src/core/honey/student-t';
import { warmPails } from '../../../src/core/honey/warm-pails';
import { normalDeviates } from '../../support/normal-deviates';

const shape = { diameterM: 0.29, fillHeightM: 0.267 };
const honey = {
  conductivityWPerMK: 0.536,
  densityKgPerM3: 1421,
  specificHeatJPerKgK: 2260,
  meltingHeatJPerKg: 0,
  meltingFromC: 30,
  meltingToC: 42,
};
const airReadings: TemperatureAt[] = [
  { atHours: 0, temperatureC: 18 },
  { atHours: 3, temperatureC: 44 },
  { atHours: 96, temperatureC: 45 },
];
const truth = { film: 6.5, crystals: 14, startC: 12.4 };

/** What a probe in the core of a pail with known film and crystals would log, on the fine grid. */
const exactCore = (untilHours: number): TemperatureAt[] =>
  warmPails({
    pails: [
      {
        count: 1,
        shape,
        honey: { ...honey, meltingHeatJPerKg: (truth.crystals / 100) * MELTING_ENTHALPY_J_PER_KG },
        films: { sideWPerM2K: truth.film, topWPerM2K: truth.film, bottomWPerM2K: truth.film },
        startC: truth.startC,
      },
    ],
    air: { kind: 'logged', readings: airReadings },
    untilHours,
  }).groups[0]!.samples.map(({ atHours, coreC }) => ({ atHours, temperatureC: coreC }));

const log = (coreReadings: TemperatureAt[]): WarmingLog => ({
  shape,
  honey,
  coreReadings,
  airReadings,
});
const withNoise = (readings: TemperatureAt[], sigmaC: number, seed: number) => {
  const deviate = normalDeviates(seed);
  return readings.map(({ atHours, temperatureC }) => ({
    atHours,
    temperatureC: temperatureC + sigmaC * deviate(),
  }));
};
const fitted = (readings: TemperatureAt[]) => {
  const fit = fitWarming(log(readings));
  if (fit.kind !== 'fitted') throw new Error(fit.kind);
  return fit;
};

describe('fitting film and crystals to a logged warm-up', () => {
  test('a log without noise gives back what made it, but for the coarser grid', () => {
    const { filmWPerM2K, crystalPercent, startC, scatterC, readings } = fitted(exactCore(72));

    expect(Math.abs(filmWPerM2K.value - truth.film)).toBeLessThan(0.05);
    expect(Math.abs(crystalPercent.value - truth.crystals)).toBeLessThan(0.2);
    expect(Math.abs(startC.value - truth.startC)).toBeLessThan(0.2);
    expect(scatterC).toBeLessThan(0.12);
    expect(readings).toBe(73);
  });

  test('of two dozen noisy logs nearly all 95 % intervals hold the truth, and errors are as told', () => {
    const exact = exactCore(60);
    const fits = Array.from({ length: 24 }, (_, seed) => fitted(withNoise(exact, 0.4, 1 + seed)));

    for (const [of, truly] of [
      ['filmWPerM2K', truth.film],
      ['crystalPercent', truth.crystals],
    ] as const) {
      const estimates = fits.map((fit) => fit[of]);
      // Binomial(24, 0.95): fewer than 18 happens less than once in a thousand times.
      const held = estimates.filter(({ lower, upper }) => lower <= truly && truly <= upper);
      expect(held.length).toBeGreaterThanOrEqual(18);

      // Chi-square, 23 degrees of freedom: the ratio is within 0.57 and 1.5 but once in a thousand.
      const mean = estimates.reduce((sum, { value }) => sum + value, 0) / 24;
      const variance = estimates.reduce((sum, { value }) => sum + (value - mean) ** 2, 0) / 23;
      const told = estimates.reduce((sum, { standardError }) => sum + standardError ** 2, 0) / 24;
      expect(Math.sqrt(variance / told)).toBeGreaterThan(0.57);
      expect(Math.sqrt(variance / told)).toBeLessThan(1.5);
    }
    for (const { scatterC } of fits) expect(Math.abs(scatterC - 0.4)).toBeLessThan(0.15);
  }, 60_000);

  test('the interval is Student’s t times the standard error on either side', () => {
    const { filmWPerM2K, readings } = fitted(withNoise(exactCore(40), 0.3, 7));

    const width = studentT95(readings - 3) * filmWPerM2K.standardError;
    expect(filmWPerM2K.upper - filmWPerM2K.value).toBeCloseTo(width, 12);
    expect(filmWPerM2K.value - filmWPerM2K.lower).toBeCloseTo(width, 12);
  });

  test('eleven readings are too few', () => {
    expect(fitWarming(log(exactCore(10)))).toEqual({ kind: 'too-few', readings: 11, needed: 12 });
    expect(fitWarming(log([])).kind).toBe('too-few');
  });

  test('a log that ends before anything melted, or never warmed, settles nothing', () => {
    const cold = withNoise(exactCore(11), 0.3, 3);
    expect(fitWarming(log(cold)).kind).toBe('undetermined');

    const flat = {
      ...log(exactCore(40)),
      airReadings: airReadings.map((r) => ({ ...r, temperatureC: 12 })),
    };
    const resting = flat.coreReadings.map((r) => ({ ...r, temperatureC: 12 }));
    expect(fitWarming({ ...flat, coreReadings: resting }).kind).toBe('undetermined');
  });

  test('no crystals at all is found as none, with an interval that stays above zero', () => {
    const plain = warmPails({
      pails: [
        {
          count: 1,
          shape,
          honey,
          films: { sideWPerM2K: 6.5, topWPerM2K: 6.5, bottomWPerM2K: 6.5 },
          startC: 12,
        },
      ],
      air: { kind: 'logged', readings: airReadings },
      untilHours: 60,
    }).groups[0]!.samples.map(({ atHours, coreC }) => ({ atHours, temperatureC: coreC }));

    const { crystalPercent } = fitted(withNoise(plain, 0.2, 5));

    expect(crystalPercent.value).toBeLessThan(1.5);
    expect(crystalPercent.lower).toBe(0);
  });

  test('readings from before the pail was put in are refused', () => {
    const early = exactCore(40).map(({ atHours, temperatureC }) => ({
      atHours: atHours - 1,
      temperatureC,
    }));

    expect(() => fitWarming(log(early))).toThrow(/atHours must be a number from 0 upwards/);
  });
});

describe('the tools of the fit', () => {
  // Student's t, two-sided 95 %, from the usual tables (Abramowitz & Stegun 1964, Table 26.10, and
  // later ones to five decimals).
  test.each([
    [9, 2.26216],
    [10, 2.22814],
    [20, 2.08596],
    [30, 2.04227],
    [60, 2.0003],
    [120, 1.97993],
    [1e9, 1.95996],
  ])('with %d degrees of freedom t is %d', (degreesOfFreedom, t) => {
    expect(Math.abs(studentT95(degreesOfFreedom) - t)).toBeLessThan(0.00002);
  });

  test('fewer than nine degrees of freedom are refused', () => {
    expect(() => studentT95(8.9)).toThrow(/degreesOfFreedom must be a number from 9 upwards/);
  });

  // By hand: the inverse of [[4, 2], [2, 3]] is [[3, −2], [−2, 4]] / 8.
  test('a small matrix is inverted, a singular one is not', () => {
    expect(
      inverse([
        [4, 2],
        [2, 3],
      ]),
    ).toEqual([
      [0.375, -0.25],
      [-0.25, 0.5],
    ]);
    expect(
      inverse([
        [1, 2],
        [2, 4],
      ]),
    ).toBeUndefined();
    expect(
      inverse([
        [0, 0],
        [0, 1],
      ]),
    ).toBeUndefined();
  });
});
