import { logGrowth, setKernel, type ErrorLaw } from './error-law';

/** Below it, 1 - exp(-hazard) is hazard x (1 - hazard / 2) to the last bit. */
const SMALL_HAZARD = 1e-9;
/** Above it, hazard / (exp(hazard) - 1) is below the smallest double that matters. */
const LARGE_HAZARD = 700;

/** log(1 - exp(-hazard)); `logHazard` serves where the hazard itself is too small for a double. */
function logComplement(hazard: number, logHazard: number): number {
  if (hazard < SMALL_HAZARD) return logHazard - hazard / 2;
  return hazard > Math.LN2 ? Math.log1p(-Math.exp(-hazard)) : Math.log(-Math.expm1(-hazard));
}

/** The derivative of logComplement by the logarithm of the hazard. */
function complementSlope(hazard: number): number {
  if (hazard < SMALL_HAZARD) return 1 - hazard / 2;
  return hazard > LARGE_HAZARD ? 0 : hazard / Math.expm1(hazard);
}

/**
 * The smallest extreme value: the share exp(-exp(z)) lies above z. Times then follow a Weibull
 * distribution of shape 1 / scale.
 *
 * An interval's probability is survival at its start times 1 - exp(-hazard between its ends), which
 * loses no digits however short or far out the interval.
 * Source: J. F. Lawless, "Statistical Models and Methods for Lifetime Data" (2003), section 1.3.
 */
export const weibullLaw: ErrorLaw = {
  distribution: 'weibull',
  exact(z, kernel) {
    const hazard = Math.exp(z);
    setKernel(kernel, z - hazard, 1 - hazard, -hazard);
  },
  interval(z, length, kernel) {
    const before = Math.exp(z);
    const logHazard = z + logGrowth(length);
    const hazard = Math.exp(logHazard);
    const slope = complementSlope(hazard);
    const bend = slope > 0 ? slope * (slope + hazard) : 0;
    const stretch = 1 / -Math.expm1(-length);
    const value = logComplement(hazard, logHazard);
    setKernel(kernel, value - before, slope - before, slope - bend - before);
    kernel.byLength = stretch * slope;
    kernel.byPlaceAndLength = stretch * (slope - bend);
    kernel.byLengthTwice = stretch * (slope - stretch * bend);
  },
  right(z, kernel) {
    const hazard = Math.exp(z);
    setKernel(kernel, -hazard, -hazard, -hazard);
  },
  left(z, kernel) {
    const hazard = Math.exp(z);
    const slope = complementSlope(hazard);
    const bend = slope > 0 ? slope * (slope + hazard) : 0;
    setKernel(kernel, logComplement(hazard, z), slope, slope - bend);
  },
  quantile: (fraction) => Math.log(-Math.log1p(-fraction)),
  // Euler's constant, and pi / sqrt(6).
  mean: -0.5772156649015329,
  standardDeviation: 1.2825498301618641,
};
