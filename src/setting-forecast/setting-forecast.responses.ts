import { Day, Decimal, Id, Instant, OneOf, Part, Text, Whole, YesNo } from '../platform/fields';
import { Each, Texts } from '../platform/list-fields';
import { Grain } from '../platform/prisma-client/enums';

const days = { min: 0, max: 4000, decimals: 2 };
const percent = { min: 0, max: 100, decimals: 1 };
const count = { min: 0, max: 10_000_000 };

export const outlooks = ['planned', 'setting', 'set', 'abandoned', 'does-not-set'] as const;
export type Outlook = (typeof outlooks)[number];

/** A day after the seed was stirred in. */
export class SettingDay {
  @Decimal({ ...days, is: 'After the seed was stirred in.' })
  days!: number;

  @Instant()
  at!: string;

  @Day({ is: 'By the calendar of the club’s time zone.' })
  on!: string;
}

export class SetByDay {
  @Whole({ min: 1, max: 99 })
  certaintyPercent!: number;

  @Part(() => SettingDay, { nullable: true, is: 'null: not within ten years.' })
  by!: SettingDay | null;
}

export class SetWithin {
  @Whole({ min: 1, max: 99 })
  certaintyPercent!: number;

  @Part(() => SettingDay, { nullable: true })
  earliest!: SettingDay | null;

  @Part(() => SettingDay, { nullable: true })
  latest!: SettingDay | null;
}

export class CoolRoomDays {
  @Whole({ min: 50, max: 99, is: 'The certainty asked for.' })
  certaintyPercent!: number;

  @Part(() => SettingDay, {
    nullable: true,
    is: 'Whole days from the seeding for which to book the cool room; null: no day can be named.',
  })
  until!: SettingDay | null;

  @Decimal({ ...percent, nullable: true, is: 'How likely it is that it has set by then.' })
  chancePercent!: number | null;

  @Text({ max: 500 })
  inWords!: string;
}

export class ChanceByDay {
  @Decimal(days)
  days!: number;

  @Day()
  on!: string;

  @Decimal({ ...percent, is: 'How likely it is that it has set by then.' })
  chancePercent!: number;
}

export class BatchesBehind {
  @Whole({ ...count, is: 'Of the club that somebody looked at.' })
  batchCount!: number;

  @Whole({ ...count, is: 'Of these: seen set.' })
  setCount!: number;

  @Whole({ ...count, nullable: true, is: 'Of the same floral source; null: it is not known.' })
  sameSourceCount!: number | null;

  @Whole({ ...count, nullable: true })
  sameSourceSetCount!: number | null;
}

export class BelievedLaw {
  @OneOf(['weibull', 'lognormal', 'loglogistic'])
  distribution!: string;

  @Decimal({ ...percent, is: 'How far it is believed.' })
  weightPercent!: number;
}

export const traitNames = [
  'temperatureC',
  'seedPercent',
  'seedGrain',
  'moisturePercent',
  'honeyAgeDays',
] as const;

export class ForecastCovariate {
  @OneOf(traitNames)
  name!: (typeof traitNames)[number];

  @YesNo()
  used!: boolean;

  @Whole({ ...count, is: 'Batches of which it is known.' })
  batchCount!: number;

  @Text({ max: 300, is: 'How it is used, or why it is not.' })
  inWords!: string;
}

export class ForecastTemperature {
  @Decimal({ min: -30, max: 100, decimals: 1 })
  temperatureC!: number;

  @OneOf(['given', 'readings', 'band'], {
    is: 'Said in the request; readings of a probe; the middle of the band that is booked.',
  })
  from!: 'given' | 'readings' | 'band';
}

export class ForecastInputs {
  @Part(() => ForecastTemperature, { nullable: true })
  temperature!: ForecastTemperature | null;

  @Decimal({ min: 0, max: 100, decimals: 2, nullable: true })
  seedPercent!: number | null;

  @OneOf(Grain, { nullable: true })
  seedGrain!: Grain | null;

  @Decimal({ min: 0, max: 100, decimals: 2, nullable: true })
  moisturePercent!: number | null;

  @Decimal({ min: 0, max: 100_000, decimals: 1, nullable: true })
  honeyAgeDays!: number | null;
}

export class Forecast {
  @Each(() => SetByDay, { max: 3, is: 'It has set by then, with that certainty.' })
  setBy!: SetByDay[];

  @Each(() => SetWithin, {
    max: 3,
    is: 'It sets between the two, with that certainty, and is as likely to be earlier as later.',
  })
  within!: SetWithin[];

  @Part(() => CoolRoomDays)
  coolRoom!: CoolRoomDays;

  @Each(() => ChanceByDay, { max: 60, is: 'For a picture.' })
  curve!: ChanceByDay[];

  @Decimal({
    ...percent,
    is: 'How likely it was beforehand that it would be still not set at the last look.',
  })
  chanceOfNotSetSoFarPercent!: number;

  @YesNo({ is: 'true: at the last look later than 95 of 100 such batches.' })
  isOverdue!: boolean;

  @Part(() => BatchesBehind)
  restsOn!: BatchesBehind;

  @Each(() => BelievedLaw, { max: 3, is: 'The most believed first.' })
  distributions!: BelievedLaw[];

  @Each(() => ForecastCovariate, { max: 5 })
  covariates!: ForecastCovariate[];
}

export class SeenSet {
  @Part(() => SettingDay, {
    is: 'Not set when somebody last looked before; the seeding when nobody had.',
  })
  after!: SettingDay;

  @Part(() => SettingDay, { is: 'Seen set.' })
  by!: SettingDay;
}

export class SettingForecastResponse {
  @OneOf(outlooks, {
    is: 'Planned; seeded and not seen set; seen set; given up; or of a floral source that does not set.',
  })
  outlook!: Outlook;

  @Id({ nullable: true })
  batchId!: string | null;

  @Id({ nullable: true, is: 'What most of the honey is of; null: mixed, or not known.' })
  floralSourceId!: string | null;

  @Text({ max: 200, nullable: true })
  floralSourceName!: string | null;

  @Instant({ is: 'When the seed was, or is to be, stirred in.' })
  startsAt!: string;

  @OneOf(['seeded', 'given', 'bench-booking'])
  startsAtFrom!: 'seeded' | 'given' | 'bench-booking';

  @Part(() => SettingDay, { nullable: true, is: 'The last look, which found it not set.' })
  lastLook!: SettingDay | null;

  @Part(() => ForecastInputs)
  inputs!: ForecastInputs;

  @Part(() => Forecast, { nullable: true, is: 'null: there is nothing to forecast.' })
  forecast!: Forecast | null;

  @Part(() => SeenSet, { nullable: true, is: 'When it set, of a batch that was seen set.' })
  set!: SeenSet | null;

  @Text({ max: 2000 })
  inWords!: string;

  @Texts({ max: 500, most: 20 })
  cautions!: string[];

  @Text({ max: 3000, is: 'How the numbers come about.' })
  method!: string;
}
