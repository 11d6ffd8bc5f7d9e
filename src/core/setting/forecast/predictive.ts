import { at } from '../at';
import { emptyKernel, type ErrorLaw } from '../regression/error-law';
import { errorLaw } from '../regression/error-laws';
import type { BeliefPart, SettingBelief } from './setting-belief';

/** When a batch sets, averaged over what is believed of it (see settingForecast). */
export type Predictive = {
  /** Log of the share of the believed batches not set by a day. */
  logNotSet: (days: number) => number;
  logNotSetSoFar: number;
  /** By which day the batch has set with a certainty; null: more than ten years away. */
  quantile: (certainty: number) => number | null;
};

type GridPoint = { law: ErrorLaw; logWeight: number; linearPredictor: number; scale: number };

/**
 * The predictive distribution of a belief, for a batch not set by `notSetByDays`.
 * Works for notSetByDays from 0 to ten years. Throws RangeError otherwise.
 */
export function predictiveOf(belief: SettingBelief, notSetByDays: number): Predictive {
  if (!(notSetByDays >= 0 && notSetByDays <= LATEST_DAYS)) {
    throw new RangeError(
      `notSetByDays must be a number of days from 0 to ${LATEST_DAYS}, got ${notSetByDays}`,
    );
  }
  const kernel = emptyKernel();
  const points = belief.parts.flatMap(gridOf);
  const logs = new Float64Array(points.length);
  const logNotSet = (days: number) => {
    if (days === 0) return 0;
    const logDays = Math.log(days);
    let largest = -Infinity;
    points.forEach(({ law, logWeight, linearPredictor, scale }, i) => {
      law.right((logDays - linearPredictor) / scale, kernel);
      logs[i] = logWeight + kernel.value;
      largest = Math.max(largest, logWeight + kernel.value);
    });
    let sum = 0;
    for (let i = 0; i < logs.length; i += 1) sum += Math.exp(at(logs, i) - largest);
    return largest + Math.log(sum);
  };
  const logNotSetSoFar = logNotSet(notSetByDays);

  // Every value computed on the way narrows the search for the next quantile.
  const last = Math.log(LATEST_DAYS);
  const known: Point[] = [
    notSetByDays > 0
      ? { at: Math.log(notSetByDays), value: logNotSetSoFar }
      : { at: last - LONGEST_SEARCH, value: logNotSet(Math.exp(last - LONGEST_SEARCH)) },
    { at: last, value: logNotSet(LATEST_DAYS) },
  ];
  const quantile = (certainty: number): number | null => {
    const sought = logNotSetSoFar + Math.log1p(-certainty);
    const above = known.filter(({ value }) => value >= sought);
    const below = known.filter(({ value }) => value < sought);
    if (below.length === 0 || above.length === 0) return null;
    const excess = (logDays: number) => {
      const value = logNotSet(Math.exp(logDays));
      known.push({ at: logDays, value });
      return value - sought;
    };
    const low = above.reduce((best, one) => (one.at > best.at ? one : best));
    const high = below.reduce((best, one) => (one.at < best.at ? one : best));
    const root = rootOf(
      excess,
      { at: low.at, value: low.value - sought },
      { at: high.at, value: high.value - sought },
    );
    return Math.exp(root);
  };
  return { logNotSet, logNotSetSoFar, quantile };
}

/** Ten years. */
export const LATEST_DAYS = 3653;
/** A time shorter than ten years by more than this, on the logarithm, is none. */
const LONGEST_SEARCH = 60;
const ROOT_TOLERANCE = 1e-10;

type Point = { at: number; value: number };

/**
 * Where a falling function is 0, between a point where it is above and one where it is not: false
 * position, with the value of an end that stays halved (M. Dowell and P. Jarratt, BIT 11 (1971)).
 */
function rootOf(value: (at: number) => number, above: Point, below: Point): number {
  let [low, high] = [above.at, below.at];
  let [atLow, atHigh] = [above.value, below.value];
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
function gridOf(part: BeliefPart): GridPoint[] {
  const { distribution, weight, linearPredictor, logScale, variance } = part;
  const law = errorLaw(distribution);
  const scaleError = Math.sqrt(variance.logScale);
  const slope = scaleError > 0 ? variance.both / scaleError : 0;
  const ownError = Math.sqrt(Math.max(0, variance.linearPredictor - slope * slope));
  const places =
    scaleError === 0 && ownError < COARSE_BELOW * Math.exp(logScale)
      ? COARSE_NODES
      : nodesOf(ownError);
  const points: GridPoint[] = [];
  for (const first of nodesOf(scaleError)) {
    const scale = Math.exp(logScale + scaleError * first.at);
    for (const second of places) {
      const logWeight = Math.log(weight) + first.logMass + second.logMass;
      if (logWeight <= LEAST_WEIGHT) continue;
      const off = slope * first.at + ownError * Math.exp(scaleError * first.at) * second.at;
      points.push({ law, logWeight, linearPredictor: linearPredictor + off, scale });
    }
  }
  return points;
}

/** Where the place is known to this share of the scale, the law is smooth enough between nodes twice as far apart. */
const COARSE_BELOW = 0.6;

const SPREAD_NODES = nodesAt(GRID_STEP);
const COARSE_NODES = nodesAt(2 * GRID_STEP);
const ONE_NODE = [{ at: 0, logMass: 0 }];

/** Standard deviations away from what is believed, with their logarithmic masses; one when it is certain. */
function nodesOf(error: number) {
  return error > 0 ? SPREAD_NODES : ONE_NODE;
}

function nodesAt(step: number) {
  const reach = Math.round((GRID_REACH * GRID_STEP) / step);
  const nodes = Array.from({ length: 2 * reach + 1 }, (_, i) => (i - reach) * step);
  const logMass = Math.log(nodes.reduce((sum, at) => sum + Math.exp((-at * at) / 2), 0));
  return nodes.map((at) => ({ at, logMass: (-at * at) / 2 - logMass }));
}
