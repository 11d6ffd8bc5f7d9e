import { at } from '../at';
import { invertFactored, type Factor } from '../numerics/positive-definite';
import type { Design } from './design';

/**
 * From a point (see LikelihoodState) on standardised columns and centred log times to coefficients,
 * scale and the covariance of these and the logarithm of the scale.
 */
export function inTermsOfTime(
  { rows: { width }, location, spread, centre }: Design,
  point: Float64Array,
  factor: Factor,
): { coefficients: number[]; scale: number; covariance: number[][] } {
  const scale = 1 / at(point, width);
  const size = width + 1;
  const coefficients = Array.from(
    { length: width },
    (_, j) => (at(point, j) * scale) / at(spread, j),
  );
  for (let j = 1; j < width; j += 1) {
    coefficients[0] = (coefficients[0] ?? NaN) - at(location, j) * (coefficients[j] ?? NaN);
  }
  coefficients[0] = (coefficients[0] ?? NaN) + centre;

  // Derivatives of the answer by the point, row by row.
  const derivatives = new Float64Array(size * size);
  for (let j = 0; j < width; j += 1) {
    derivatives[j * size + j] = scale / at(spread, j);
    derivatives[j * size + width] = (-at(point, j) * scale * scale) / at(spread, j);
  }
  for (let j = 1; j < width; j += 1) {
    for (const k of [j, width]) {
      const own = at(derivatives, j * size + k);
      derivatives[k] = at(derivatives, k) - at(location, j) * own;
    }
  }
  derivatives[width * size + width] = -scale;

  const inverse = invertFactored(factor);
  const half = product(derivatives, inverse, size, false);
  const covariance = product(half, derivatives, size, true);
  return {
    coefficients,
    scale,
    covariance: Array.from({ length: size }, (_, r) =>
      Array.from(covariance.subarray(r * size, (r + 1) * size)),
    ),
  };
}

function product(a: Float64Array, b: Float64Array, size: number, transposeB: boolean) {
  const result = new Float64Array(size * size);
  for (let r = 0; r < size; r += 1) {
    for (let c = 0; c < size; c += 1) {
      let sum = 0;
      for (let k = 0; k < size; k += 1) {
        sum += at(a, r * size + k) * at(b, transposeB ? c * size + k : k * size + c);
      }
      result[r * size + c] = sum;
    }
  }
  return result;
}
