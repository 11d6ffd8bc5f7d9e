import { at } from '../at';

export const LOG_SQRT_TWO_PI = 0.918938533204672741780329736406;
const SQRT_TWO_PI = 2.50662827463100050241576528481;

// Cody's coefficients, the highest power's first.
const CENTRE_ABOVE = Float64Array.of(
  6.5682337918207449113e-2,
  2.2352520354606839287,
  161.02823106855587881,
  1067.6894854603709582,
  18154.981253343561249,
);
const CENTRE_BELOW = Float64Array.of(
  1,
  47.20258190468824187,
  976.09855173777669322,
  10260.932208618978205,
  45507.789335026729956,
);
const SIDE_ABOVE = Float64Array.of(
  1.0765576773720192317e-8,
  0.39894151208813466764,
  8.8831497943883759412,
  93.506656132177855979,
  597.27027639480026226,
  2494.5375852903726711,
  6848.1904505362823326,
  11602.651437647350124,
  9842.7148383839780218,
);
const SIDE_BELOW = Float64Array.of(
  1,
  22.266688044328115691,
  235.38790178262499861,
  1519.377599407554805,
  6485.558298266760755,
  18615.571640885098091,
  34900.952721145977266,
  38912.003286093271411,
  19685.429676859990727,
);
const FAR_ABOVE = Float64Array.of(
  2.307344176494017303e-2,
  0.21589853405795699,
  0.1274011611602473639,
  2.2235277870649807e-2,
  1.421619193227893466e-3,
  2.9112874951168792e-5,
);
const FAR_BELOW = Float64Array.of(
  1,
  1.28426009614491121,
  0.468238212480865118,
  6.59881378689285515e-2,
  3.78239633202758244e-3,
  7.29751555083966205e-5,
);
const CENTRE_END = 0.67448975;
const SIDE_END = 5.656854249492381;

function rational(above: Float64Array, below: Float64Array, x: number): number {
  let numerator = 0;
  for (let k = 0; k < above.length; k += 1) numerator = numerator * x + at(above, k);
  let denominator = 0;
  for (let k = 0; k < below.length; k += 1) denominator = denominator * x + at(below, k);
  return numerator / denominator;
}

/** Upper tail divided by the density (Mills' ratio), for z from CENTRE_END up. */
function tailRatio(z: number): number {
  if (z <= SIDE_END) return rational(SIDE_ABOVE, SIDE_BELOW, z) * SQRT_TWO_PI;
  const square = 1 / (z * z);
  return (1 - SQRT_TWO_PI * square * rational(FAR_ABOVE, FAR_BELOW, square)) / z;
}

/** exp(-z^2 / 2), with z^2 formed from two parts so that its rounding is not magnified. */
function bell(z: number): number {
  const coarse = Math.trunc(z * 16) / 16;
  return Math.exp((-coarse * coarse) / 2) * Math.exp((-(z - coarse) * (z + coarse)) / 2);
}

/**
 * The chance that a standard normal value lies above z.
 *
 * Relative error below 1e-14 wherever the answer is a normal double (z up to 37). Works for any z,
 * infinite ones included; NaN gives NaN.
 * Source: W. J. Cody, "Rational Chebyshev approximations for the error function", Math. Comp. 23
 * (1969), with the three ranges and coefficients of his "Algorithm 715", ACM Trans. Math. Software
 * 19 (1993).
 */
export function normalUpperTail(z: number): number {
  if (Math.abs(z) <= CENTRE_END) return 0.5 - z * rational(CENTRE_ABOVE, CENTRE_BELOW, z * z);
  if (z < 0) return 1 - normalUpperTail(-z);
  return z > 40 ? 0 : (bell(z) / SQRT_TWO_PI) * tailRatio(z);
}

/** Natural logarithm of normalUpperTail, without its underflow: holds as far as z^2 is finite. */
export function logNormalUpperTail(z: number): number {
  if (z <= CENTRE_END) return Math.log1p(-normalUpperTail(-z));
  return logNormalDensity(z) + Math.log(tailRatio(z));
}

/** Natural logarithm of the standard normal density. */
export function logNormalDensity(z: number): number {
  return (-z * z) / 2 - LOG_SQRT_TWO_PI;
}

/**
 * The upper tail divided by the density at z (Mills' ratio), to a relative error below 1e-14 for
 * z >= 0. Below 0 it grows like sqrt(2 pi) exp(z^2 / 2) and overflows to Infinity near -37.7.
 * Source: as normalUpperTail.
 */
export function normalTailRatio(z: number): number {
  if (z > CENTRE_END) return tailRatio(z);
  return (normalUpperTail(z) * SQRT_TWO_PI) / bell(z);
}

/**
 * The z with a chance `fraction` of a standard normal value below it.
 *
 * Halley's iteration on normalUpperTail from a rational start good to 4.5e-4; absolute error below
 * 1e-14, relative below 1e-14 in the lower tail. Works for 0 < fraction < 1. Throws RangeError for others.
 * Source of the start: M. Abramowitz and I. A. Stegun, "Handbook of Mathematical Functions" (1964),
 * 26.2.23.
 */
export function normalQuantile(fraction: number): number {
  if (!(fraction > 0 && fraction < 1)) {
    throw new RangeError(`fraction must be above 0 and below 1, got ${fraction}`);
  }
  if (fraction > 0.5) return -normalQuantile(1 - fraction);
  const t = Math.sqrt(-2 * Math.log(fraction));
  let z =
    t -
    (2.515517 + t * (0.802853 + t * 0.010328)) /
      (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  for (let round = 0; round < 3; round += 1) {
    const excess = normalTailRatio(z) - (fraction * SQRT_TWO_PI) / bell(z);
    z += excess / (1 - (z * excess) / 2);
  }
  return -z;
}
