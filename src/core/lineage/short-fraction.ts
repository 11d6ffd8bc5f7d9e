import { fractionToString, type Fraction } from './rational';

const BITS_PER_DIGIT = Math.log2(10);
/** So many bits more than the theory asks for keep the rounding of both numbers harmless. */
const SPARE_BITS = 64;
const SPARE_DIGITS = 3;

/**
 * The fraction in lowest terms as 'numerator/denominator', or null when that has more than `maxCharacters`.
 * Works for fractions from 0 to 1.
 *
 * The shares of a long trace have thousands of digits before they are reduced, and Euclid's algorithm on all of
 * them takes seconds. Only the leading digits are looked at here: a short fraction p/q this near to a number is
 * one of the convergents of its continued fraction (Legendre; G. H. Hardy and E. M. Wright, An Introduction to
 * the Theory of Numbers, theorem 184), and whether it is the number itself one multiplication tells exactly.
 */
export function shortFraction(value: Fraction, maxCharacters: number): string | null {
  const { numerator, denominator } = value;
  if (numerator < 0n || numerator > denominator) {
    throw new RangeError('value must be a fraction from 0 to 1');
  }
  if (numerator === 0n) return withinLength('0/1', maxCharacters);
  // The numerator is shorter than the denominator by as many digits as in lowest terms, give or take one.
  const moreDigits = (bitLength(denominator) - bitLength(numerator)) / BITS_PER_DIGIT;
  const maxDigits = Math.min((maxCharacters + moreDigits) / 2 + SPARE_DIGITS, maxCharacters);
  const maxBits = Math.ceil(maxDigits * BITS_PER_DIGIT);
  const excess = bitLength(denominator) - (2 * maxBits + SPARE_BITS);
  if (excess <= 0) return withinLength(fractionToString(value), maxCharacters);

  const limit = 1n << BigInt(maxBits);
  const whole = denominator >> BigInt(excess);
  const part = numerator >> BigInt(excess);
  let [larger, smaller] = [whole, part];
  // Convergents p/q of part/whole: first 0/1, whose forerunner is 1/0.
  let [p, pBefore, q, qBefore] = [0n, 1n, 1n, 0n];
  while (q < limit) {
    const miss = part * q - p * whole;
    const isNear = (miss < 0n ? -miss : miss) <= 2n * q;
    if (isNear && numerator * q === denominator * p) {
      return withinLength(`${p.toString()}/${q.toString()}`, maxCharacters);
    }
    if (smaller === 0n) return null;
    const quotient = larger / smaller;
    [larger, smaller] = [smaller, larger - quotient * smaller];
    [p, pBefore] = [quotient * p + pBefore, p];
    [q, qBefore] = [quotient * q + qBefore, q];
  }
  return null;
}

function withinLength(text: string, maxCharacters: number): string | null {
  return text.length <= maxCharacters ? text : null;
}

function bitLength(positive: bigint): number {
  return positive.toString(16).length * 4;
}
