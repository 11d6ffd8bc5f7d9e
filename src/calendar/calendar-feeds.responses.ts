import { Day, Id, Instant, Text } from '../platform/fields';

export class CalendarFeedResponse {
  @Id()
  id!: string;

  @Text({ max: 100 })
  name!: string;

  @Instant()
  createdAt!: string;

  @Day({ nullable: true, is: 'The last day of use, in UTC.' })
  lastUsedOn!: string | null;
}

export class NewCalendarFeed extends CalendarFeedResponse {
  @Text({
    max: 300,
    is: 'The address below this service, shown this once; whoever has it reads the calendar. With &whose=all it tells everybody’s bookings.',
  })
  path!: string;
}

export interface CalendarFeedRow {
  id: string;
  name: string;
  createdAt: Date;
  lastUsedAt: Date | null;
}

export function toCalendarFeedResponse(row: CalendarFeedRow): CalendarFeedResponse {
  return {
    id: row.id,
    name: row.name,
    createdAt: row.createdAt.toISOString(),
    // By day alone, so that a feed that is read all the time can still be removed by its ETag.
    lastUsedOn: row.lastUsedAt?.toISOString().slice(0, 10) ?? null,
  };
}
