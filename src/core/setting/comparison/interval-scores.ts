import type { SettingObservation } from '../observation';
import { fitTurnbull } from '../turnbull';

/**
 * A score for each observation, in order: how much sooner it set than the pooled batches lead one to
 * expect (above 0: sooner; never above 1). Scores, weights counted, sum to 0.
 *
 * Formula: with S the pooled estimate of survival (Turnbull) and A its sum of the shares of those at
 * risk that set, interval after interval: (S(R) A(R) - S(L) A(L)) / (S(L) - S(R)) for one known to
 * have set in (L, R]; - A(L) when still setting at L. For exact times that is 1 - A(t), so that the
 * scores of a group sum to observed less expected of the log-rank test.
 *
 * Sources: J. Sun, "A non-parametric test for interval-censored failure time data", Statistics in
 * Medicine 15 (1996); in this form M. P. Fay and P. A. Shaw, J. Statist. Software 36(2) (2010),
 * section 3. Throws RangeError for an observation that cannot be true.
 */
export function intervalScores(observations: readonly SettingObservation[]): number[] {
  const { intervals } = fitTurnbull(observations);
  const rights = intervals.map(({ right }) => right ?? Infinity);
  // Entry k: survival, and the sum of shares, once the first k intervals are over.
  const survival = [1];
  const sums = [0];
  let left = 1;
  let sum = 0;
  for (const { mass } of intervals) {
    sum += Math.min(1, mass / left);
    left = Math.max(0, left - mass);
    survival.push(left);
    sums.push(sum);
  }
  survival[intervals.length] = 0;
  const part = (over: number) => (survival[over] ?? NaN) * (sums[over] ?? NaN);

  return observations.map(({ lower, upper }) => {
    const before = lower === upper ? countBelow(rights, lower) : countUpTo(rights, lower);
    if (upper === null) return -(sums[before] ?? NaN);
    const after = countUpTo(rights, upper);
    const chance = (survival[before] ?? NaN) - (survival[after] ?? NaN);
    return (part(after) - part(before)) / chance;
  });
}

/** How many of the ordered values are at most `limit`. */
function countUpTo(values: readonly number[], limit: number): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((values[middle] ?? NaN) <= limit) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** How many of the ordered values, each there once, are below `limit`. */
function countBelow(values: readonly number[], limit: number): number {
  const count = countUpTo(values, limit);
  return values[count - 1] === limit ? count - 1 : count;
}
