/** Sum of the products of entries at equal places. */
export function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * (b[i] ?? NaN), 0);
}

/** The variance of a sum of estimates, each taken times its entry of `gradient`. */
export function varianceOf(
  gradient: readonly number[],
  covariance: readonly (readonly number[])[],
): number {
  return gradient.reduce((sum, value, r) => sum + value * dot(gradient, covariance[r] ?? []), 0);
}
