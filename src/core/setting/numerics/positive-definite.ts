import { at } from '../at';

/**
 * A symmetric matrix is a flat array of size x size numbers, row by row; only entries on and below
 * the diagonal are read.
 */
export type Factor = { lower: Float64Array; size: number; logDeterminant: number };

/**
 * Cholesky's lower factor of a positive definite matrix, or the first column that the earlier ones
 * explain: of which less than `leastShare` of its diagonal entry is left after them.
 * Source: G. H. Golub and C. F. Van Loan, "Matrix Computations" (1996), section 4.2.
 */
export function factorPositiveDefinite(
  matrix: Float64Array,
  size: number,
  leastShare = 1e-13,
): Factor | { dependentColumn: number } {
  const lower = new Float64Array(size * size);
  let logDeterminant = 0;
  for (let r = 0; r < size; r += 1) {
    for (let c = 0; c <= r; c += 1) {
      let sum = at(matrix, r * size + c);
      for (let k = 0; k < c; k += 1) sum -= at(lower, r * size + k) * at(lower, c * size + k);
      if (r > c) {
        lower[r * size + c] = sum / at(lower, c * size + c);
      } else {
        if (!(sum > leastShare * at(matrix, r * size + r))) return { dependentColumn: r };
        lower[r * size + r] = Math.sqrt(sum);
        logDeterminant += Math.log(sum);
      }
    }
  }
  return { lower, size, logDeterminant };
}

/** The x with matrix times x equal to `right`. */
export function solveFactored({ lower, size }: Factor, right: Float64Array): Float64Array {
  const x = Float64Array.from(right);
  for (let r = 0; r < size; r += 1) {
    let sum = at(x, r);
    for (let k = 0; k < r; k += 1) sum -= at(lower, r * size + k) * at(x, k);
    x[r] = sum / at(lower, r * size + r);
  }
  for (let r = size - 1; r >= 0; r -= 1) {
    let sum = at(x, r);
    for (let k = r + 1; k < size; k += 1) sum -= at(lower, k * size + r) * at(x, k);
    x[r] = sum / at(lower, r * size + r);
  }
  return x;
}

/** The inverse, all entries filled. */
export function invertFactored(factor: Factor): Float64Array {
  const { size } = factor;
  const inverse = new Float64Array(size * size);
  for (let c = 0; c < size; c += 1) {
    const unit = new Float64Array(size);
    unit[c] = 1;
    const column = solveFactored(factor, unit);
    for (let r = c; r < size; r += 1) {
      inverse[r * size + c] = at(column, r);
      inverse[c * size + r] = at(column, r);
    }
  }
  return inverse;
}

/** right' times the inverse times right: how far `right` lies from 0 in the matrix's own measure. */
export function quadraticForm(factor: Factor, right: Float64Array): number {
  const solution = solveFactored(factor, right);
  return right.reduce((sum, value, r) => sum + value * at(solution, r), 0);
}
