import { Prisma } from '../platform/prisma-client/client';
import type { Duty, StepKind } from '../platform/prisma-client/enums';

/** A booking on the same places that comes next. */
export interface NextBookingRow {
  bookingId: string;
  memberId: string;
  memberName: string;
  startsAt: string;
  places: number[];
}

export interface OverstayRow {
  clubId: string;
  bookingId: string;
  stationId: string;
  stationName: string;
  duty: Duty;
  minDeciC: number;
  maxDeciC: number;
  memberId: string;
  memberName: string;
  startsAt: Date;
  endsAt: Date;
  arrivedAt: Date;
  placeIds: string[];
  places: number[];
  batchId: string | null;
  batchName: string | null;
  stage: StepKind | 'planned' | null;
  setAt: Date | null;
  isSeeded: boolean;
  next: NextBookingRow[];
}

const mostNext = 20;

/**
 * Bookings whose honey came in and stands there after their end, for which `condition` holds; `b` is the booking. Each with the
 * bookings of its places that begin after it and are not over. Those that stand longest come first.
 */
export function overstayRows(now: Date, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select b.club_id as "clubId", b.id as "bookingId", b.station_id as "stationId", s.name as "stationName", b.duty,
      b.min_deci_c as "minDeciC", b.max_deci_c as "maxDeciC", b.member_id as "memberId", p.name as "memberName",
      b.starts_at as "startsAt", b.ends_at as "endsAt", b.arrived_at as "arrivedAt", held.ids as "placeIds", held.numbers as places,
      b.batch_id as "batchId", batch.name as "batchName",
      case when b.batch_id is not null then coalesce(last.kind::text, 'planned') end as stage,
      (select t.at from batch_step t where t.club_id = b.club_id and t.batch_id = b.batch_id and t.kind = 'set') as "setAt",
      exists (select from batch_step t where t.club_id = b.club_id and t.batch_id = b.batch_id and t.kind = 'seeded') as "isSeeded",
      coalesce((select json_agg(q order by q."startsAt", q."bookingId") from (${nextRows(now)}) q), '[]') as next
    from booking b
    join station s on s.club_id = b.club_id and s.id = b.station_id
    join member m on m.club_id = b.club_id and m.id = b.member_id
    join person p on p.id = m.person_id
    cross join lateral (
      select array_agg(l.id::text order by l.number) as ids, array_agg(l.number order by l.number) as numbers
      from booking_place h join place l on l.club_id = h.club_id and l.id = h.place_id
      where h.club_id = b.club_id and h.booking_id = b.id) held
    left join batch on batch.club_id = b.club_id and batch.id = b.batch_id
    left join lateral (
      select t.kind from batch_step t where t.club_id = b.club_id and t.batch_id = b.batch_id order by t.kind desc limit 1) last on true
    where b.active and b.ends_at <= ${now} and b.arrived_at is not null and b.cleared_at is null and ${condition}
    order by b.ends_at, b.id limit ${limit}::int`;
}

function nextRows(now: Date): Prisma.Sql {
  return Prisma.sql`
    select n.id as "bookingId", n.member_id as "memberId", np.name as "memberName",
      to_char(n.starts_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') as "startsAt",
      array_agg(l.number order by l.number) as places
    from booking n
    join booking_place h on h.club_id = n.club_id and h.booking_id = n.id
    join booking_place mine on mine.club_id = h.club_id and mine.place_id = h.place_id and mine.booking_id = b.id
    join place l on l.club_id = h.club_id and l.id = h.place_id
    join member nm on nm.club_id = n.club_id and nm.id = n.member_id
    join person np on np.id = nm.person_id
    where n.club_id = b.club_id and n.station_id = b.station_id and n.active and n.starts_at >= b.ends_at and n.ends_at > ${now}
    group by n.id, n.member_id, np.name, n.starts_at
    order by n.starts_at, n.id limit ${mostNext}`;
}
