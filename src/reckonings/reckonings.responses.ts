import { stepOrder } from '../core/batches/next-steps';
import { Decimal, Id, MassKg, OneOf, Part, Text } from '../platform/fields';
import { Each } from '../platform/list-fields';
import type { StepKind } from '../platform/prisma-client/enums';
import { cautionTopics } from '../core/cautions';
import type { Caution } from './cautions';
import { FermentationReckoning } from './fermentation.responses';
import { HeatReckoning } from './heat.responses';
import { GrainReckoning, SettingReckoning } from './setting.responses';
import { WarmingReckoning } from './warming.responses';

const percent = { min: 0, max: 100, decimals: 3 };

export class UnmeasuredLot {
  @Id()
  lotId!: string;

  @Text({ max: 120 })
  name!: string;
}

export class HoneyReckoning {
  @MassKg({ min: 0, max: 1_000_000 })
  massKg!: number;

  @Decimal({ ...percent, nullable: true, is: 'By mass; null: a lot lacks its own.' })
  moisturePercent!: number | null;

  @Each(() => UnmeasuredLot, { max: 50 })
  lotsWithoutMoisture!: UnmeasuredLot[];
}

export class SeedShare {
  @MassKg({ min: 0, max: 1_000_000 })
  seedMassKg!: number;

  @Decimal({ min: 0, max: 1e12, decimals: 2, is: 'Seed for every 100 of honey, by mass.' })
  perHundredOfHoney!: number;

  @Decimal({ ...percent, is: 'Seed in honey and seed together, by mass.' })
  percentOfBlend!: number;
}

export class SeedReckoning {
  @Part(() => SeedShare, { is: 'The rule of thumb: 10 of seed for every 100 of honey.' })
  usual!: SeedShare;

  @Part(() => SeedShare, { nullable: true, is: 'What was stirred in; null: nothing yet.' })
  used!: SeedShare | null;
}

export class CautionResponse {
  @OneOf(cautionTopics)
  about!: Caution['about'];

  @Text({ max: 500 })
  text!: string;
}

export const reckonedParts = [
  'seed',
  'warming',
  'heat',
  'fermentation',
  'setting',
  'grain',
] as const;

export class NotReckoned {
  @OneOf(reckonedParts)
  part!: (typeof reckonedParts)[number];

  @Text({ max: 3000 })
  reason!: string;
}

export class ReckoningResponse {
  @Id()
  batchId!: string;

  @OneOf(['planned', ...stepOrder], { is: 'The last step done; planned: none yet.' })
  stage!: StepKind | 'planned';

  @Id({ nullable: true, is: 'What it made.' })
  creamedLotId!: string | null;

  @Part(() => HoneyReckoning)
  honey!: HoneyReckoning;

  @Part(() => SeedReckoning, { nullable: true })
  seed!: SeedReckoning | null;

  @Part(() => WarmingReckoning, { nullable: true })
  warming!: WarmingReckoning | null;

  @Part(() => HeatReckoning, {
    nullable: true,
    is: 'What warming cost, estimated from what a probe in the honey logged, or from the temperatures of the steps loaded, cleared and cooled.',
  })
  heat!: HeatReckoning | null;

  @Part(() => FermentationReckoning, { nullable: true })
  fermentation!: FermentationReckoning | null;

  @Part(() => SettingReckoning, { nullable: true })
  setting!: SettingReckoning | null;

  @Part(() => GrainReckoning, { nullable: true })
  grain!: GrainReckoning | null;

  @Each(() => NotReckoned, { max: reckonedParts.length, is: 'Why a part is null.' })
  notReckoned!: NotReckoned[];

  @Each(() => CautionResponse, { max: cautionTopics.length })
  cautions!: CautionResponse[];
}
