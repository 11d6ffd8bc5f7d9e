import type { WaitingWish } from '../core/planning/next-in-line';
import { Prisma } from '../platform/prisma-client/client';
import type { Duty, WaitingState } from '../platform/prisma-client/enums';

/** A wish as it stands in the line for a station. */
export interface WishInLine extends WaitingWish {
  memberId: string;
  batchId: string | null;
  minDeciC: number;
  maxDeciC: number;
  note: string;
  /** The club's. */
  offerMinutes: number;
}

/** Who waits for a station, the first in line first. Wishes whose time is over, and those of members who left, are passed by. */
export function lineOf(clubId: string, stationId: string, now: Date): Prisma.Sql {
  return Prisma.sql`
    select w.id, w.member_id as "memberId", w.duty::text as duty, w.batch_id as "batchId", w.min_deci_c as "minDeciC",
      w.max_deci_c as "maxDeciC", w.min_deci_c / 10.0::float8 as "minC", w.max_deci_c / 10.0::float8 as "maxC", w.places, w.minutes,
      (extract(epoch from w.not_before) * 1000)::float8 as "notBefore",
      (extract(epoch from w.not_after) * 1000)::float8 as "notAfter", w.note, c.offer_minutes as "offerMinutes"
    from waiting_wish w
    join club c on c.id = w.club_id
    join member m on m.club_id = w.club_id and m.id = w.member_id and m.left_at is null
    where w.club_id = ${clubId}::uuid and w.station_id = ${stationId}::uuid and w.state = 'waiting'
      and w.not_after - make_interval(mins => w.minutes) >= ${now}::timestamptz
    order by w.id`;
}

/** A wish with all that its answer shows. */
export interface WishRow {
  id: string;
  stationId: string;
  stationName: string;
  memberId: string;
  memberName: string;
  duty: Duty;
  minDeciC: number;
  maxDeciC: number;
  places: number;
  minutes: number;
  notBefore: Date;
  notAfter: Date;
  batchId: string | null;
  note: string;
  state: WaitingState;
  createdAt: Date;
  endedAt: Date | null;
  bookingId: string | null;
  startsAt: Date | null;
  endsAt: Date | null;
  keptUntil: Date | null;
  numbers: number[];
}

/** The wishes of a club for which `condition` holds, in the order of the line; `w` is the wish. The booking is the one kept, or taken. */
export function wishRows(clubId: string, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select w.id, w.station_id as "stationId", s.name as "stationName", w.member_id as "memberId", p.name as "memberName", w.duty,
      w.min_deci_c as "minDeciC", w.max_deci_c as "maxDeciC", w.places, w.minutes, w.not_before as "notBefore", w.not_after as "notAfter",
      w.batch_id as "batchId", w.note, w.state, w.created_at as "createdAt", w.ended_at as "endedAt",
      b.id as "bookingId", b.starts_at as "startsAt", b.ends_at as "endsAt", b.kept_until as "keptUntil",
      (select coalesce(array_agg(l.number order by l.number), '{}') from booking_place h
        join place l on l.club_id = h.club_id and l.id = h.place_id
        where h.club_id = b.club_id and h.booking_id = b.id) as numbers
    from waiting_wish w
    join station s on s.club_id = w.club_id and s.id = w.station_id
    join member m on m.club_id = w.club_id and m.id = w.member_id
    join person p on p.id = m.person_id
    left join lateral (
      select * from booking k where k.club_id = w.club_id and k.kept_for_id = w.id and w.state in ('offered', 'taken')
      order by k.id desc limit 1) b on true
    where w.club_id = ${clubId}::uuid and ${condition}
    order by w.id limit ${limit}::int`;
}
