import { at } from '../at';
import { factorPositiveDefinite, solveFactored } from '../numerics/positive-definite';
import type { DesignRows } from './design';
import type { ErrorLaw } from './error-law';

/** A column is explained by the earlier ones when less than this share of it is left after them. */
const LEAST_SHARE = 1e-11;
/** Guesses without any spread would start where the likelihood is flat. */
const LEAST_SCALE = 0.1;

/**
 * A point to start from (see LikelihoodState), or the first column that the earlier ones explain,
 * with those that do.
 *
 * Least squares on the logarithm of the middle of each interval, or of the only end known; the scale
 * and the place from the residuals' spread and the law's own spread and mean.
 */
export function startingPoint(
  law: ErrorLaw,
  rows: DesignRows,
  penalty: Float64Array,
): Float64Array | { collinear: number[] } {
  const { columns, width, place, span, weight } = rows;
  const guess = place.map((logTime, i) => logTime + Math.log1p(Math.expm1(at(span, i)) / 2));
  const products = Float64Array.from({ length: width * width }, (_, cell) =>
    cell % (width + 1) === 0 ? at(penalty, cell / (width + 1)) : 0,
  );
  const right = new Float64Array(width);
  let total = 0;
  for (let i = 0; i < weight.length; i += 1) {
    total += at(weight, i);
    for (let j = 0; j < width; j += 1) {
      const x = at(weight, i) * at(columns, i * width + j);
      right[j] = at(right, j) + x * at(guess, i);
      for (let k = 0; k <= j; k += 1) {
        const cell = j * width + k;
        products[cell] = at(products, cell) + x * at(columns, i * width + k);
      }
    }
  }

  const factor = factorPositiveDefinite(products, width, LEAST_SHARE);
  if ('dependentColumn' in factor) {
    return { collinear: explainedBy(products, width, factor.dependentColumn) };
  }
  const coefficients = solveFactored(factor, right);
  let squares = 0;
  for (let i = 0; i < weight.length; i += 1) {
    let residual = at(guess, i);
    for (let j = 0; j < width; j += 1) {
      residual -= at(columns, i * width + j) * at(coefficients, j);
    }
    squares += at(weight, i) * residual * residual;
  }
  const scale = Math.max(LEAST_SCALE, Math.sqrt(squares / total) / law.standardDeviation);
  const point = new Float64Array(width + 1);
  for (let j = 0; j < width; j += 1) point[j] = at(coefficients, j) / scale;
  point[0] = at(point, 0) - law.mean;
  point[width] = 1 / scale;
  return point;
}

/** The columns that a dependent column is a combination of, and itself last. */
function explainedBy(products: Float64Array, width: number, dependent: number): number[] {
  const earlier = new Float64Array(dependent * dependent);
  const right = new Float64Array(dependent);
  for (let j = 0; j < dependent; j += 1) {
    right[j] = at(products, dependent * width + j);
    for (let k = 0; k <= j; k += 1) earlier[j * dependent + k] = at(products, j * width + k);
  }
  const factor = factorPositiveDefinite(earlier, dependent, LEAST_SHARE);
  if ('dependentColumn' in factor) return [dependent];
  const shares = solveFactored(factor, right);
  const taking: number[] = [];
  shares.forEach((share, j) => {
    if (Math.abs(share) > 1e-6) taking.push(j);
  });
  return [...taking, dependent];
}
