import { Prisma } from '../platform/prisma-client/client';

/** How often it was changed, and when last (epoch milliseconds). */
interface Revised {
  revision: number;
  revisedAt: number;
}

/** Times are epoch milliseconds. */
export interface CalendarBooking extends Revised {
  id: string;
  stationName: string;
  duty: 'warm' | 'cool' | 'bench';
  memberId: string;
  memberName: string;
  batchName: string | null;
  places: number[];
  minDeciC: number;
  maxDeciC: number;
  startsAt: number;
  endsAt: number;
  note: string;
  isCancelled: boolean;
  isReleased: boolean;
  /** Kept for somebody who has not taken it yet. */
  isKept: boolean;
}

export interface CalendarClosure extends Revised {
  id: string;
  stationName: string;
  startsAt: number;
  endsAt: number;
  reason: string;
}

export interface CalendarClosedDay extends Revised {
  id: string;
  /** YYYY-MM-DD. */
  day: string;
  reason: string;
}

export interface CalendarRow {
  clubName: string;
  bookings: CalendarBooking[];
  closures: CalendarClosure[];
  closedDays: CalendarClosedDay[];
}

const pastDays = 60;
const aheadDays = 400;
/** So long calendar programs are told that something was cancelled. */
const cancelledDays = 30;
const mostOfEach = 2000;

/** The diary in one row: the bookings of one member, or of all (`memberId` null). The club's history tells how often a thing was changed. */
export function calendarRow(clubId: string, memberId: string | null, now: Date): Prisma.Sql {
  const club = Prisma.sql`${clubId}::uuid`;
  const from = Prisma.sql`${now}::timestamptz - make_interval(days => ${pastDays}::int)`;
  const until = Prisma.sql`${now}::timestamptz + make_interval(days => ${aheadDays}::int)`;
  const whose = memberId === null ? Prisma.sql`true` : Prisma.sql`b.member_id = ${memberId}::uuid`;
  return Prisma.sql`
    select c.name as "clubName",
      coalesce((select json_agg(json_build_object('id', b.id, 'stationName', b.station_name, 'duty', b.duty, 'memberId', b.member_id,
          'memberName', p.name, 'batchName', t.name, 'minDeciC', b.min_deci_c, 'maxDeciC', b.max_deci_c, 'note', b.note,
          'places', (select coalesce(json_agg(l.number order by l.number), '[]') from booking_place h
            join place l on l.club_id = h.club_id and l.id = h.place_id where h.club_id = b.club_id and h.booking_id = b.id),
          'startsAt', ${ms('b.starts_at')}, 'endsAt', ${ms('b.ends_at')}, 'isCancelled', not b.active,
          'isReleased', b.released_at is not null, 'isKept', b.kept_until is not null,
          'revision', greatest(a.entries - 1, 0), 'revisedAt', ${ms('greatest(a.last_at, b.created_at, b.cancelled_at, b.released_at)')})
          order by b.starts_at, b.id)
        from (
          select b.*, s.name as station_name from booking b
          join station s on s.club_id = b.club_id and s.id = b.station_id
          where b.club_id = ${club} and ${whose} and b.ends_at > ${from} and b.starts_at < ${until}
            and (b.active or b.cancelled_at > ${now}::timestamptz - make_interval(days => ${cancelledDays}::int))
          order by b.starts_at desc, b.id limit ${mostOfEach}::int) b
        join member m on m.club_id = b.club_id and m.id = b.member_id
        join person p on p.id = m.person_id
        left join batch t on t.club_id = b.club_id and t.id = b.batch_id
        cross join lateral (${historyOf('b')}) a), '[]') as bookings,
      coalesce((select json_agg(json_build_object('id', x.id, 'stationName', s.name, 'startsAt', ${ms('x.starts_at')}, 'endsAt', ${ms('x.ends_at')},
          'reason', x.reason, 'revision', a.entries, 'revisedAt', ${ms('greatest(a.last_at, uuid_extract_timestamp(x.id))')})
          order by x.starts_at, x.id)
        from closure x
        join station s on s.club_id = x.club_id and s.id = x.station_id and s.retired_at is null
        cross join lateral (${historyOf('x')}) a
        where x.club_id = ${club} and x.ends_at > ${from} and x.starts_at < ${until}), '[]') as closures,
      coalesce((select json_agg(json_build_object('id', d.id, 'day', to_char(d.day, 'YYYY-MM-DD'), 'reason', d.reason,
          'revision', greatest(a.entries - 1, 0), 'revisedAt', ${ms('greatest(a.last_at, uuid_extract_timestamp(d.id))')}) order by d.day)
        from closed_day d
        cross join lateral (${historyOf('d')}) a
        where d.club_id = ${club} and d.day between (${from})::date and (${until})::date), '[]') as "closedDays"
    from club c where c.id = ${club}`;
}

function historyOf(letter: string): Prisma.Sql {
  const of = Prisma.raw(letter);
  return Prisma.sql`select count(*)::int as entries, max(h.at) as last_at from audit_entry h
    where h.club_id = ${of}.club_id and h.subject_id = ${of}.id`;
}

function ms(time: string): Prisma.Sql {
  return Prisma.raw(`round(extract(epoch from ${time}) * 1000)::float8`);
}
