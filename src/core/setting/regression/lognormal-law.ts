import {
  logNormalDensity,
  logNormalUpperTail,
  normalQuantile,
  normalTailRatio,
  normalUpperTail,
} from '../numerics/normal';
import { setKernel, type ErrorLaw, type Kernel } from './error-law';

/** Below it, in units of 1 / (1 + its distance from 0), Taylor's series is better than a difference. */
const SHORT = 0.03;

/** The density at z divided by the share above it. */
function hazardAt(z: number): number {
  return 1 / normalTailRatio(z);
}

/**
 * Writes the log-probability of (z, z + length], for z + length / 2 from 0 up, and gives the density
 * at z divided by the probability.
 */
function weighAbove(z: number, length: number, kernel: Kernel): number {
  const middle = z + length / 2;
  if (length * (1 + middle) < SHORT) {
    const square = middle * middle;
    const half = (length * length) / 4;
    const bend =
      (half * (square - 1)) / 6 + (half * half * (square * square - 6 * square + 3)) / 120;
    kernel.value = logNormalDensity(middle) + Math.log(length) + Math.log1p(bend);
    return Math.exp((length * (z + middle)) / 4) / (length * (1 + bend));
  }
  if (z < 0) {
    kernel.value = Math.log1p(-normalUpperTail(-z) - normalUpperTail(z + length));
    return Math.exp(logNormalDensity(z) - kernel.value);
  }
  // The share above the start less that above the end, both in units of the density at the start.
  const difference = normalTailRatio(z) - Math.exp(-length * middle) * normalTailRatio(z + length);
  kernel.value = logNormalDensity(z) + Math.log(difference);
  return 1 / difference;
}

/**
 * The standard normal law: times then follow a log-normal distribution.
 *
 * An interval above 0 is weighed by Mills' ratios, in units of its start's density; one below 0 is
 * mirrored; a short one by its middle's density with two more terms of Taylor's series, good to
 * 1e-14. So nothing underflows and few digits are lost however short or far out the interval.
 * Source: J. F. Lawless, "Statistical Models and Methods for Lifetime Data" (2003), section 1.3.
 */
export const lognormalLaw: ErrorLaw = {
  distribution: 'lognormal',
  exact(z, kernel) {
    setKernel(kernel, logNormalDensity(z), -z, -1);
  },
  interval(z, length, kernel) {
    const middle = z + length / 2;
    const end = z + length;
    // Densities are divided by the probability. The nearer end is the one with the larger.
    const atNearer = weighAbove(middle >= 0 ? z : -end, length, kernel);
    const atFarther = atNearer * Math.exp(-length * Math.abs(middle));
    const atEnd = middle >= 0 ? atFarther : atNearer;
    const rise = atNearer * Math.expm1(-length * Math.abs(middle)) * (middle >= 0 ? 1 : -1);
    const lean = -length * atEnd - z * rise;
    setKernel(kernel, kernel.value, rise, lean - rise * rise);
    kernel.byLength = atEnd;
    kernel.byPlaceAndLength = -atEnd * (end + rise);
    kernel.byLengthTwice = -atEnd * (end + atEnd);
  },
  right(z, kernel) {
    const hazard = hazardAt(z);
    setKernel(kernel, logNormalUpperTail(z), -hazard, -hazard * (hazard - z));
  },
  left(z, kernel) {
    const hazard = hazardAt(-z);
    setKernel(kernel, logNormalUpperTail(-z), hazard, -hazard * (hazard + z));
  },
  quantile: normalQuantile,
  mean: 0,
  standardDeviation: 1,
};
