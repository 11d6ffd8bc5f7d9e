import { Decimal, Id, MassKg, OneOf, Part, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { LotKind } from '../platform/prisma-client/enums';
import { MemberName } from '../members/member-name';
import { ShareFraction } from './written-share';

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

  @ShareFraction()
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

  @ShareFraction()
  shareFraction!: string | null;
}

export class OriginPart {
  @Text({ max: 2, nullable: true, is: 'ISO 3166-1 alpha-2; null: not known.' })
  countryCode!: string | null;

  @Decimal({ min: 0, max: 1, decimals: 20 })
  share!: number;

  @ShareFraction()
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

  @ShareFraction()
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
