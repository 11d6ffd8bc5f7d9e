import { OneOf, Whole } from '../platform/fields';

export const whoseChoices = ['mine', 'all'] as const;

export class TodayQuery {
  @OneOf(whoseChoices, {
    optional: true,
    is: 'mine, unless told otherwise; all: of the whole room.',
  })
  whose: (typeof whoseChoices)[number] = 'mine';

  @Whole({
    min: 0,
    max: 60,
    optional: true,
    fromText: true,
    is: 'How far ahead to look; 7 unless told otherwise.',
  })
  daysAhead: number = 7;
}
