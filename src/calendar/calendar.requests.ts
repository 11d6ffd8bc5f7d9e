import { OneOf, Text } from '../platform/fields';

export const whoseChoices = ['mine', 'all'] as const;

export class CalendarQuery {
  @OneOf(whoseChoices, { optional: true, is: 'Whose bookings: mine, unless told otherwise.' })
  whose: (typeof whoseChoices)[number] = 'mine';

  @Text({
    max: 100,
    optional: true,
    is: 'The secret of a calendar feed, for programs that cannot sign in: see calendar-feeds.',
  })
  feed?: string;
}

export class CalendarFeedRequest {
  @Text({ max: 100, is: 'What it is for, such as the phone that shows it.' })
  name!: string;
}
