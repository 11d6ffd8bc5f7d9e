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
    min: 1,
    max: 100_000,
    optional: true,
    nullable: true,
    is: 'Fair shares: how many place-days each member may have booked ahead. Null: as many as they like.',
  })
  placeDaysAhead?: number | null;

  @Whole({
    min: 15,
    max: 20_160,
    optional: true,
    is: 'How long a freed time is kept for the first on the waiting list.',
  })
  offerMinutes?: number;

  @Whole({
    min: 15,
    max: 20_160,
    optional: true,
    is: 'How long after its start a booking without an arrival counts as not turned up.',
  })
  noShowMinutes?: number;
}
