import type { Distribution } from '../core/setting/regression/error-law';
import { Decimal, Id, OneOf, Text, Whole } from '../platform/fields';
import { Each, Texts } from '../platform/list-fields';
import { adjusters, type Adjuster } from './answer/question';

const days = { min: 0, max: 36_525, decimals: 12, nullable: true };
const times = { min: 0, max: 1_000_000, decimals: 12, nullable: true };
const anyNumber = { min: -1e300, max: 1e300, decimals: 12 };
const count = { min: 0, max: 1_000_000 };
const distributions: Distribution[] = ['weibull', 'lognormal', 'loglogistic'];

export class LeftOut {
  @Text({ max: 100, is: 'What is not known of them.' })
  lacking!: string;

  @Whole(count)
  batchCount!: number;
}

export class DistributionCompared {
  @OneOf(distributions)
  distribution!: Distribution;

  @Decimal({ ...anyNumber, is: 'Akaike’s criterion; the smaller the better.' })
  aic!: number;
}

export class AdjustedTerm {
  @Text({ max: 100, is: 'What it is of; or intercept.' })
  covariate!: string;

  @Text({ max: 300, nullable: true, is: 'Of a floral source, season …: which.' })
  level!: string | null;

  @Text({ max: 300, nullable: true, is: 'The level that it is compared with.' })
  reference!: string | null;

  @Text({ max: 100, nullable: true, is: 'Of a number: its unit.' })
  unit!: string | null;

  @Decimal({ ...anyNumber, is: 'On the natural logarithm of the days; of a number per unit.' })
  coefficient!: number;

  @Decimal({ ...anyNumber, min: 0 })
  standardError!: number;

  @Whole({ min: 1, max: 100, nullable: true, is: 'Of a number: timesAsFast is for so much more.' })
  step!: number | null;

  @Decimal({ ...times, is: 'exp(-coefficient x step); null: of the intercept.' })
  timesAsFast!: number | null;

  @Decimal({ ...times, is: 'Lower 95 percent limit.' })
  timesAsFastLower!: number | null;

  @Decimal({ ...times, is: 'Upper 95 percent limit; null: more than a million.' })
  timesAsFastUpper!: number | null;

  @Text({ max: 1000 })
  inWords!: string;
}

export class AdjustedTest {
  @Text({ max: 100 })
  covariate!: string;

  @Decimal({ ...anyNumber, min: 0, nullable: true, is: 'null: inWords tells why.' })
  chiSquare!: number | null;

  @Whole({ min: 1, max: 10_000, nullable: true })
  degreesOfFreedom!: number | null;

  @Decimal({ min: 0, max: 1, decimals: 12, nullable: true })
  p!: number | null;

  @Text({ max: 2000 })
  inWords!: string;
}

export class AdjustedProfile {
  @Text({ max: 100 })
  covariate!: string;

  @Text({ max: 300, nullable: true, is: 'null: it is a number.' })
  level!: string | null;

  @Decimal({ ...anyNumber, nullable: true, is: 'null: it is a level.' })
  number!: number | null;
}

export class AdjustedPoint {
  @Decimal({ min: 0, max: 1, decimals: 12, is: 'When such a share has not set:' })
  stillSetting!: number;

  @Decimal({ ...days, is: 'after so many days; null: more than a hundred years.' })
  days!: number | null;

  @Decimal({ ...days, is: 'Lower 95 percent limit.' })
  lowerDays!: number | null;

  @Decimal({ ...days, is: 'Upper 95 percent limit.' })
  upperDays!: number | null;
}

export class AdjustedGroup {
  @Id({ nullable: true, is: 'Of the floral source, the seed lot or the station.' })
  id!: string | null;

  @Text({ max: 300 })
  name!: string;

  @Whole({ ...count, is: 'Looked at, and all is known of them.' })
  batchCount!: number;

  @Whole({ ...count, is: 'Of these: seen set.' })
  setCount!: number;

  @Decimal({ ...days, is: 'By when half of them would have set; null: inWords tells why.' })
  medianDays!: number | null;

  @Decimal({ ...days, is: 'Lower 95 percent limit.' })
  lowerDays!: number | null;

  @Decimal({ ...days, is: 'Upper 95 percent limit.' })
  upperDays!: number | null;

  @Text({ max: 300, nullable: true, is: 'The group that its speed is compared with.' })
  against!: string | null;

  @Decimal({
    ...times,
    is: 'How many times as fast; null: it is that group, or inWords tells why.',
  })
  timesAsFast!: number | null;

  @Decimal({ ...times, is: 'Lower 95 percent limit.' })
  timesAsFastLower!: number | null;

  @Decimal({ ...times, is: 'Upper 95 percent limit.' })
  timesAsFastUpper!: number | null;

  @Text({ max: 2000 })
  inWords!: string;

  @Each(() => AdjustedPoint, { max: 100, is: 'Empty: inWords tells why.' })
  curve!: AdjustedPoint[];
}

/** What the groups would be if they were alike in all that is adjusted for. */
export class AdjustedTimes {
  @Text({ max: 3000, is: 'What was adjusted on how many batches, or why nothing could be.' })
  inWords!: string;

  @Texts({ max: 20, most: adjusters.length })
  adjustedFor!: Adjuster[];

  @Whole({ ...count, is: 'Batches that the estimate rests on.' })
  batchCount!: number;

  @Whole({ ...count, is: 'Of these: seen set.' })
  setCount!: number;

  @Whole({ ...count, is: 'Looked at, and left out because not all is known of them.' })
  leftOutCount!: number;

  @Each(() => LeftOut, { max: 10, is: 'What they lack; a batch may lack several things.' })
  leftOut!: LeftOut[];

  @Texts({ max: 500, most: 10_000, is: 'Levels without an estimate, and why.' })
  setAside!: string[];

  @Each(() => AdjustedGroup, { max: 10_000 })
  groups!: AdjustedGroup[];

  @Each(() => AdjustedTest, { max: 10 })
  tests!: AdjustedTest[];

  @OneOf(distributions, { nullable: true, is: 'null: inWords tells why.' })
  distribution!: Distribution | null;

  @Each(() => DistributionCompared, { max: 3 })
  distributionsCompared!: DistributionCompared[];

  @Each(() => AdjustedTerm, { max: 10_000 })
  terms!: AdjustedTerm[];

  @Decimal({ ...anyNumber, min: 0, nullable: true, is: 'Spread of the logarithm of the days.' })
  scale!: number | null;

  @Decimal({ ...anyNumber, min: 0, nullable: true })
  logScaleStandardError!: number | null;

  @Decimal({ ...anyNumber, nullable: true, is: 'Natural logarithm of the likelihood.' })
  logLik!: number | null;

  @Each(() => AdjustedProfile, { max: 10, is: 'The batch of which curves and medians are told.' })
  profile!: AdjustedProfile[];

  @Text({ max: 3000 })
  method!: string;
}
