import { Decimal, Id, OneOf, Part, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { AdjustedTimes } from './adjusted-times.responses';
import { groupings, type Grouping } from './answer/question';
import {
  PooledGroup,
  SettingComparison,
  SettingRanking,
} from './setting-times-comparison.responses';

const days = { min: 0, max: 36_525, decimals: 12 };
const share = { min: 0, max: 1, decimals: 16 };
const count = { min: 0, max: 1_000_000 };

export class SettingInterval {
  @Decimal({ ...days, is: 'After this day,' })
  leftDays!: number;

  @Decimal({ ...days, nullable: true, is: 'and by this one; null: nobody knows when.' })
  rightDays!: number | null;

  @Decimal({ ...share, is: 'such a share of the batches set.' })
  mass!: number;

  @Decimal({ ...share, is: 'The share that had not set after rightDays.' })
  stillSetting!: number;

  @Decimal({
    ...share,
    nullable: true,
    is: 'Lower 95 percent limit of stillSetting, at this day by itself; null: rightDays is, or tooFew tells why.',
  })
  stillSettingLower!: number | null;

  @Decimal({ ...share, nullable: true, is: 'Upper 95 percent limit.' })
  stillSettingUpper!: number | null;
}

export class SettingQuantile {
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

export class SettingGroup {
  @Id({ nullable: true, is: 'Of the floral source, the seed lot or the station.' })
  id!: string | null;

  @Id({ nullable: true, is: 'The same where groups are floral sources; null: of no one source.' })
  floralSourceId!: string | null;

  @Text({ max: 300, is: 'Such as the floral source of more than half of the honey; or all.' })
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

  @Part(() => SettingQuantile, { nullable: true, is: 'By when half of them had set.' })
  median!: SettingQuantile | null;

  @Part(() => SettingQuantile, { nullable: true, is: 'By when a quarter of them had set.' })
  lowerQuartile!: SettingQuantile | null;

  @Part(() => SettingQuantile, { nullable: true, is: 'By when three quarters of them had set.' })
  upperQuartile!: SettingQuantile | null;

  @Part(() => SettingQuantile, { nullable: true, is: 'By when 80 percent of them had set.' })
  percentile80!: SettingQuantile | null;

  @Whole({ ...count, is: 'Resamples of the batches that the limits rest on.' })
  replicates!: number;

  @Text({ max: 200, nullable: true, is: 'Why there is no median, and no limit.' })
  tooFew!: string | null;

  @Part(() => PooledGroup, {
    nullable: true,
    is: 'Drawn towards the mean of the groups; null: the ranking tells why, or these are of no group.',
  })
  pooled!: PooledGroup | null;
}

export class SettingTimesResponse {
  @Text({ max: 2000, is: 'The answer for whoever knows no statistics.' })
  inWords!: string;

  @Text({ max: 3000, is: 'How the numbers come about.' })
  method!: string;

  @OneOf(groupings)
  by!: Grouping;

  @Each(() => SettingGroup, {
    max: 10_000,
    is: 'The most batches first, seasons and temperatures in order; what is mixed or not known last.',
  })
  groups!: SettingGroup[];

  @Part(() => SettingGroup, { is: 'All batches together.' })
  all!: SettingGroup;

  @Part(() => SettingComparison, { is: 'Whether the groups differ; nothing is adjusted.' })
  comparison!: SettingComparison;

  @Part(() => SettingRanking)
  ranking!: SettingRanking;

  @Part(() => AdjustedTimes, { nullable: true, is: 'null: adjust was not asked for.' })
  adjusted!: AdjustedTimes | null;
}
