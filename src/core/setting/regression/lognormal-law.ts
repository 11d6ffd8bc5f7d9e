import {
  logNormalDensity,
  logNormalUpperTail,
  normalQuantile,
  normalTailRatio,
  normalUpperTail,
} from '../numerics/normal';
import { setKernel, type ErrorLaw } from './error-law';

/** An interval this short, in units of 1 / (1 + its distance from 0), is its middle's density wide. */
const SHORT = 2e-3;

/** The density at z divided by the share above it. */
function hazardAt(z: number): number {
  return 1 / normalTailRatio(z);
}

/** Log-probability of (z, z + length] for z + length / 2 from 0 up. */
function logProbability(z: number, length: number): number {
  const middle = z + length / 2;
  if (length * (1 + middle) < SHORT) {
    const bend = ((middle * middle - 1) * length * length) / 24;
    return logNormalDensity(middle) + Math.log(length) + Math.log1p(bend);
  }
  if (z < 0) return Math.log1p(-normalUpperTail(-z) - normalUpperTail(z + length));
  // The share above the start less that above the end, both in units of the density at the start.
  const difference = normalTailRatio(z) - Math.exp(-length * middle) * normalTailRatio(z + length);
  return logNormalDensity(z) + Math.log(difference);
}

/**
 * The standard normal law: times then follow a log-normal distribution.
 *
 * An interval above 0 is weighed by Mills' ratios, in units of its start's density; one below 0 is
 * mirrored; a short one by its middle's density with one more term of Taylor's series, good to
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
    const value = middle >= 0 ? logProbability(z, length) : logProbability(-end, length);
    // The densities at both ends and their difference, divided by the probability. The start's may
    // overflow only where the end's is 0, and the other way round.
    const atStart = Math.exp(logNormalDensity(z) - value);
    const atEnd = Math.exp(logNormalDensity(end) - value);
    const rise =
      middle >= 0 ? atStart * Math.expm1(-length * middle) : -atEnd * Math.expm1(length * middle);
    const lean = -length * atEnd - z * rise;
    setKernel(kernel, value, rise, lean - rise * rise);
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
