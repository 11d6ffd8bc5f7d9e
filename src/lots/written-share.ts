import { MOST_EXACT_LOTS } from '../core/lineage/shares';
import { shareToNumber, shareToString, type Share } from '../core/lineage/share';
import { kgOf, Text } from '../platform/fields';

/** More than a page of a screen holds is of no use to a reader. */
const FRACTION_CHARACTERS = 400;

/** A share exactly, beside the same as a number. */
export function ShareFraction(): PropertyDecorator {
  return Text({
    max: FRACTION_CHARACTERS,
    nullable: true,
    is: `The same exactly and in lowest terms, as 'numerator/denominator'; null when that, or what it is the sum of, has more than ${FRACTION_CHARACTERS} characters, and in a trace of more than ${MOST_EXACT_LOTS} lots.`,
  });
}

/** A share as a number and, where it is short enough to be read, exactly. */
export function sharesOf(share: Share): { share: number; shareFraction: string | null } {
  return {
    share: shareToNumber(share),
    shareFraction: shareToString(share, FRACTION_CHARACTERS),
  };
}

/** The share of a mass, rounded to the nearest gram, in kilograms. */
export function shareInKg({ numerator, denominator }: Share, massG: number): number {
  return kgOf(Number((2n * numerator * BigInt(massG) + denominator) / (2n * denominator)));
}
