import { Decimal, OneOf, Part, Text, Whole, YesNo } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Grain } from '../platform/prisma-client/enums';
import { Basis } from './basis.responses';
import { SeedingRequest } from './seeding.requests';

const mass = { min: 0, max: 100_000, decimals: 3 };
const percent = { min: 0, max: 100, decimals: 2 };

export class SeedMasses {
  @Decimal(mass)
  honeyKg!: number;

  @Decimal(mass)
  seedKg!: number;

  @Decimal(mass)
  blendKg!: number;

  @Decimal({ ...percent, is: 'Grams of seed for every 100 g of honey.' })
  seedGramsPer100GramsOfHoney!: number;

  @Decimal({ ...percent, is: 'Grams of seed in every 100 g of the blend.' })
  seedGramsPer100GramsOfBlend!: number;
}

export class SeedBlendHeat {
  @Decimal({ min: -30, max: 100, decimals: 1, is: 'Once evened out.' })
  temperatureC!: number;

  @Decimal({ ...percent, is: 'Of the seed’s crystals, melted by the blend’s warmth.' })
  seedMeltedPercent!: number;

  @YesNo({ is: 'The honey is warm enough to melt crystals where it first meets the seed.' })
  meltsOnContact!: boolean;

  @OneOf(['fine', 'warmish', 'too-warm'], {
    is: 'fine: up to 24 °C; warmish: up to 28 °C; too-warm: warmer than any published recipe.',
  })
  verdict!: 'fine' | 'warmish' | 'too-warm';
}

export class SeedGrainForecast {
  @OneOf(Grain, { is: 'The batch sets as its seed is.' })
  expected!: Grain;

  @YesNo({ is: 'Coarser than the honey would set by itself.' })
  seedTooCoarse!: boolean;
}

export class SeedBuildUpBatch {
  @Whole({ min: 1, max: 240 })
  number!: number;

  @Decimal({ min: 0, max: 2400, decimals: 2 })
  readyAfterMonths!: number;

  @Decimal(mass)
  seedUsedKg!: number;

  @Decimal({ ...mass, max: 1e9 })
  blendKg!: number;

  @Decimal({ ...mass, max: 1e9 })
  keptKg!: number;

  @Decimal({ ...mass, max: 1e9, is: 'Once this batch has set.' })
  seedInHandKg!: number;

  @Decimal({ ...percent, is: 'How much of it is still the first seed.' })
  firstSeedPercent!: number;
}

export class SeedBuildUp {
  @OneOf(['enough', 'never', 'too-slow'], {
    is: 'never: each batch gives back no more seed than it took; too-slow: not within 240 batches.',
  })
  outcome!: 'enough' | 'never' | 'too-slow';

  @Decimal({ min: 0, max: 2400, decimals: 2, nullable: true })
  afterMonths!: number | null;

  @Decimal({ ...percent, nullable: true, is: 'What would work, where it is never enough.' })
  keepMoreThanPercentOfBlend!: number | null;

  @Each(() => SeedBuildUpBatch, { max: 240 })
  batches!: SeedBuildUpBatch[];
}

export class SeedingResponse extends Basis {
  @Part(() => SeedingRequest, { is: 'As understood, with what was not given filled in.' })
  inputs!: SeedingRequest;

  @Part(() => SeedMasses, { is: 'What to weigh, by the convention asked for.' })
  masses!: SeedMasses;

  @Part(() => SeedMasses, { is: 'If percent means grams of seed for every 100 g of honey.' })
  ifPerHoney!: SeedMasses;

  @Part(() => SeedMasses, {
    nullable: true,
    is: 'If percent means grams of seed in every 100 g of the blend; null above 50.',
  })
  ifOfBlend!: SeedMasses | null;

  @Decimal({ ...percent, is: 'Of the blend.' })
  blendMoisturePercent!: number;

  @Part(() => SeedBlendHeat, { nullable: true, is: 'null: honeyC or seedC is missing.' })
  blendHeat!: SeedBlendHeat | null;

  @Part(() => SeedGrainForecast, { nullable: true, is: 'null: honeyGrain is missing.' })
  grain!: SeedGrainForecast | null;

  @Text({ max: 300, nullable: true, is: 'What speaks against doing it so.' })
  warning!: string | null;

  @Part(() => SeedBuildUp, { nullable: true })
  buildUp!: SeedBuildUp | null;
}
