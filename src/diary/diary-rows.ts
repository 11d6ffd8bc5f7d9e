import type { RoomHours } from '../core/planning/open-spans';
import { Prisma } from '../platform/prisma-client/client';
import { roomHours } from '../stations/room-hours';
import type { DiaryBookingResponse, DiaryStationResponse } from './diary.responses';
import { mostBookings, mostSpans, mostStations } from './diary.responses';

export type DiaryRow = Omit<DiaryStationResponse, 'bookings'> & {
  bookings: (Omit<DiaryBookingResponse, 'state'> & {
    releasedAt: string | null;
    keptUntil: string | null;
  })[];
  room: RoomHours;
};

/** The statement that reads each station with what its diary says between two times; of the bookings one more than is told, over all stations. A station or a place that is out of use is told where something stood there in that time. */
export function diaryRows(clubId: string, from: Date, to: Date): Prisma.Sql {
  return Prisma.sql`
    with told as (
      select b.* from booking b
      where b.club_id = ${clubId}::uuid and b.active and b.starts_at < ${to} and b.ends_at > ${from}
      order by b.starts_at, b.id limit ${mostBookings + 1}::int),
    booked as (
      select told.station_id, max(numbers.highest) as highest, json_agg(json_build_object(
        'id', told.id, 'duty', told.duty, 'memberId', told.member_id, 'memberName', p.name,
        'startsAt', ${instant('told.starts_at')}, 'endsAt', ${instant('told.ends_at')},
        'places', coalesce(numbers.places, '{}'),
        'releasedAt', told.released_at, 'keptUntil', told.kept_until) order by told.starts_at, told.id) as bookings
      from told
      join member m on m.club_id = told.club_id and m.id = told.member_id
      join person p on p.id = m.person_id
      cross join lateral (
        select array_agg(l.number order by l.number) as places, max(l.number) as highest
        from booking_place h join place l on l.club_id = h.club_id and l.id = h.place_id
        where h.club_id = told.club_id and h.booking_id = told.id) numbers
      group by told.station_id)
    select s.id, s.name,
      greatest(booked.highest,
        (select count(*)::int from place p where p.club_id = s.club_id and p.station_id = s.id and p.retired_at is null)) as places,
      coalesce(booked.bookings, '[]') as bookings,
      ${spans('closure', ['reason'], from, to)} as closures,
      ${spans('duty_window', ['duty', 'note'], from, to)} as "dutyWindows",
      ${roomHours(from, to)} as room
    from station s left join booked on booked.station_id = s.id
    where s.club_id = ${clubId}::uuid and (s.retired_at is null or booked.station_id is not null)
    order by s.name, s.id limit ${mostStations}::int`;
}

function spans(
  table: 'closure' | 'duty_window',
  columns: string[],
  from: Date,
  to: Date,
): Prisma.Sql {
  return Prisma.sql`
    coalesce((select json_agg(q) from (
      select id, ${instant('starts_at')} as "startsAt", ${instant('ends_at')} as "endsAt", ${Prisma.raw(columns.join(', '))}
      from ${Prisma.raw(table)} t
      where t.club_id = s.club_id and t.station_id = s.id and t.starts_at < ${to} and t.ends_at > ${from}
      order by t.starts_at, t.id limit ${mostSpans}::int) q), '[]')`;
}

/** As the answers write an instant. */
function instant(column: string): Prisma.Sql {
  return Prisma.raw(`to_char(${column} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`);
}
