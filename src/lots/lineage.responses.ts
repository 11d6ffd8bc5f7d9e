import { Decimal, Each, Id, kgOf, MassKg, OneOf, Part, Text, Whole } from '../platform/fields';
import { LotKind } from '../platform/prisma-client/enums';
import type { Fraction } from '../core/lineage/rational';
import { MOST_EXACT_LOTS } from '../core/lineage/shares';
import { shareToNumber, shareToString, type Share } from '../core/lineage/share';
import { MemberName } from '../members/member-name';

/** More than a page of a screen holds is of no use to a reader. */
const FRACTION_CHARACTERS = 400;

const fractionWords = `The same exactly and in lowest terms, as 'numerator/denominator'; null when that, or what it is the sum of, has more than ${FRACTION_CHARACTERS} characters, and in a trace of more than ${MOST_EXACT_LOTS} lots.`;

export class RelatedLot {
  @Id()
  lotId!: string;

  @Text({ max: 7 })
  code!: string;

  @OneOf(LotKind)
  kind!: LotKind;

  @Text({ max: 120 })
  name!: string;

  @Part(() => MemberName)
  holder!: MemberName;

  @Decimal({
    min: 0,
    max: 1,
    decimals: 20,
    is: 'Mass fraction of the ancestor in the descendant, over all paths.',
  })
  share!: number;

  @Text({ max: FRACTION_CHARACTERS, nullable: true, is: fractionWords })
  shareFraction!: string | null;

  @MassKg({
    min: 0,
    max: 1_000_000,
    is: 'So much of the ancestor went into the descendant as it was made: the share of its initial mass, rounded to the gram for reading.',
  })
  massKg!: number;

  @Whole({ min: 1, max: 1_000_000, is: 'The fewest steps between the two lots.' })
  nearestSteps!: number;

  @Whole({ min: 1, max: 1_000_000, is: 'The most steps between the two lots.' })
  farthestSteps!: number;
}

export class FloralPart {
  @Id({ nullable: true, is: 'null: not known.' })
  floralSourceId!: string | null;

  @Text({ max: 200, nullable: true })
  name!: string | null;

  @Decimal({ min: 0, max: 1, decimals: 20 })
  share!: number;

  @Text({ max: FRACTION_CHARACTERS, nullable: true, is: fractionWords })
  shareFraction!: string | null;
}

export class OriginPart {
  @Text({ max: 2, nullable: true, is: 'ISO 3166-1 alpha-2; null: not known.' })
  countryCode!: string | null;

  @Decimal({ min: 0, max: 1, decimals: 20 })
  share!: number;

  @Text({ max: FRACTION_CHARACTERS, nullable: true, is: fractionWords })
  shareFraction!: string | null;
}

export class AncestorsResponse {
  @Id()
  lotId!: string;

  @Each(() => RelatedLot, {
    max: 100_000,
    is: 'Every lot that is in this one, the nearest first.',
  })
  items!: RelatedLot[];

  @Each(() => FloralPart, {
    max: 10_000,
    is: 'What the bees worked, the most first; adds up to 1.',
  })
  floralComposition!: FloralPart[];

  @Each(() => OriginPart, { max: 300, is: 'Where it comes from, the most first; adds up to 1.' })
  originComposition!: OriginPart[];

  @Whole({
    min: 0,
    max: 1_000_000,
    nullable: true,
    is: 'Batches since the first seed along the longest line of seed; null for honey, which is in no line.',
  })
  generation!: number | null;

  @Decimal({
    min: 0,
    max: 1,
    decimals: 20,
    is: 'The share of the first seeds of the line, all together.',
  })
  firstSeedShare!: number;

  @Text({ max: FRACTION_CHARACTERS, nullable: true, is: fractionWords })
  firstSeedShareFraction!: string | null;
}

export class DescendantsResponse {
  @Id()
  lotId!: string;

  @Each(() => RelatedLot, {
    max: 100_000,
    is: 'Every lot that this one is in, the nearest first.',
  })
  items!: RelatedLot[];
}

/** A share as a number and, where it is short enough to be read, exactly. */
export function sharesOf(share: Share): { share: number; shareFraction: string | null } {
  return {
    share: shareToNumber(share),
    shareFraction: shareToString(share, FRACTION_CHARACTERS),
  };
}

/** The share of a mass, rounded to the nearest gram, in kilograms. */
export function massOf({ numerator, denominator }: Fraction, massG: number): number {
  return kgOf(Number((2n * numerator * BigInt(massG) + denominator) / (2n * denominator)));
}
