import type { TemperatureAt } from '../../../src/core/honey/air-plan';
import { fitWarming } from '../../../src/core/honey/fit-warming';
import { fittedClearing } from '../../../src/core/honey/fitted-clearing';
import { MELTING_ENTHALPY_J_PER_KG } from '../../../src/core/honey/crystals';
import { studentT95 } from '../../../src/core/honey/student-t';
import { warmPails } from '../../../src/core/honey/warm-pails';
import { normalDeviates } from '../../support/normal-deviates';
import { allRound, MELTED, PAIL } from './pails';

const airReadings: TemperatureAt[] = [
  { atHours: 0, temperatureC: 45 },
  { atHours: 1, temperatureC: 45 },
];
const truth = {
  count: 1,
  shape: PAIL,
  honey: { ...MELTED, meltingHeatJPerKg: 0.14 * MELTING_ENTHALPY_J_PER_KG },
  films: allRound(6.5),
  startC: 12,
};
const { groups } = warmPails({
  pails: [truth],
  air: { kind: 'logged', readings: airReadings },
  untilHours: 50,
  clearC: 40,
});
const exact = groups[0]!.samples.map(({ atHours, coreC }) => ({ atHours, temperatureC: coreC }));
const exactHours = groups[0]!.clearAtHours!;

function fitOf(seed: number, sigmaC = 0.4) {
  const deviate = normalDeviates(seed);
  const coreReadings = exact.map(({ atHours, temperatureC }) => ({
    atHours,
    temperatureC: temperatureC + sigmaC * deviate(),
  }));
  const fit = fitWarming({ shape: PAIL, honey: MELTED, coreReadings, airReadings });
  if (fit.kind !== 'fitted') throw new Error(fit.kind);
  return fit;
}

const clearing = (fit: ReturnType<typeof fitOf>, airC = 45, startC = 12) =>
  fittedClearing({
    fit,
    pail: { ...truth, films: allRound(1), honey: MELTED, startC },
    airReadings: airReadings.map((reading) => ({ ...reading, temperatureC: airC })),
    clearC: 40,
    mostHours: 240,
  });

test('a log without noise gives the hours of the pail that made it, but for the coarser grid', () => {
  const hours = clearing(fitOf(1, 0))!;

  expect(Math.abs(hours.value - exactHours)).toBeLessThan(0.01 * exactHours);
});

test('of noisy logs nearly all 95 % intervals hold the true hours, and errors are as told', () => {
  const hours = Array.from({ length: 16 }, (_, index) => clearing(fitOf(index + 1))!);

  // Binomial(16, 0.95): fewer than 12 happens less than once in a thousand times.
  const held = hours.filter(({ lower, upper }) => lower <= exactHours && exactHours <= upper);
  expect(held.length).toBeGreaterThanOrEqual(12);
  // Chi-square, 15 degrees of freedom: the ratio is within 0.48 and 1.59 but once in a thousand.
  const mean = hours.reduce((sum, { value }) => sum + value, 0) / 16;
  const variance = hours.reduce((sum, { value }) => sum + (value - mean) ** 2, 0) / 15;
  const told = hours.reduce((sum, { standardError }) => sum + standardError ** 2, 0) / 16;
  expect(Math.sqrt(variance / told)).toBeGreaterThan(0.48);
  expect(Math.sqrt(variance / told)).toBeLessThan(1.59);
}, 60_000);

test('film and crystals err together: the hours are surer than either alone would make them', () => {
  const fit = fitOf(3);
  const { value, lower, upper, standardError } = clearing(fit)!;

  expect(upper - value).toBeCloseTo(studentT95(fit.readings - 3) * standardError, 10);
  expect(value - lower).toBeCloseTo(upper - value, 10);
  const alone = fit.covariance.map((row, at) =>
    row.map((entry, column) => (at === column ? entry : 0)),
  );
  expect(clearing({ ...fit, covariance: alone })!.standardError).toBeGreaterThan(
    1.2 * standardError,
  );
});

test('from a warmer start it takes less, in air that is too cool it is never clear', () => {
  const fit = fitOf(4);

  expect(clearing(fit, 45, 20)!.value).toBeLessThan(clearing(fit)!.value - 1);
  expect(clearing(fit, 39)).toBeUndefined();
});

test('a start outside what can be reckoned with is refused', () => {
  expect(() => clearing(fitOf(5), 45, 120)).toThrow(/startC must be a number from -40 to 100/);
});
