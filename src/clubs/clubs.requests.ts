import { Text, Whole } from '../platform/fields';
import { TimeZone } from './time-zone';

export class ClubRequest {
  @Text({ max: 100 })
  name!: string;

  @TimeZone()
  timeZone!: string;
}

export class ClubChange {
  @Text({ max: 100, optional: true })
  name?: string;

  @TimeZone({ optional: true })
  timeZone?: string;

  @Whole({
    min: 15,
    max: 20160,
    optional: true,
    is: 'How long a freed time is kept for the first on the waiting list.',
  })
  offerMinutes?: number;

  @Whole({
    min: 15,
    max: 20160,
    optional: true,
    is: 'How long after its start a booking for which nothing came in is listed as a no-show.',
  })
  noShowMinutes?: number;
}
