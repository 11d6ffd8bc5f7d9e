import { Decimal, Each, Id, Part, Text, Whole } from '../platform/fields';

const days = { min: 0, max: 36_525, decimals: 12 };
const count = { min: 0, max: 1_000_000 };

export class SettingInterval {
  @Decimal({ ...days, is: 'After this day,' })
  leftDays!: number;

  @Decimal({ ...days, nullable: true, is: 'and by this one; null: nobody knows when.' })
  rightDays!: number | null;

  @Decimal({ min: 0, max: 1, decimals: 16, is: 'such a share of the batches set.' })
  mass!: number;

  @Decimal({ min: 0, max: 1, decimals: 16, is: 'The share that had not set after rightDays.' })
  stillSetting!: number;
}

export class SettingMedian {
  @Decimal({ ...days, nullable: true, is: 'The number to quote; null: not reached.' })
  quotedDays!: number | null;

  @Decimal({ ...days, is: 'All that the looks tell: after this day,' })
  leftDays!: number;

  @Decimal({ ...days, nullable: true, is: 'and by this one; null: no end known.' })
  rightDays!: number | null;

  @Decimal({ ...days, is: 'Lower 95 percent limit.' })
  lowerDays!: number;

  @Decimal({ ...days, nullable: true, is: 'Upper 95 percent limit; null: not reached.' })
  upperDays!: number | null;
}

export class SettingQuartile {
  @Decimal(days)
  leftDays!: number;

  @Decimal({ ...days, nullable: true, is: 'null: no end known.' })
  rightDays!: number | null;
}

export class SettingGroup {
  @Id({ nullable: true, is: 'null: of no one source.' })
  floralSourceId!: string | null;

  @Text({ max: 200, is: 'The floral source of more than half of the honey; mixed; or all.' })
  name!: string;

  @Whole({ ...count, is: 'Seeded.' })
  batchCount!: number;

  @Whole({ ...count, is: 'Of these: seen set.' })
  setCount!: number;

  @Whole({ ...count, is: 'Of these: not seen set, and not abandoned.' })
  stillSettingCount!: number;

  @Whole({ ...count, is: 'Of these: abandoned before they were seen set.' })
  abandonedCount!: number;

  @Whole({ ...count, is: 'Of these: looked at, so that they tell something.' })
  observedCount!: number;

  @Each(() => SettingInterval, {
    max: 100_000,
    is: 'When they set. Where within an interval, the looks leave open.',
  })
  curve!: SettingInterval[];

  @Part(() => SettingMedian, { nullable: true, is: 'By when half of them had set.' })
  median!: SettingMedian | null;

  @Part(() => SettingQuartile, { nullable: true, is: 'By when a quarter of them had set.' })
  lowerQuartile!: SettingQuartile | null;

  @Part(() => SettingQuartile, { nullable: true, is: 'By when three quarters of them had set.' })
  upperQuartile!: SettingQuartile | null;

  @Text({ max: 200, nullable: true, is: 'Why there is no median.' })
  tooFew!: string | null;
}

export class SettingTimesResponse {
  @Text({ max: 2000, is: 'How the numbers come about.' })
  method!: string;

  @Each(() => SettingGroup, {
    max: 10_000,
    is: 'By floral source, the most batches first; mixed last.',
  })
  groups!: SettingGroup[];

  @Part(() => SettingGroup, { is: 'All batches together.' })
  all!: SettingGroup;
}
