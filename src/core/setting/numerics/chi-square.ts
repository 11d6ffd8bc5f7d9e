import { LOG_SQRT_TWO_PI, logNormalUpperTail } from './normal';

/**
 * Natural logarithm of the chance that a chi-square value exceeds `chiSquare`, which is the p-value
 * of a test; as a logarithm it stays exact where the chance itself underflows.
 *
 * Formula: with m = chiSquare / 2, for even degrees of freedom exp(-m) x sum of m^k / k! over k below
 * half of them; for odd ones twice the normal tail above sqrt(chiSquare), and exp(-m) x sum of
 * m^(k - 1/2) / Gamma(k + 1/2) over k from 1 to half of one less. All terms are positive.
 * Source: M. Abramowitz and I. A. Stegun, "Handbook of Mathematical Functions" (1964), 26.4.4, 26.4.5.
 *
 * Works for chiSquare from 0 (Infinity included) and whole degrees of freedom from 1 up.
 * Throws RangeError for others.
 */
export function logChiSquareUpperTail(chiSquare: number, degreesOfFreedom: number): number {
  if (!(chiSquare >= 0)) throw new RangeError(`chiSquare must be from 0 up, got ${chiSquare}`);
  if (!(Number.isSafeInteger(degreesOfFreedom) && degreesOfFreedom >= 1)) {
    throw new RangeError(
      `degreesOfFreedom must be a whole number from 1 up, got ${degreesOfFreedom}`,
    );
  }
  if (chiSquare === 0) return 0;
  if (chiSquare === Infinity) return -Infinity;

  const odd = degreesOfFreedom % 2 === 1;
  const half = chiSquare / 2;
  const logHalf = Math.log(half);
  let logSum = odd ? Math.LN2 + logNormalUpperTail(Math.sqrt(chiSquare)) : -half;
  // m^(1/2) / Gamma(3/2) = 2 sqrt(chiSquare) / sqrt(2 pi)
  let logTerm = odd
    ? -half + Math.LN2 + Math.log(chiSquare) / 2 - LOG_SQRT_TWO_PI
    : -half + logHalf;
  for (let power = odd ? 0.5 : 1; power < degreesOfFreedom / 2; power += 1) {
    logSum = logAdd(logSum, logTerm);
    logTerm += logHalf - Math.log(power + 1);
  }
  return Math.min(0, logSum);
}

function logAdd(a: number, b: number): number {
  return Math.max(a, b) + Math.log1p(Math.exp(-Math.abs(a - b)));
}
