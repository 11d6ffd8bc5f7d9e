import { Prisma } from '../platform/prisma-client/client';
import type { DiaryBookingResponse, DiaryStationResponse } from './diary.responses';
import { mostBookings, mostSpans, mostStations } from './diary.responses';

export type DiaryRow = Omit<DiaryStationResponse, 'bookings'> & {
  bookings: (Omit<DiaryBookingResponse, 'state'> & {
    releasedAt: string | null;
    keptUntil: string | null;
  })[];
};

/** The statement that reads each station with what its diary says between two times; of the bookings one more than is told, over all stations. */
export function diaryRows(clubId: string, from: Date, to: Date): Prisma.Sql {
  return Prisma.sql`
    with told as (
      select b.* from booking b
      where b.club_id = ${clubId}::uuid and b.active and b.starts_at < ${to} and b.ends_at > ${from}
      order by b.starts_at, b.id limit ${mostBookings + 1}::int),
    numbers as (
      select told.id, array_agg(l.number order by l.number) as places
      from told
      join booking_place h on h.club_id = told.club_id and h.booking_id = told.id
      join place l on l.club_id = h.club_id and l.id = h.place_id
      group by told.id),
    booked as (
      select told.station_id, json_agg(json_build_object(
        'id', told.id, 'duty', told.duty, 'memberId', told.member_id, 'memberName', p.name,
        'startsAt', ${instant('told.starts_at')}, 'endsAt', ${instant('told.ends_at')},
        'places', coalesce(numbers.places, '{}'),
        'releasedAt', told.released_at, 'keptUntil', told.kept_until) order by told.starts_at, told.id) as bookings
      from told
      join member m on m.club_id = told.club_id and m.id = told.member_id
      join person p on p.id = m.person_id
      left join numbers on numbers.id = told.id
      group by told.station_id)
    select s.id, s.name,
      (select count(*)::int from place p where p.club_id = s.club_id and p.station_id = s.id) as places,
      coalesce(booked.bookings, '[]') as bookings,
      ${spans('closure', ['reason'], from, to)} as closures,
      ${spans('duty_window', ['duty', 'note'], from, to)} as "dutyWindows"
    from station s left join booked on booked.station_id = s.id
    where s.club_id = ${clubId}::uuid
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
