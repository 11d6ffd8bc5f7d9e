import { Decimal, Text, Whole } from '../platform/fields';
import { Texts } from '../platform/list-fields';
import { adjusters, type Adjuster } from './answer/question';

const days = { min: 0, max: 36_525, decimals: 12, nullable: true };
const times = { min: 0, max: 1_000_000, decimals: 12, nullable: true };
const count = { min: 0, max: 1_000_000 };

/** Whether the groups differ. */
export class SettingComparison {
  @Text({ max: 500, is: 'What the test says.' })
  inWords!: string;

  @Text({ max: 200 })
  method!: string;

  @Whole({ ...count, is: 'Compared: of a group, and looked at.' })
  batchCount!: number;

  @Decimal({ min: 0, max: 1, decimals: 12, nullable: true, is: 'null: inWords tells why.' })
  p!: number | null;

  @Whole({ min: 99, max: 100_000, nullable: true, is: 'Dealings of the batches to the groups.' })
  permutations!: number | null;
}

/** In which order the groups set, as far as the batches can tell. */
export class SettingRanking {
  @Text({ max: 20_000, is: 'The order, or why there is none.' })
  inWords!: string;

  @Texts({
    max: 300,
    most: 10_000,
    nullable: true,
    is: 'The fastest first; null: they cannot be ranked.',
  })
  order!: string[] | null;

  @Texts({
    max: 1000,
    most: 100,
    is: 'A sentence for each pair that can be told apart; the first hundred.',
  })
  toldApart!: string[];

  @Texts({ max: 20, most: adjusters.length })
  adjustedFor!: Adjuster[];

  @Text({ max: 2000 })
  method!: string;
}

/** A group drawn towards the mean of all. */
export class PooledGroup {
  @Decimal({
    ...days,
    is: 'By when half of them has set; null: more than a hundred years, or inWords tells why.',
  })
  medianDays!: number | null;

  @Decimal({ ...days, is: 'Lower 95 percent limit.' })
  lowerDays!: number | null;

  @Decimal({ ...days, is: 'Upper 95 percent limit; null: more than a hundred years.' })
  upperDays!: number | null;

  @Decimal({
    ...times,
    is: 'How many times as fast as the mean of the groups; null: more than a million.',
  })
  timesAsFast!: number | null;

  @Decimal({ ...times, is: 'Lower 95 percent limit.' })
  timesAsFastLower!: number | null;

  @Decimal({ ...times, is: 'Upper 95 percent limit; null: more than a million.' })
  timesAsFastUpper!: number | null;

  @Whole({ ...count, is: 'How many batches it rests on.' })
  batchCount!: number;

  @Whole({ ...count, is: 'Of these: seen set.' })
  setCount!: number;

  @Text({ max: 500 })
  inWords!: string;
}
