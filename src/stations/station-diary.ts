import { openSpans, type RoomHours } from '../core/planning/open-spans';
import type {
  DutyWindow,
  Span,
  StationBooking,
  StationTimes,
} from '../core/planning/station-times';
import type { StartSpan } from '../core/planning/next-free-times';
import { wholeMinuteStarts } from '../core/planning/whole-minute-starts';
import { Prisma } from '../platform/prisma-client/client';
import type { Duty } from '../platform/prisma-client/enums';
import { roomHours } from './room-hours';
import type { FreeTime } from './stations.responses';

const minuteMs = 60_000;

export type DiaryBooking = StationBooking & { readonly id: string };
export type DiaryClosure = Span & { readonly reason: string };
export type DiaryWindow = DutyWindow & { readonly id: string; readonly note: string };

/** What a station can do, and what stands in its diary between two times. */
export interface StationDiary {
  stationId: string;
  name: string;
  placeLoadG: number;
  /** Out of use: it has no duty and no place. */
  isRetired: boolean;
  duties: { duty: Duty; minC: number; maxC: number }[];
  /** Of the places in use. */
  placeNumbers: Map<string, number>;
  /** When people may come in. */
  room: RoomHours;
  times: StationTimes<DiaryBooking, DiaryClosure, DiaryWindow>;
}

export interface DiaryRow {
  /** Epoch milliseconds: for which wishes it was read. */
  from: number;
  until: number;
  name: string;
  placeLoadG: number;
  changeoverMinutes: number;
  isRetired: boolean;
  duties: StationDiary['duties'];
  places: { id: string; number: number }[];
  bookings: DiaryBooking[];
  closures: DiaryClosure[];
  dutyWindows: DiaryWindow[];
  room: RoomHours;
}

/**
 * The statement that reads a station's diary from one time to another, a week of changeover to either side. Bookings that are being
 * moved are left out.
 */
export function diaryQuery(
  clubId: string,
  stationId: string,
  from: Date,
  until: Date,
  exceptBookingId: string | null = null,
): Prisma.Sql {
  const span = Prisma.sql`starts_at < ${until}::timestamptz + interval '7 days' and ends_at > ${from}::timestamptz - interval '7 days'`;
  return Prisma.sql`
    select ${from.getTime()}::float8 as "from", ${until.getTime()}::float8 as until, s.name, s.place_load_g as "placeLoadG", s.changeover_minutes as "changeoverMinutes",
      s.retired_at is not null as "isRetired",
      (select json_agg(json_build_object('duty', duty, 'minC', min_deci_c / 10.0, 'maxC', max_deci_c / 10.0) order by duty)
       from station_duty d where d.club_id = s.club_id and d.station_id = s.id and d.retired_at is null) as duties,
      (select json_agg(json_build_object('id', id, 'number', number) order by number)
       from place p where p.club_id = s.club_id and p.station_id = s.id and p.retired_at is null) as places,
      (select coalesce(json_agg(json_build_object('id', b.id, 'duty', b.duty, 'minC', b.min_deci_c / 10.0, 'maxC', b.max_deci_c / 10.0,
         'startsAt', round(extract(epoch from b.starts_at) * 1000), 'endsAt', round(extract(epoch from b.ends_at) * 1000),
         'placeIds', (select json_agg(h.place_id) from booking_place h where h.club_id = b.club_id and h.booking_id = b.id))), '[]')
       from booking b where b.club_id = s.club_id and b.station_id = s.id and b.active and ${span}
         and b.id is distinct from ${exceptBookingId}::uuid) as bookings,
      (select coalesce(json_agg(json_build_object('reason', reason,
         'startsAt', round(extract(epoch from starts_at) * 1000), 'endsAt', round(extract(epoch from ends_at) * 1000))), '[]')
       from closure where club_id = s.club_id and station_id = s.id and ${span}) as closures,
      (select coalesce(json_agg(json_build_object('id', id, 'duty', duty, 'note', note,
         'startsAt', round(extract(epoch from starts_at) * 1000), 'endsAt', round(extract(epoch from ends_at) * 1000)) order by starts_at), '[]')
       from duty_window where club_id = s.club_id and station_id = s.id and ${span}) as "dutyWindows",
      ${roomHours(from, until)} as room
    from station s where s.club_id = ${clubId}::uuid and s.id = ${stationId}::uuid`;
}

export function toDiary(stationId: string, row: DiaryRow): StationDiary {
  const places = row.isRetired ? [] : row.places;
  return {
    stationId,
    name: row.name,
    placeLoadG: row.placeLoadG,
    isRetired: row.isRetired,
    duties: row.isRetired ? [] : row.duties,
    placeNumbers: new Map(places.map(({ id, number }) => [id, number])),
    room: row.room,
    times: {
      placeIds: places.map(({ id }) => id),
      changeoverMinutes: row.changeoverMinutes,
      bookings: row.bookings,
      closures: row.closures,
      dutyWindows: row.dutyWindows,
      // A minute more: a wish may end at the moment of opening.
      open: isAlwaysOpen(row.room) ? null : openSpans(row.room, row.from, row.until + minuteMs),
    },
  };
}

function isAlwaysOpen({ hours, closedDays }: RoomHours): boolean {
  return hours.length === 0 && closedDays.length === 0;
}

export function toFreeTimes(spans: readonly StartSpan[]): FreeTime[] {
  return wholeMinuteStarts(spans).map(toFreeTime);
}

export function toFreeTime(span: StartSpan): FreeTime {
  return {
    firstStart: new Date(span.firstStart).toISOString(),
    lastStart: new Date(span.lastStart).toISOString(),
    freePlaces: span.freePlaces,
  };
}
