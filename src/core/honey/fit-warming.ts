import { loggedAt, type TemperatureAt } from './air-plan';
import { MELTING_ENTHALPY_J_PER_KG, MOST_CRYSTALS_PERCENT } from './crystals';
import { TRIAL_GRID, type PailShape } from './cylinder-grid';
import type { HoneyHeat } from './honey-heat';
import { requireRange } from './require-range';
import { inverse } from './solve-symmetric';
import { studentT95 } from './student-t';
import { warmPails } from './warm-pails';

export interface WarmingLog {
  shape: PailShape;
  /** The melting heat is not used: it is what the fit finds. */
  honey: HoneyHeat;
  /** On the axis at mid height. Times in hours since the pail was put in, the first at 0 or later. */
  coreReadings: readonly TemperatureAt[];
  /** Around the pail, from hour 0 or earlier. */
  airReadings: readonly TemperatureAt[];
}

export interface Estimate {
  value: number;
  standardError: number;
  /** 95 % interval, Student's t. */
  lower: number;
  upper: number;
}

export type WarmingFit =
  | {
      kind: 'fitted';
      /** One film on every face. */
      filmWPerM2K: Estimate;
      crystalPercent: Estimate;
      startC: Estimate;
      /** Of film, crystals and start, in this order: how their errors go together. */
      covariance: number[][];
      degreesOfFreedom: number;
      /** How far readings lie from the curve, one standard deviation. */
      scatterC: number;
      readings: number;
    }
  | { kind: 'too-few'; readings: number; needed: number }
  /** The log does not tell film and crystals apart, as when nothing melted or nothing warmed. */
  | { kind: 'undetermined' };

const PARAMETERS = 3;
const NEEDED_READINGS = 12;
const MOST_ROUNDS = 25;

/** W/m²·K; of forced air, far above what a cabinet's does. */
export const LARGEST_FITTED_FILM = 100;

/** Film, crystals, start: first guesses, bounds, and steps for the derivatives. */
const FIRST = [6, 12] as const;
const LOWEST = [0.5, 0, -40] as const;
const HIGHEST = [LARGEST_FITTED_FILM, MOST_CRYSTALS_PERCENT, 100] as const;
const NUDGE = [0.05, 0.2, 0.1] as const;

/** Beyond this standard error in g per 100 g the log says nothing about crystals. */
const USELESS_ERROR_PERCENT = MOST_CRYSTALS_PERCENT;

/**
 * Which film coefficient and how many crystals explain a logged warm-up?
 *
 * Least squares between the core readings and the reckoned core of one pail in the logged air, over
 * film (one for every face), crystals in g per 100 g (108.39 J/g) and starting temperature:
 * Levenberg–Marquardt with derivatives by differences. Standard errors from the curvature at the
 * best fit and the scatter about it, taking the readings' errors as independent and alike.
 * Source: Seber & Wild 1989, Nonlinear Regression, ch. 2 and 14; Student's t.
 * Range: film 0.5 to 100 W/m²·K, crystals 0 to 25 %; an estimate at such a bound has an interval
 * that is cut there. At least 12 core readings; fewer is a value, not an error, and so is a log that does
 * not settle the answer.
 *
 * @throws RangeError for readings that do not follow each other or begin before hour 0.
 */
export function fitWarming(log: WarmingLog): WarmingFit {
  const readings = log.coreReadings.length;
  if (readings < NEEDED_READINGS) return { kind: 'too-few', readings, needed: NEEDED_READINGS };
  requireRange('atHours', (log.coreReadings[0] as TemperatureAt).atHours, 0, Infinity);

  let best = evaluate(log, [...FIRST, (log.coreReadings[0] as TemperatureAt).temperatureC]);
  let damping = 0.01;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const slopes = slopesAt(log, best);
    const step = dampedStep(slopes, best.misses, damping);
    if (!step) return { kind: 'undetermined' };
    const next = evaluate(
      log,
      best.parameters.map((value, index) => bounded(value + (step[index] as number), index)),
    );
    const better = next.squares < best.squares;
    const gained = best.squares - next.squares;
    damping = better ? damping / 5 : damping * 5;
    const settled = Math.abs(gained) <= 1e-6 * best.squares;
    if (better) best = next;
    if (settled) break;
  }
  return estimates(log, best);
}

interface Trial {
  parameters: number[];
  /** Reading minus reckoned. */
  misses: number[];
  squares: number;
}

function evaluate(log: WarmingLog, parameters: number[]): Trial {
  const core = reckonedCore(log, parameters);
  const misses = log.coreReadings.map(
    ({ atHours, temperatureC }) => temperatureC - loggedAt(core, atHours),
  );
  return { parameters, misses, squares: misses.reduce((sum, miss) => sum + miss * miss, 0) };
}

function reckonedCore(log: WarmingLog, parameters: readonly number[]): TemperatureAt[] {
  const [film, crystalPercent, startC] = parameters as [number, number, number];
  const lastHours = (log.coreReadings[log.coreReadings.length - 1] as TemperatureAt).atHours;
  const { groups } = warmPails({
    pails: [
      {
        count: 1,
        shape: log.shape,
        honey: {
          ...log.honey,
          meltingHeatJPerKg: (crystalPercent / 100) * MELTING_ENTHALPY_J_PER_KG,
        },
        films: { sideWPerM2K: film, topWPerM2K: film, bottomWPerM2K: film },
        startC,
        grid: TRIAL_GRID,
      },
    ],
    air: { kind: 'logged', readings: log.airReadings },
    untilHours: Math.max(lastHours, 1),
  });
  return (groups[0]?.samples ?? []).map(({ atHours, coreC }) => ({ atHours, temperatureC: coreC }));
}

/** How each miss falls as each parameter rises: a column for each parameter. */
function slopesAt(log: WarmingLog, trial: Trial): number[][] {
  return trial.parameters.map((value, index) => {
    const nudge = NUDGE[index] as number;
    const inwards = value + nudge > (HIGHEST[index] as number) ? -nudge : nudge;
    const nudged = trial.parameters.map((other, at) => (at === index ? other + inwards : other));
    const { misses } = evaluate(log, nudged);
    return misses.map((miss, at) => ((trial.misses[at] as number) - miss) / inwards);
  });
}

function products(slopes: readonly number[][]): number[][] {
  return slopes.map((one) => slopes.map((other) => dot(one, other)));
}

function dampedStep(
  slopes: readonly number[][],
  misses: readonly number[],
  damping: number,
): number[] | undefined {
  const damped = products(slopes).map((row, index) =>
    row.map((value, column) => (column === index ? value * (1 + damping) : value)),
  );
  const inverted = inverse(damped);
  const downhill = slopes.map((column) => dot(column, misses));
  return inverted?.map((row) => dot(row, downhill));
}

function estimates(log: WarmingLog, best: Trial): WarmingFit {
  const covariance = inverse(products(slopesAt(log, best)));
  if (!covariance) return { kind: 'undetermined' };
  const readings = best.misses.length;
  const degreesOfFreedom = readings - PARAMETERS;
  const scatterC = Math.sqrt(best.squares / degreesOfFreedom);
  const width = studentT95(degreesOfFreedom);
  const [film, crystals, start] = best.parameters.map((value, index): Estimate => {
    const standardError = scatterC * Math.sqrt((covariance[index] as number[])[index] as number);
    const lower = bounded(value - width * standardError, index);
    const upper = bounded(value + width * standardError, index);
    return { value, standardError, lower, upper };
  }) as [Estimate, Estimate, Estimate];
  if (crystals.standardError > USELESS_ERROR_PERCENT) return { kind: 'undetermined' };
  return {
    kind: 'fitted',
    filmWPerM2K: film,
    crystalPercent: crystals,
    startC: start,
    covariance: covariance.map((row) => row.map((value) => value * scatterC ** 2)),
    degreesOfFreedom,
    scatterC,
    readings,
  };
}

function bounded(value: number, index: number): number {
  return Math.min(HIGHEST[index] as number, Math.max(LOWEST[index] as number, value));
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, index) => sum + value * (other[index] as number), 0);
}
