import { emptyKernel } from '../regression/error-law';
import { errorLaw } from '../regression/error-laws';
import type { BeliefPart, SettingBelief } from './setting-belief';

export type SettingForecast = {
  kind: 'forecast';
  /** By these days after seeding the batch has set, each with the certainty beside it; null: see settingForecast. */
  setBy: { certainty: number; days: number | null }[];
  /** Sets within these days with that certainty, and as likely before as after. */
  within: { certainty: number; earliestDays: number | null; latestDays: number | null }[];
  /** How likely it was to be still not set when it was last seen so; 1 for a planned batch. */
  chanceOfNotSetSoFar: number;
};

const CERTAINTIES = [0.5, 0.8, 0.95];

/**
 * In how many days after seeding a batch has set: planned, or known not to have set by
 * `notSetByDays` (the last look that found it so; later days without a look tell nothing).
 *
 * The answer is the predictive distribution: the law's, averaged over what is believed of its place
 * and scale, so it is wider where fewer batches are behind it. For a running batch each place and
 * scale counts by how well it foretold that the batch would not have set.
 *
 * The average is a sum over a grid of the normal belief (trapezoids at 3/4 of a standard deviation
 * out to 4.5, exact to five digits of the certainty), so there is nothing of chance in it. Source:
 * J. F. Lawless and M. Fredette, "Frequentist prediction intervals and predictive distributions",
 * Biometrika 92 (2005); normal belief by the large-sample law of maximum likelihood.
 *
 * A day more than ten years away is null: so little is known that no day can be named. Works for
 * notSetByDays from 0 to ten years. Throws RangeError otherwise.
 */
export function settingForecast(belief: SettingBelief, notSetByDays = 0): SettingForecast {
  const predictive = predictiveOf(belief, notSetByDays);
  return {
    kind: 'forecast',
    setBy: CERTAINTIES.map((certainty) => ({ certainty, days: predictive.quantile(certainty) })),
    within: CERTAINTIES.map((certainty) => ({
      certainty,
      earliestDays: predictive.quantile((1 - certainty) / 2),
      latestDays: predictive.quantile((1 + certainty) / 2),
    })),
    chanceOfNotSetSoFar: Math.exp(predictive.logNotSetSoFar),
  };
}

/**
 * Until which day after seeding the cool room is needed, to be `certainty` certain that the batch has
 * set by then; null when no day can be named (see settingForecast). Works for certainties above 0 and
 * below 1. Throws RangeError otherwise.
 */
export function coolRoomDays(
  belief: SettingBelief,
  certainty: number,
  notSetByDays = 0,
): number | null {
  if (!(certainty > 0 && certainty < 1)) {
    throw new RangeError(`certainty must be above 0 and below 1, got ${certainty}`);
  }
  return predictiveOf(belief, notSetByDays).quantile(certainty);
}

/**
 * The chance that a batch has set by `byDays` after seeding, when it was not set by `notSetByDays`.
 * Works for byDays from notSetByDays up. Throws RangeError otherwise.
 */
export function chanceSetBy(belief: SettingBelief, byDays: number, notSetByDays = 0): number {
  if (!(Number.isFinite(byDays) && byDays >= notSetByDays)) {
    throw new RangeError(`byDays must be a number from ${notSetByDays} up, got ${byDays}`);
  }
  const { logNotSet, logNotSetSoFar } = predictiveOf(belief, notSetByDays);
  return -Math.expm1(logNotSet(byDays) - logNotSetSoFar);
}

type GridPoint = { logWeight: number; linearPredictor: number; scale: number };

function predictiveOf(belief: SettingBelief, notSetByDays: number) {
  if (!(notSetByDays >= 0 && notSetByDays <= LATEST_DAYS)) {
    throw new RangeError(
      `notSetByDays must be a number of days from 0 to ${LATEST_DAYS}, got ${notSetByDays}`,
    );
  }
  const law = errorLaw(belief.distribution);
  const kernel = emptyKernel();
  const points = belief.parts.flatMap(gridOf).filter(({ logWeight }) => logWeight > LEAST_WEIGHT);
  /** Log of the share of the believed batches not set by a day. */
  const logNotSet = (days: number) => {
    if (days === 0) return 0;
    const logs = points.map(({ logWeight, linearPredictor, scale }) => {
      law.right((Math.log(days) - linearPredictor) / scale, kernel);
      return logWeight + kernel.value;
    });
    const largest = Math.max(...logs);
    return largest + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - largest), 0));
  };
  const logNotSetSoFar = logNotSet(notSetByDays);

  const quantile = (certainty: number): number | null => {
    const sought = logNotSetSoFar + Math.log1p(-certainty);
    const excess = (logDays: number) => logNotSet(Math.exp(logDays)) - sought;
    const high = Math.log(LATEST_DAYS);
    if (!(excess(high) < 0)) return null;
    const low = notSetByDays > 0 ? Math.log(notSetByDays) : high - LONGEST_SEARCH;
    return Math.exp(rootOf(excess, low, high));
  };
  return { logNotSet, logNotSetSoFar, quantile };
}

/** Ten years. */
const LATEST_DAYS = 3653;
/** A time shorter than ten years by more than this, on the logarithm, is none. */
const LONGEST_SEARCH = 60;
const ROOT_TOLERANCE = 1e-10;

/**
 * Where a falling function is 0, between a point where it is above and one where it is not: false
 * position, with the value of an end that stays halved (M. Dowell and P. Jarratt, BIT 11 (1971)).
 */
function rootOf(value: (at: number) => number, above: number, below: number): number {
  let [low, high] = [above, below];
  let [atLow, atHigh] = [value(low), value(high)];
  let lastSide = 0;
  for (let round = 0; round < 200 && high - low > ROOT_TOLERANCE; round += 1) {
    const slanted = (low * atHigh - high * atLow) / (atHigh - atLow);
    const middle = slanted > low && slanted < high ? slanted : (low + high) / 2;
    const atMiddle = value(middle);
    if (Math.abs(atMiddle) < ROOT_TOLERANCE) return middle;
    if (atMiddle > 0) {
      [low, atLow] = [middle, atMiddle];
      if (lastSide === 1) atHigh /= 2;
      lastSide = 1;
    } else {
      [high, atHigh] = [middle, atMiddle];
      if (lastSide === -1) atLow /= 2;
      lastSide = -1;
    }
  }
  return (low + high) / 2;
}

const GRID_STEP = 0.75;
const GRID_REACH = 6;
/** Logarithm of the weight below which a point of the grid changes nothing that is said. */
const LEAST_WEIGHT = Math.log(1e-9);

/**
 * Scales, spread as a part believes, and for each of them places, spread in proportion to the scale,
 * with the logarithms of their weights.
 */
function gridOf({ weight, linearPredictor, logScale, variance }: BeliefPart): GridPoint[] {
  const scaleError = Math.sqrt(variance.logScale);
  const slope = scaleError > 0 ? variance.both / scaleError : 0;
  const ownError = Math.sqrt(Math.max(0, variance.linearPredictor - slope * slope));
  const nodes = Array.from({ length: 2 * GRID_REACH + 1 }, (_, i) => (i - GRID_REACH) * GRID_STEP);
  const mass = nodes.reduce((sum, node) => sum + Math.exp((-node * node) / 2), 0);
  return nodes.flatMap((first) =>
    nodes.map((second) => ({
      logWeight: Math.log(weight / (mass * mass)) - (first * first + second * second) / 2,
      linearPredictor:
        linearPredictor + slope * first + ownError * Math.exp(scaleError * first) * second,
      scale: Math.exp(logScale + scaleError * first),
    })),
  );
}
