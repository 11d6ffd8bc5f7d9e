import { fractionToNumber, type Fraction } from './rational';

/**
 * A mass fraction from 0 to 1. As long as it is short it is exact and in lowest terms. One whose denominator would have more than 1400
 * binary digits (some 420 decimal ones, more than anybody reads) is rounded down to a multiple of a power of two with at least 160
 * digits in it, and so is what it becomes part of: exact ones of a trace of years would fill the memory with digits.
 *
 * Each step of a trace rounds by less than 2^-190 of the value, so after a million steps the nearest double is still the one of the
 * exact value, unless that lies within 2^-170 of halfway between two.
 */
export type Share = Fraction & {
  /** Null: exact. Else the denominator is 2 to the power of it. */
  readonly roundedBits: number | null;
};

export const NONE: Share = { numerator: 0n, denominator: 1n, roundedBits: null };
export const ALL: Share = { numerator: 1n, denominator: 1n, roundedBits: null };

/** All of it, as what is rounded from the start. */
export const ROUNDED_ALL: Share = {
  numerator: 1n << 192n,
  denominator: 1n << 192n,
  roundedBits: 192,
};

const LARGEST_EXACT_DENOMINATOR = 1n << 1400n;
const KEPT_BITS = 192;
/** Up to here 2 to the power of minus it is a double, and a rounded share is no subnormal one. */
const LARGEST_PLAIN_POWER = 1074;
const LARGEST_PLAIN = BigInt(Number.MAX_SAFE_INTEGER);

/** Part times share: `part` of `whole`, both whole numbers, 0 < part <= whole (RangeError for a whole that is not above 0). */
export function partOf(share: Share, part: bigint, whole: bigint): Share {
  if (whole <= 0n) throw new RangeError('whole must be above 0');
  if (share.roundedBits !== null) {
    const lift = whole.toString(2).length;
    return rounded(((share.numerator * part) << BigInt(lift)) / whole, share.roundedBits + lift);
  }
  // Both in lowest terms: whatever is common stands crosswise.
  const common = gcd(part, whole);
  const [a, b] = [part / common, whole / common];
  const [crossA, crossB] = [gcd(a, share.denominator % a), gcd(b, share.numerator % b)];
  return exactOrRounded(
    (share.numerator / crossB) * (a / crossA),
    (share.denominator / crossA) * (b / crossB),
  );
}

/** The sum of two shares. */
export function addShares(one: Share, other: Share): Share {
  if (one.numerator === 0n) return other;
  if (other.numerator === 0n) return one;
  if (one.roundedBits === null && other.roundedBits === null) return sumOfExact(one, other);
  const [a, b] = [inBits(one), inBits(other)];
  const bits = Math.max(a.bits, b.bits);
  const sum = (a.numerator << BigInt(bits - a.bits)) + (b.numerator << BigInt(bits - b.bits));
  return rounded(sum, bits);
}

/** Henrici's sum of fractions in lowest terms (D. E. Knuth, The Art of Computer Programming, volume 2, 4.5.1): no great divisor is sought. */
function sumOfExact(one: Share, other: Share): Share {
  const common = gcd(one.denominator, other.denominator);
  const [ours, theirs] = [one.denominator / common, other.denominator / common];
  const numerator = one.numerator * theirs + other.numerator * ours;
  // At most what is common to the denominators can be cancelled.
  if (ours * theirs > LARGEST_EXACT_DENOMINATOR) {
    return exactOrRounded(numerator, ours * other.denominator);
  }
  const shared = gcd(common, numerator % common);
  return exactOrRounded(numerator / shared, ours * (other.denominator / shared));
}

/** The double nearest to the share (see `fractionToNumber`). */
export function shareToNumber(share: Share): number {
  const { numerator, denominator, roundedBits } = share;
  if (roundedBits !== null && roundedBits <= LARGEST_PLAIN_POWER) {
    return Number(numerator) * 2 ** -roundedBits;
  }
  if (denominator > LARGEST_PLAIN) return fractionToNumber(share);
  // One division of two exact doubles is rounded once.
  return Number(numerator) / Number(denominator);
}

/** The share as 'numerator/denominator' in lowest terms, or null when that has more than `maxCharacters` or is not known exactly. */
export function shareToString(share: Share, maxCharacters: number): string | null {
  if (share.roundedBits !== null) return null;
  const text = `${share.numerator.toString()}/${share.denominator.toString()}`;
  return text.length <= maxCharacters ? text : null;
}

function exactOrRounded(numerator: bigint, denominator: bigint): Share {
  const exact = { numerator, denominator, roundedBits: null };
  if (denominator <= LARGEST_EXACT_DENOMINATOR) return exact;
  const long = inBits(exact);
  return rounded(long.numerator, long.bits);
}

/** Numerator over 2^bits, with at least as many digits as are kept. */
function inBits({ numerator, denominator, roundedBits }: Share): {
  numerator: bigint;
  bits: number;
} {
  if (roundedBits !== null) return { numerator, bits: roundedBits };
  const bits = KEPT_BITS + 4 + Math.max(0, hexDigits(denominator) - hexDigits(numerator)) * 4;
  return { numerator: (numerator << BigInt(bits)) / denominator, bits };
}

function rounded(numerator: bigint, bits: number): Share {
  const spare = Math.max(0, Math.min((hexDigits(numerator) - 1) * 4 - KEPT_BITS, bits));
  const left = bits - spare;
  return {
    numerator: numerator >> BigInt(spare),
    denominator: 1n << BigInt(left),
    roundedBits: left,
  };
}

function hexDigits(value: bigint): number {
  return value.toString(16).length;
}

function gcd(a: bigint, b: bigint): bigint {
  if (a <= LARGEST_PLAIN && b <= LARGEST_PLAIN) {
    let [larger, smaller] = [Number(a), Number(b)];
    while (smaller !== 0) [larger, smaller] = [smaller, larger % smaller];
    return BigInt(larger);
  }
  return b === 0n ? a : gcd(b, a % b);
}
