import { at } from './at';
import type { Covers, MassState } from './covers';

/**
 * The masses at the maximum of the log-likelihood's second-order expansion about the present
 * masses, with no mass outside `working` and none below 0; candidates that would go below 0 are
 * let go one step at a time, as in Lawson and Hanson's non-negative least squares. Candidates once
 * let go are not taken back: the caller's next round does that.
 *
 * With p the present masses, A the 0/1 table of covers and candidates, v = weight / probability^2,
 * M = A' diag(v) A and g the gains times total weight: solves M (q - p) = g.
 * M is positive definite, since every candidate's right end belongs to a cover that holds only it
 * and earlier ones.
 *
 * Sources: Y. Wang, "Dimension-reduced nonparametric maximum likelihood computation for
 * interval-censored data", Comput. Statist. Data Anal. 52 (2008); C. L. Lawson and R. J. Hanson,
 * "Solving Least Squares Problems" (1974), chapter 23.
 */
export function newtonTarget(
  covers: Covers,
  { masses, probabilities, gains }: MassState,
  working: Float64Array,
): Float64Array {
  const size = working.length;
  const curvature = workingCurvature(covers, probabilities, working);
  const point = new Float64Array(size);
  for (let r = 0; r < size; r += 1) point[r] = at(masses, at(working, r));
  const slope = new Float64Array(size);
  for (let r = 0; r < size; r += 1) slope[r] = at(gains, at(working, r)) * covers.totalWeight;

  let held = new Float64Array(size);
  for (let r = 0; r < size; r += 1) held[r] = r;
  while (held.length > 0) {
    const step = solvePositiveDefinite(curvature, size, slope, held);
    let share = 1;
    for (let k = 0; k < held.length; k += 1) {
      share = Math.min(share, shareUntilZero(at(point, at(held, k)), at(step, k)));
    }
    const kept: number[] = [];
    for (let k = 0; k < held.length; k += 1) {
      const r = at(held, k);
      const leaves = shareUntilZero(at(point, r), at(step, k)) <= share && share < 1;
      point[r] = leaves ? 0 : at(point, r) + share * at(step, k);
      slope[r] = at(slope, r) * (1 - share);
      if (!leaves) kept.push(r);
    }
    if (kept.length === held.length) break;
    held = new Float64Array(kept);
  }

  const target = new Float64Array(covers.candidates);
  working.forEach((j, r) => {
    target[j] = at(point, r);
  });
  return target;
}

/** The share of a step after which a mass is used up; more than 1 when it is not. */
function shareUntilZero(mass: number, step: number): number {
  if (mass + step > 0) return Infinity;
  return mass > 0 ? -mass / step : 0;
}

/** M of the working candidates: entry (r, c) is the sum of v over the covers that hold both. */
function workingCurvature(
  covers: Covers,
  probabilities: Float64Array,
  working: Float64Array,
): Float64Array {
  const size = working.length;
  const workingBefore = new Float64Array(covers.candidates + 1);
  for (const j of working) workingBefore[j + 1] = 1;
  for (let j = 0; j < covers.candidates; j += 1) {
    workingBefore[j + 1] = at(workingBefore, j + 1) + at(workingBefore, j);
  }

  const table = new Float64Array(size * size);
  for (let i = 0; i < probabilities.length; i += 1) {
    const row = at(workingBefore, at(covers.first, i));
    const column = at(workingBefore, at(covers.last, i) + 1) - 1;
    if (column < row) continue;
    const cell = row * size + column;
    table[cell] = at(table, cell) + at(covers.weight, i) / at(probabilities, i) ** 2;
  }
  // A cover from r to c holds every pair in between: sum over rows from the top, columns from the right.
  for (let r = 0; r < size; r += 1) {
    let sum = 0;
    for (let c = size - 1; c >= r; c -= 1) {
      sum += at(table, r * size + c);
      table[r * size + c] = sum + (r > 0 ? at(table, (r - 1) * size + c) : 0);
    }
  }
  for (let r = 0; r < size; r += 1) {
    for (let c = 0; c < r; c += 1) table[r * size + c] = at(table, c * size + r);
  }
  return table;
}

/** Solves the system of the held rows and columns by Cholesky's factors. */
function solvePositiveDefinite(
  matrix: Float64Array,
  size: number,
  slope: Float64Array,
  held: Float64Array,
): Float64Array {
  const n = held.length;
  const factor = new Float64Array(n * n);
  const solution = new Float64Array(n);
  for (let r = 0; r < n; r += 1) {
    const matrixRow = at(held, r) * size;
    for (let c = 0; c <= r; c += 1) {
      let sum = at(matrix, matrixRow + at(held, c));
      for (let k = 0; k < c; k += 1) sum -= at(factor, r * n + k) * at(factor, c * n + k);
      factor[r * n + c] =
        r === c
          ? Math.sqrt(Math.max(sum, Number.EPSILON * at(matrix, matrixRow + at(held, r))))
          : sum / at(factor, c * n + c);
    }
  }
  for (let r = 0; r < n; r += 1) {
    let sum = at(slope, at(held, r));
    for (let k = 0; k < r; k += 1) sum -= at(factor, r * n + k) * at(solution, k);
    solution[r] = sum / at(factor, r * n + r);
  }
  for (let r = n - 1; r >= 0; r -= 1) {
    let sum = at(solution, r);
    for (let k = r + 1; k < n; k += 1) sum -= at(factor, k * n + r) * at(solution, k);
    solution[r] = sum / at(factor, r * n + r);
  }
  return solution;
}
