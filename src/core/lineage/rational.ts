/**
 * An exact fraction; the denominator is above zero. It need not be in lowest terms: the shares of one
 * trace have one denominator, which makes adding them cheap, and reducing numbers of thousands of digits
 * is by far the dearest step. Compare with `compareFractions`, write with `fractionToString`, never by
 * field.
 */
export type Fraction = { readonly numerator: bigint; readonly denominator: bigint };

export const ZERO: Fraction = { numerator: 0n, denominator: 1n };
export const ONE: Fraction = { numerator: 1n, denominator: 1n };

/**
 * The fraction numerator / denominator in lowest terms, the sign carried by the numerator.
 * Any whole numbers, the denominator not zero (RangeError).
 */
export function fraction(numerator: bigint, denominator: bigint): Fraction {
  if (denominator === 0n) throw new RangeError('denominator must not be 0');
  const common = greatestCommonDivisor(numerator, denominator);
  const sign = denominator < 0n ? -1n : 1n;
  return { numerator: (sign * numerator) / common, denominator: (sign * denominator) / common };
}

/** The same value in lowest terms. */
export function reduceFraction(value: Fraction): Fraction {
  return fraction(value.numerator, value.denominator);
}

/** The exact sum: over the common denominator where the two have one, else in lowest terms; 0 added changes nothing. */
export function addFractions(a: Fraction, b: Fraction): Fraction {
  if (a.numerator === 0n) return b;
  if (a.denominator === b.denominator) {
    return { numerator: a.numerator + b.numerator, denominator: a.denominator };
  }
  return fraction(
    a.numerator * b.denominator + b.numerator * a.denominator,
    a.denominator * b.denominator,
  );
}

/** The exact product, not reduced. */
export function multiplyFractions(a: Fraction, b: Fraction): Fraction {
  return {
    numerator: a.numerator * b.numerator,
    denominator: a.denominator * b.denominator,
  };
}

/** Below zero when a is the smaller, zero when they are equal, above zero when a is the greater. */
export function compareFractions(a: Fraction, b: Fraction): number {
  const left = a.numerator * b.denominator;
  const right = b.numerator * a.denominator;
  return left < right ? -1 : left > right ? 1 : 0;
}

/** The fraction in lowest terms, written as 'numerator/denominator': '1/3', '0/1', '-5/2'. */
export function fractionToString(value: Fraction): string {
  const { numerator, denominator } = reduceFraction(value);
  return `${numerator.toString()}/${denominator.toString()}`;
}

const DOUBLE_PRECISION_BITS = 53;
/** The smallest double above zero is 2 to the power of minus this. */
const SMALLEST_DOUBLE_POWER = 1074;

/**
 * The double nearest to the fraction; of two equally near, the one with the even last bit (IEEE 754,
 * round to nearest, ties to even), at any number of digits: dividing two rounded numbers would round
 * three times, and overflow beyond 309 digits. Too small for a double is 0, too large is Infinity.
 */
export function fractionToNumber(value: Fraction): number {
  if (value.numerator < 0n) {
    return -fractionToNumber({ numerator: -value.numerator, denominator: value.denominator });
  }
  if (value.numerator === 0n) return 0;
  const excess = bitLength(value.numerator) - bitLength(value.denominator);
  let shift = Math.min(DOUBLE_PRECISION_BITS - excess, SMALLEST_DOUBLE_POWER);
  let [quotient, rest, divisor] = divideShifted(value, shift);
  if (bitLength(quotient) > DOUBLE_PRECISION_BITS) {
    shift -= 1;
    [quotient, rest, divisor] = divideShifted(value, shift);
  }
  const roundUp = 2n * rest > divisor || (2n * rest === divisor && quotient % 2n === 1n);
  return Number(roundUp ? quotient + 1n : quotient) * 2 ** -shift;
}

/** Whole quotient and rest of value times 2 to the power of shift, and the divisor of that rest. */
function divideShifted(value: Fraction, shift: number): [bigint, bigint, bigint] {
  const dividend = shift > 0 ? value.numerator << BigInt(shift) : value.numerator;
  const divisor = shift < 0 ? value.denominator << BigInt(-shift) : value.denominator;
  return [dividend / divisor, dividend % divisor, divisor];
}

function bitLength(positive: bigint): number {
  const hexadecimal = positive.toString(16);
  return 4 * (hexadecimal.length - 1) + (32 - Math.clz32(parseInt(hexadecimal.charAt(0), 16)));
}

const LARGEST_PLAIN = BigInt(Number.MAX_SAFE_INTEGER);

/** Euclid's algorithm; once both numbers fit into a double, plain arithmetic ends it many times faster. */
function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let larger = a < 0n ? -a : a;
  let smaller = b < 0n ? -b : b;
  while (smaller !== 0n && (larger > LARGEST_PLAIN || smaller > LARGEST_PLAIN)) {
    [larger, smaller] = [smaller, larger % smaller];
  }
  if (smaller === 0n) return larger;
  let plainLarger = Number(larger);
  let plainSmaller = Number(smaller);
  while (plainSmaller !== 0) {
    [plainLarger, plainSmaller] = [plainSmaller, plainLarger % plainSmaller];
  }
  return BigInt(plainLarger);
}
