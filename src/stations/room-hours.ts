import { Prisma } from '../platform/prisma-client/client';

/** The part of a statement about stations `s` that reads when people may come in between two times: `RoomHours` as JSON. */
export function roomHours(from: Date, until: Date): Prisma.Sql {
  return Prisma.sql`
    (select json_build_object('timeZone', c.time_zone,
       'hours', (select coalesce(json_agg(json_build_object('weekday', weekday, 'opensMinute', opens_minute, 'closesMinute', closes_minute)), '[]')
         from opening_hours where club_id = c.id),
       'closedDays', (select coalesce(json_agg(day), '[]') from closed_day
         where club_id = c.id and day between ${from}::timestamptz - interval '2 days' and ${until}::timestamptz + interval '2 days'))
     from club c where c.id = s.club_id)`;
}
