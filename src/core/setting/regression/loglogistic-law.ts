import { logGrowth, setKernel, type ErrorLaw } from './error-law';

/** The share up to z: 1 / (1 + exp(-z)). */
function lowerTail(z: number): number {
  return 1 / (1 + Math.exp(-z));
}

/** Natural logarithm of the share up to z. */
function logLowerTail(z: number): number {
  return z > 0 ? -Math.log1p(Math.exp(-z)) : z - Math.log1p(Math.exp(z));
}

/**
 * The logistic law: the share 1 / (1 + exp(z)) lies above z. Times then follow a log-logistic
 * distribution of shape 1 / scale.
 *
 * An interval's probability is the share up to its start x the share above its end x
 * (exp(length) - 1), which loses no digits however short or far out the interval.
 * Source: J. F. Lawless, "Statistical Models and Methods for Lifetime Data" (2003), section 1.3.
 */
export const loglogisticLaw: ErrorLaw = {
  distribution: 'loglogistic',
  exact(z, kernel) {
    const below = lowerTail(z);
    const above = lowerTail(-z);
    setKernel(kernel, logLowerTail(z) + logLowerTail(-z), above - below, -2 * below * above);
  },
  interval(z, length, kernel) {
    const end = z + length;
    const density = lowerTail(z) * lowerTail(-z);
    const endBelow = lowerTail(end);
    const endDensity = endBelow * lowerTail(-end);
    const stretch = 1 / -Math.expm1(-length);
    const value = logLowerTail(z) + logLowerTail(-end) + logGrowth(length);
    setKernel(kernel, value, lowerTail(-z) - endBelow, -density - endDensity);
    kernel.byLength = stretch - endBelow;
    kernel.byPlaceAndLength = -endDensity;
    kernel.byLengthTwice = -endDensity - stretch * stretch * Math.exp(-length);
  },
  right(z, kernel) {
    const below = lowerTail(z);
    setKernel(kernel, logLowerTail(-z), -below, -below * lowerTail(-z));
  },
  left(z, kernel) {
    const above = lowerTail(-z);
    setKernel(kernel, logLowerTail(z), above, -above * lowerTail(z));
  },
  quantile: (fraction) => Math.log(fraction) - Math.log1p(-fraction),
  mean: 0,
  // pi / sqrt(3).
  standardDeviation: 1.8137993642342178,
};
