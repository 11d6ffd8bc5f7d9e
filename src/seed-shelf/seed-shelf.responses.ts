import {
  Decimal,
  Id,
  Instant,
  kgOf,
  MassKg,
  OneOf,
  Part,
  Text,
  Whole,
  YesNo,
} from '../platform/fields';
import { Decimals, Each } from '../platform/list-fields';
import { Grain } from '../platform/prisma-client/enums';
import { rounded } from '../reckonings/reckoned';
import type { KnownSeed } from './shelf-lot';
import { MemberName } from '../members/member-name';

export class ShelfFloralPart {
  @Id({ nullable: true, is: 'null: not known.' })
  floralSourceId!: string | null;

  @Text({ max: 200, nullable: true })
  name!: string | null;

  @Decimal({ min: 0, max: 1, decimals: 20 })
  share!: number;
}

export class ShelfOriginPart {
  @Text({ max: 2, nullable: true, is: 'ISO 3166-1 alpha-2; null: not known.' })
  countryCode!: string | null;

  @Decimal({ min: 0, max: 1, decimals: 20 })
  share!: number;
}

export class ShelfTexture {
  @Whole({
    min: 0,
    max: 1_000_000,
    is: 'On so many batches it rests: those that this seed went into, whoever held it, by the last look at each that tells a texture and is not struck out.',
  })
  batches!: number;

  @Whole({ min: 0, max: 1_000_000 })
  smooth!: number;

  @Whole({ min: 0, max: 1_000_000 })
  grainy!: number;

  @Whole({ min: 0, max: 1_000_000 })
  gritty!: number;

  @Decimal({
    min: 0,
    max: 1,
    decimals: 3,
    nullable: true,
    is: 'The mean over those batches: smooth 1, grainy 0.5, gritty 0; null: none was looked at.',
  })
  score!: number | null;

  @Decimal({
    min: 0,
    max: 1,
    decimals: 3,
    nullable: true,
    is: 'The same with two more batches of the club’s mean, since few batches tell little; null: the club has looked at none.',
  })
  pooledScore!: number | null;
}

export class ShelfPlace {
  @Id()
  stationId!: string;

  @Text({ max: 200 })
  stationName!: string;

  @Decimals({ min: 1, max: 100_000, decimals: 0, most: 1000, is: 'The numbers of its places.' })
  places!: number[];

  @Instant({ is: 'Until when it is booked.' })
  until!: string;
}

export class ShelfSeedResponse {
  @Id()
  lotId!: string;

  @Text({ max: 7 })
  code!: string;

  @Text({ max: 120 })
  name!: string;

  @Part(() => MemberName)
  holder!: MemberName;

  @MassKg({ max: 1_000_000 })
  remainingMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000, is: 'Of that: reserved for batches.' })
  reservedMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000, is: 'What remains and is not reserved.' })
  freeMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000, is: 'Lent from it, and still owed.' })
  lentOutMassKg!: number;

  @YesNo({ is: 'It may not be used until it is released.' })
  onHold!: boolean;

  @OneOf(Grain, { nullable: true })
  grain!: Grain | null;

  @Each(() => ShelfFloralPart, { max: 10_000, is: 'Over all its ancestors; adds up to 1.' })
  floralComposition!: ShelfFloralPart[];

  @Each(() => ShelfOriginPart, { max: 300, is: 'Over all its ancestors; adds up to 1.' })
  originComposition!: ShelfOriginPart[];

  @Whole({ min: 0, max: 1_000_000, is: 'Batches since the first seed of its line.' })
  generation!: number;

  @Decimal({ min: 0, max: 1, decimals: 20, is: 'How much of the first seed is still in it.' })
  firstSeedShare!: number;

  @Instant({ is: 'When it was made or brought in; of lent seed, before it was lent.' })
  madeAt!: string;

  @Whole({ min: 0, max: 40_000, is: 'Whole days since then.' })
  ageDays!: number;

  @Part(() => ShelfTexture)
  texture!: ShelfTexture;

  @Part(() => ShelfPlace, {
    nullable: true,
    is: 'Where the batch that it was put by from is booked to stand cool now; null: not known.',
  })
  standsAt!: ShelfPlace | null;
}

const dayMs = 86_400_000;

export function toShelfSeed(
  { lot, floral, origin, generation, firstSeedShare, texture }: KnownSeed,
  names: ReadonlyMap<string, string>,
  now: Date,
): Pick<ShelfSeedResponse, keyof ShelfSeedResponse> {
  return {
    lotId: lot.id,
    code: lot.code,
    name: lot.name,
    holder: { id: lot.holderId, name: lot.holderName },
    remainingMassKg: kgOf(lot.remainingMassG),
    reservedMassKg: kgOf(lot.reservedMassG),
    freeMassKg: kgOf(lot.remainingMassG - lot.reservedMassG),
    lentOutMassKg: kgOf(lot.lentOutMassG),
    onHold: lot.onHold,
    grain: lot.grain,
    floralComposition: [...floral].map(([key, share]) => ({
      floralSourceId: key === '' ? null : key,
      name: names.get(key) ?? null,
      share,
    })),
    originComposition: [...origin].map(([key, share]) => ({
      countryCode: key === '' ? null : key,
      share,
    })),
    generation,
    firstSeedShare,
    madeAt: new Date(lot.madeAt).toISOString(),
    ageDays: ageInDays(lot.madeAt, now),
    texture: {
      ...lot.textures,
      batches: texture.batches,
      score: roundedOr(texture.score),
      pooledScore: roundedOr(texture.pooledScore),
    },
    standsAt:
      lot.standsAt === null
        ? null
        : {
            ...lot.standsAt,
            until: new Date(lot.standsAt.until).toISOString(),
          },
  };
}

export function ageInDays(madeAt: number, now: Date): number {
  return Math.max(0, Math.floor((now.getTime() - madeAt) / dayMs));
}

function roundedOr(score: number | null): number | null {
  return score === null ? null : rounded(score, 3);
}
