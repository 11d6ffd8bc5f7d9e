import { Day, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { PageQuery } from '../platform/paging';

/** Open from one minute of a day of the week until another; in requests and answers alike. */
export class DayHours {
  @Whole({ min: 1, max: 7, is: 'Of ISO 8601: 1 is Monday, 7 is Sunday.' })
  weekday!: number;

  @Whole({ min: 0, max: 1439, is: 'Minutes after midnight by the club’s clock: 480 is 8:00.' })
  opensMinute!: number;

  @Whole({ min: 1, max: 1440, is: 'Later than that; 1440 is the end of the day.' })
  closesMinute!: number;
}

export class OpeningHoursRequest {
  @Each(() => DayHours, {
    max: 70,
    is: 'The whole week, several a day if need be. None at all: open day and night.',
  })
  hours!: DayHours[];
}

export class ClosedDayRequest {
  @Day({ is: 'A day, by the club’s clock, on which nobody comes in.' })
  day!: string;

  @Text({ max: 200, example: 'Midwinter' })
  reason!: string;
}

export class ClosedDayQuery extends PageQuery {
  @Day({ optional: true, is: 'Only that day and later ones.' })
  from?: string;
}
