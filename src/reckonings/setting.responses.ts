import { Decimal, Id, OneOf, Text, YesNo } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Grain } from '../platform/prisma-client/enums';

const percent = { min: 0, max: 100, decimals: 3 };
const readinessClasses = ['fast', 'medium', 'slow'] as const;

export class SettingSource {
  @Id()
  floralSourceId!: string;

  @Text({ max: 200 })
  name!: string;

  @Decimal(percent)
  sharePercent!: number;

  @YesNo()
  clubSaysItSets!: boolean;

  @Text({ max: 200, is: 'The plant whose published composition was taken.' })
  plant!: string;

  @Text({ max: 500 })
  source!: string;

  @OneOf(['read in a copy', 'from memory, medium'], {
    is: 'How far the composition is to be trusted.',
  })
  status!: string;
}

export class SettingReckoning {
  @Decimal(percent)
  glucosePercent!: number;

  @Decimal(percent)
  fructosePercent!: number;

  @Decimal(percent)
  moisturePercent!: number;

  @YesNo({ is: 'true: the honey’s own moisture; false: that of the published composition.' })
  moistureIsOwn!: boolean;

  @Decimal({ min: 0, max: 100, decimals: 3 })
  glucoseToWater!: number;

  @OneOf(['yes', 'in-time', 'doubtful'])
  willSet!: 'yes' | 'in-time' | 'doubtful';

  @OneOf(readinessClasses)
  readiness!: (typeof readinessClasses)[number];

  @YesNo({ is: 'true: the rules of thumb do not agree; trust a trial more.' })
  measuresDisagree!: boolean;

  @Each(() => SettingSource, { max: 1000 })
  sources!: SettingSource[];
}

export class GrainReckoning {
  @OneOf(Grain, { is: 'The coarsest of the seed that was stirred in.' })
  seedGrain!: Grain;

  @OneOf(Grain, { is: 'In which most of the honey would set by itself.' })
  honeyGrain!: Grain;

  @OneOf(Grain)
  expectedGrain!: Grain;

  @Text({ max: 500, nullable: true })
  warning!: string | null;

  @Text({ max: 500 })
  source!: string;
}
