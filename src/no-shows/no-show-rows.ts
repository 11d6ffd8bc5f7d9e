import { Prisma } from '../platform/prisma-client/client';
import type { Duty } from '../platform/prisma-client/enums';

export interface NoShowRow {
  bookingId: string;
  stationId: string;
  stationName: string;
  duty: Duty;
  memberId: string;
  memberName: string;
  batchId: string | null;
  startsAt: Date;
  endsAt: Date;
  places: number[];
  expectedBy: Date;
}

/**
 * Bookings that run and for which nothing has come in, the club's noShowMinutes after their start, for which `condition` holds; `b` is
 * the booking, `c` its club. In order of their start.
 */
export function noShowRows(now: Date, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select b.id as "bookingId", b.station_id as "stationId", s.name as "stationName", b.duty, b.member_id as "memberId",
      p.name as "memberName", b.batch_id as "batchId", b.starts_at as "startsAt", b.ends_at as "endsAt",
      (select array_agg(l.number order by l.number) from booking_place h
        join place l on l.club_id = h.club_id and l.id = h.place_id
        where h.club_id = b.club_id and h.booking_id = b.id) as places,
      b.starts_at + make_interval(mins => c.no_show_minutes) as "expectedBy"
    from booking b
    join club c on c.id = b.club_id
    join station s on s.club_id = b.club_id and s.id = b.station_id
    join member m on m.club_id = b.club_id and m.id = b.member_id
    join person p on p.id = m.person_id
    where b.active and b.ends_at > ${now} and b.starts_at + make_interval(mins => c.no_show_minutes) <= ${now}
      and b.kept_until is null and b.arrived_at is null and b.cleared_at is null and ${condition}
    order by b.starts_at, b.id limit ${limit}::int`;
}
