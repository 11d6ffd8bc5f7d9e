import { choosePlaces } from '../core/planning/choose-places';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { diariesOf, freeElsewhere } from '../stations/free-elsewhere';
import type { StationDiary } from '../stations/station-diary';
import type { BookingRow } from './bookings.responses';
import { wishedNow, wishOf } from './wished-booking';

/** Honey that stands on places of a station after the end of its booking. */
export interface Uncleared {
  bookingId: string;
  memberName: string;
  endedAt: Date;
  placeIds: string[];
  places: number[];
}

/** What stands in a station past its time: came in, booking over, not cleared. */
export async function unclearedAt(
  tx: Transaction,
  clubId: string,
  stationId: string,
  now: Date,
): Promise<Uncleared[]> {
  return tx.$queryRaw<Uncleared[]>(Prisma.sql`
    select b.id as "bookingId", p.name as "memberName", b.ends_at as "endedAt",
      array_agg(l.id::text order by l.number) as "placeIds", array_agg(l.number order by l.number) as places
    from booking b
    join member m on m.club_id = b.club_id and m.id = b.member_id
    join person p on p.id = m.person_id
    join booking_place h on h.club_id = b.club_id and h.booking_id = b.id
    join place l on l.club_id = h.club_id and l.id = h.place_id
    where b.club_id = ${clubId}::uuid and b.station_id = ${stationId}::uuid
      and b.active and b.ends_at <= ${now} and b.arrived_at is not null and b.cleared_at is null
    group by b.id, p.name, b.ends_at order by b.ends_at, b.id`);
}

/** Places of the station for the whole booking on which nothing is said to stand, its own first; null when there are too few. */
export function clearPlaces(
  { times, placeNumbers }: StationDiary,
  booking: BookingRow,
  uncleared: readonly Uncleared[],
): readonly string[] | null {
  const occupied = new Set(uncleared.flatMap(({ placeIds }) => placeIds));
  const clear = { ...times, placeIds: times.placeIds.filter((id) => !occupied.has(id)) };
  const own = [...placeNumbers].filter(([, number]) => booking.places.includes(number));
  return choosePlaces(
    clear,
    wishOf(wishedNow(booking)),
    booking.startsAt.getTime(),
    own.map(([id]) => id),
  );
}

/** The refusal of an arrival whose places are not clear: on whom it waits, and where else the honey can go. */
export async function placesNotCleared(
  tx: Transaction,
  { clubId }: ClubCaller,
  booking: BookingRow,
  inTheWay: readonly Uncleared[],
  hasPlacesHere: boolean,
  now: Date,
): Promise<Refusal> {
  const from = Math.ceil(Math.max(now.getTime(), booking.startsAt.getTime()) / 60_000) * 60_000;
  const until = booking.endsAt.getTime();
  const minutes = Math.floor((until - from) / 60_000);
  const diaries =
    minutes < 1
      ? []
      : await diariesOf((query) => tx.$queryRaw(query), clubId, booking.duty, now, booking.endsAt);
  const elsewhere = freeElsewhere(
    diaries.filter(({ stationId }) => stationId !== booking.stationId),
    { ...wishOf(wishedNow(booking)), minutes },
    { from, until },
  );
  const whose = inTheWay.map(({ memberName, places }) => `${memberName} (${places.join(', ')})`);
  const advice = hasPlacesHere
    ? 'Send otherPlaces: true for other places of the station.'
    : elsewhere.length > 0
      ? 'Move the booking to another station.'
      : 'No other places are free.';
  return new Refusal(
    'places-not-cleared',
    `On its places still stands honey of ${whose.join(', ')}. ${advice} If they are clear all the same, send placesAreClear: true.`,
    {
      offers: {
        uncleared: inTheWay.map(({ bookingId, memberName, endedAt, places }) => ({
          bookingId,
          memberName,
          endedAt: endedAt.toISOString(),
          places,
        })),
        hasOtherPlacesHere: hasPlacesHere,
        elsewhere,
      },
    },
  );
}
