import { at } from './at';
import type { DistinctObservation } from './distinct-observations';

/**
 * The only places where a maximum-likelihood distribution can hold mass, in order of time, and
 * which of them each observation covers: those numbered `first` to `last`, both included.
 * A candidate with left equal to right is the point {left}, otherwise it is (left, right];
 * right is Infinity for (left, infinity).
 */
export type Candidates = {
  left: number[];
  right: number[];
  first: Float64Array;
  last: Float64Array;
};

const EXACT = 1;
const RIGHT_END = 2;
const OPEN_LEFT_END = 4;

/**
 * Finds the candidate intervals of a set of observations.
 *
 * Put all ends in order; of equal values the (closed) left end of an exact time comes first, then
 * right ends, then open left ends. Every left end directly followed by a right end is a candidate.
 * So (1, 2] and (2, 3] do not overlap, an exact time at R lies inside (L, R], and one at L does not.
 *
 * Source: B. W. Turnbull, "The empirical distribution function with arbitrarily grouped, censored
 * and truncated data", J. R. Statist. Soc. B 38 (1976); open and closed ends: M. P. Fay and
 * P. A. Shaw, "Exact and asymptotic weighted logrank tests for interval censored data",
 * J. Statist. Software 36(2) (2010).
 */
export function candidateIntervals(observations: readonly DistinctObservation[]): Candidates {
  const values = distinctValues(observations);
  const positions = new Map<number, number>();
  values.forEach((value, position) => positions.set(value, position));
  const position = (value: number) => positions.get(value) ?? -1;

  const marks = new Float64Array(values.length);
  const mark = (value: number, flag: number) => {
    const index = position(value);
    marks[index] = at(marks, index) | flag;
  };
  for (const { lower, upper } of observations) {
    mark(lower, lower === upper ? EXACT : OPEN_LEFT_END);
    mark(upper, RIGHT_END);
  }

  const left: number[] = [];
  const right: number[] = [];
  const countBeforeExact = new Float64Array(values.length);
  const countAtRightEnd = new Float64Array(values.length);
  let leftEnd: number | null = null;
  values.forEach((value, index) => {
    const flags = at(marks, index);
    countBeforeExact[index] = left.length;
    if (flags & EXACT) leftEnd = value;
    if (flags & RIGHT_END && leftEnd !== null) {
      left.push(leftEnd);
      right.push(value);
      leftEnd = null;
    }
    countAtRightEnd[index] = left.length;
    if (flags & OPEN_LEFT_END) leftEnd = value;
  });

  const first = new Float64Array(observations.length);
  const last = new Float64Array(observations.length);
  observations.forEach(({ lower, upper }, row) => {
    first[row] = at(lower === upper ? countBeforeExact : countAtRightEnd, position(lower));
    last[row] = at(countAtRightEnd, position(upper)) - 1;
  });
  return { left, right, first, last };
}

function distinctValues(observations: readonly DistinctObservation[]): Float64Array {
  const values = new Set<number>();
  for (const { lower, upper } of observations) {
    values.add(lower);
    values.add(upper);
  }
  return Float64Array.from(values).sort();
}
