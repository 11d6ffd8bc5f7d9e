import type { RoomHours } from '../core/planning/open-spans';
import type { RoomBooking, RoomDutyWindow, RoomStation } from '../core/planning/runs/run';
import type { Span } from '../core/planning/station-times';
import { Prisma } from '../platform/prisma-client/client';
import type { Duty } from '../platform/prisma-client/enums';
import { roomHours } from '../stations/room-hours';

/** A station with all of its diary that bears on the times between which a run is planned. */
export interface StationRow {
  stationId: string;
  name: string;
  placeLoadG: number;
  changeoverMinutes: number;
  duties: { duty: Duty; minC: number; maxC: number }[];
  places: { id: string; number: number }[];
  bookings: RoomBooking[];
  closures: Span[];
  dutyWindows: RoomDutyWindow[];
  /** When people may come in: the same for all stations. */
  room: RoomHours;
}

/**
 * The statement that reads the diaries of all stations in use of a club from one time to another, a week of changeover to either side. Bookings
 * that are being moved are left out.
 */
export function roomRows(
  clubId: string,
  from: Date,
  until: Date,
  exceptBookingIds: readonly string[] = [],
): Prisma.Sql {
  const club = Prisma.sql`${clubId}::uuid`;
  const ofStation = (letter: string) =>
    Prisma.raw(`${letter}.club_id = s.club_id and ${letter}.station_id = s.id`);
  const during = (letter: string) => Prisma.sql`
    ${Prisma.raw(letter)}.starts_at < ${until}::timestamptz + interval '7 days' and ${Prisma.raw(letter)}.ends_at > ${from}::timestamptz - interval '7 days'`;
  const span = (letter: string) =>
    Prisma.raw(
      `'startsAt', (extract(epoch from ${letter}.starts_at) * 1000)::int8, 'endsAt', (extract(epoch from ${letter}.ends_at) * 1000)::int8`,
    );
  return Prisma.sql`
    select s.id as "stationId", s.name, s.place_load_g as "placeLoadG", s.changeover_minutes as "changeoverMinutes",
      (select json_agg(json_build_object('duty', d.duty, 'minC', d.min_deci_c / 10.0, 'maxC', d.max_deci_c / 10.0) order by d.duty)
       from station_duty d where ${ofStation('d')} and d.retired_at is null) as duties,
      (select json_agg(json_build_object('id', p.id, 'number', p.number) order by p.number)
       from place p where ${ofStation('p')} and p.retired_at is null) as places,
      coalesce((
        select json_agg(json_build_object('id', b.id, 'duty', b.duty, 'minC', b.min_deci_c / 10.0, 'maxC', b.max_deci_c / 10.0, ${span('b')},
          'placeIds', h.places) order by b.starts_at, b.id)
        from booking b
        cross join lateral (
          select coalesce(json_agg(h.place_id), '[]') as places from booking_place h where h.club_id = b.club_id and h.booking_id = b.id) h
        where ${ofStation('b')} and b.active and ${during('b')} and b.id <> all(${exceptBookingIds}::uuid[])), '[]') as bookings,
      coalesce((
        select json_agg(json_build_object(${span('c')})) from closure c where ${ofStation('c')} and ${during('c')}), '[]') as closures,
      coalesce((
        select json_agg(json_build_object('duty', w.duty, ${span('w')}))
        from duty_window w where ${ofStation('w')} and ${during('w')}), '[]') as "dutyWindows",
      ${roomHours(from, until)} as room
    from station s where s.club_id = ${club} and s.retired_at is null order by s.id`;
}

/** What a run wants of the stations it goes through. */
export interface StationNeeds {
  /** The heaviest pail, and the heaviest crate. */
  pailG: number;
  crateG: number;
  bench: { minC: number; maxC: number };
  cool: { minC: number; maxC: number };
}

/** The station as the planner sees it: with the duties that it can do for this run, and no other. */
export function toRoomStation(row: StationRow, needs: StationNeeds): RoomStation {
  return {
    stationId: row.stationId,
    placeIds: row.places.map(({ id }) => id),
    changeoverMinutes: row.changeoverMinutes,
    bookings: row.bookings,
    closures: row.closures,
    dutyWindows: row.dutyWindows,
    open: null,
    duties: row.duties.filter((served) => serves(row, served, needs)).map(({ duty }) => duty),
  };
}

function serves(
  { placeLoadG }: StationRow,
  served: StationRow['duties'][number],
  needs: StationNeeds,
): boolean {
  switch (served.duty) {
    case 'warm':
      return needs.pailG <= placeLoadG;
    case 'bench':
      return bandsMeet(served, needs.bench);
    case 'cool':
      return needs.crateG <= placeLoadG && bandsMeet(served, needs.cool);
  }
}

function bandsMeet(
  one: { minC: number; maxC: number },
  other: { minC: number; maxC: number },
): boolean {
  return one.minC <= other.maxC && other.minC <= one.maxC;
}
