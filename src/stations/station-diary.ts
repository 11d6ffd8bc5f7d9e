import type { Span, StationBooking, StationTimes } from '../core/planning/station-times';
import type { StartSpan } from '../core/planning/next-free-times';
import { Prisma } from '../platform/prisma-client/client';
import type { Duty } from '../platform/prisma-client/enums';
import type { FreeTime } from './stations.responses';

export type DiaryBooking = StationBooking & { readonly id: string };
export type DiaryClosure = Span & { readonly reason: string };

/** What a station can do, and what stands in its diary between two times. */
export interface StationDiary {
  stationId: string;
  name: string;
  placeLoadG: number;
  duties: { duty: Duty; minC: number; maxC: number }[];
  placeNumbers: Map<string, number>;
  times: StationTimes<DiaryBooking, DiaryClosure>;
}

export interface DiaryRow {
  name: string;
  placeLoadG: number;
  changeoverMinutes: number;
  duties: StationDiary['duties'];
  places: { id: string; number: number }[];
  bookings: DiaryBooking[];
  closures: DiaryClosure[];
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
    select s.name, s.place_load_g as "placeLoadG", s.changeover_minutes as "changeoverMinutes",
      (select json_agg(json_build_object('duty', duty, 'minC', min_deci_c / 10.0, 'maxC', max_deci_c / 10.0) order by duty)
       from station_duty d where d.club_id = s.club_id and d.station_id = s.id) as duties,
      (select json_agg(json_build_object('id', id, 'number', number) order by number)
       from place p where p.club_id = s.club_id and p.station_id = s.id) as places,
      (select coalesce(json_agg(json_build_object('id', b.id, 'duty', b.duty, 'minC', b.min_deci_c / 10.0, 'maxC', b.max_deci_c / 10.0,
         'startsAt', round(extract(epoch from b.starts_at) * 1000), 'endsAt', round(extract(epoch from b.ends_at) * 1000),
         'placeIds', (select json_agg(h.place_id) from booking_place h where h.club_id = b.club_id and h.booking_id = b.id))), '[]')
       from booking b where b.club_id = s.club_id and b.station_id = s.id and b.active and ${span}
         and b.id is distinct from ${exceptBookingId}::uuid) as bookings,
      (select coalesce(json_agg(json_build_object('reason', reason,
         'startsAt', round(extract(epoch from starts_at) * 1000), 'endsAt', round(extract(epoch from ends_at) * 1000))), '[]')
       from closure where club_id = s.club_id and station_id = s.id and ${span}) as closures
    from station s where s.club_id = ${clubId}::uuid and s.id = ${stationId}::uuid`;
}

export function toDiary(stationId: string, row: DiaryRow): StationDiary {
  return {
    stationId,
    name: row.name,
    placeLoadG: row.placeLoadG,
    duties: row.duties,
    placeNumbers: new Map(row.places.map(({ id, number }) => [id, number])),
    times: {
      placeIds: row.places.map(({ id }) => id),
      changeoverMinutes: row.changeoverMinutes,
      bookings: row.bookings,
      closures: row.closures,
    },
  };
}

export function toFreeTime(span: StartSpan): FreeTime {
  return {
    firstStart: new Date(span.firstStart).toISOString(),
    lastStart: new Date(span.lastStart).toISOString(),
    freePlaces: span.freePlaces,
  };
}
