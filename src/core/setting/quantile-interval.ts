import type { TurnbullFit } from './turnbull';

/**
 * Where a given share of batches has set: in (left, right] days (exactly at left where right equals
 * left; right null: after left, nobody knows when). `tie`: exactly that share has set by `right`,
 * and the next batches set no earlier than in (nextLeft, nextRight].
 */
export type QuantileInterval =
  | { left: number; right: number | null; tie: false }
  | { left: number; right: number; tie: true; nextLeft: number; nextRight: number | null };

/** What can be said of a quantile in single numbers of days; null: not reached. */
export type QuantileDays = { earliest: number; latest: number | null; quoted: number | null };

const ROUNDING = 1e-9;

/**
 * The interval in which the share `setFraction` of batches has set: the first at which the masses,
 * summed in order of time, reach it. Works for 0 < setFraction < 1. Throws RangeError for others.
 */
export function quantileInterval(fit: TurnbullFit, setFraction: number): QuantileInterval {
  if (!(setFraction > 0 && setFraction < 1)) {
    throw new RangeError(`setFraction must be above 0 and below 1, got ${setFraction}`);
  }
  let sum = 0;
  const index = fit.intervals.findIndex(({ mass }) => {
    sum += mass;
    return sum >= setFraction - ROUNDING;
  });
  const here = fit.intervals[index];
  if (here === undefined) throw new RangeError('fit must have masses that sum to 1');

  const next = fit.intervals[index + 1];
  const { left, right } = here;
  if (next === undefined || right === null || sum >= setFraction + ROUNDING) {
    return { left, right, tie: false };
  }
  return { left, right, tie: true, nextLeft: next.left, nextRight: next.right };
}

/**
 * A quantile as one number to quote, and the earliest and latest it may be.
 *
 * Rule: the middle of the interval, and its ends. Where the share is reached exactly and holds for a
 * while (a tie), the middle of that while, from `right` to `nextLeft`, which is then known and not
 * merely bounded; its start if no batch was seen to set after it. An interval without an end is not
 * reached: nothing to quote. For exact times the middle is the customary Kaplan-Meier rule.
 */
export function quantileDays(interval: QuantileInterval): QuantileDays {
  const { left, right } = interval;
  if (interval.tie) {
    const day =
      interval.nextRight === null ? interval.right : (interval.right + interval.nextLeft) / 2;
    return { earliest: day, latest: day, quoted: day };
  }
  if (right === null) return { earliest: left, latest: null, quoted: null };
  return { earliest: left, latest: right, quoted: (left + right) / 2 };
}
