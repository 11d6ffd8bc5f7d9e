import {
  minutesToMs,
  requireInstant,
  requireSensible,
  spansOverlap,
  type StationBooking,
  type StationTimes,
  type Wish,
} from './station-times';

/**
 * Which places to give a wish that starts at `startsAt`; null when fewer are free for its whole time.
 * Looks at places alone: whether duty, temperature and closures allow the start is `whyNot`'s question.
 *
 * A free place is chosen before another
 * 1. when it is in `keepFirst` (earlier there, earlier chosen): a moved booking keeps its places;
 * 2. when the free run it would be cut out of is shorter, that is, the idle times before and after it,
 *    up to the neighbouring bookings of the place, are together smaller: long runs stay whole for others.
 *    A side without a neighbour is longer than any idle time;
 * 3. when it comes earlier in the station.
 *
 * `startsAt` in epoch milliseconds. The ids come in that order of preference. Throws RangeError for a
 * wish or a station that makes no sense (see `requireSensible`).
 */
export function choosePlaces(
  station: StationTimes,
  wish: Wish,
  startsAt: number,
  keepFirst: readonly string[] = [],
): string[] | null {
  requireSensible(station, wish);
  requireInstant('startsAt', startsAt);
  const span = { startsAt, endsAt: startsAt + minutesToMs(wish.minutes) };

  const bookingsByPlace = new Map<string, StationBooking[]>(
    station.placeIds.map((placeId) => [placeId, []]),
  );
  for (const booking of station.bookings) {
    for (const placeId of booking.placeIds) bookingsByPlace.get(placeId)?.push(booking);
  }

  const free = [...bookingsByPlace]
    .filter(([, bookings]) => !bookings.some((booking) => spansOverlap(booking, span)))
    .map(([placeId, bookings], order) => {
      const before = bookings.filter((booking) => booking.endsAt <= startsAt);
      const after = bookings.filter((booking) => booking.startsAt >= span.endsAt);
      const idleBeforeMs = startsAt - latest(before.map((booking) => booking.endsAt));
      const idleAfterMs = earliest(after.map((booking) => booking.startsAt)) - span.endsAt;
      const sides = [idleBeforeMs, idleAfterMs];
      const finiteSides = sides.filter(Number.isFinite);
      const kept = keepFirst.indexOf(placeId);
      return {
        placeId,
        order,
        kept: kept === -1 ? keepFirst.length : kept,
        openSides: sides.length - finiteSides.length,
        idleMs: finiteSides.reduce((sum, idleMs) => sum + idleMs, 0),
      };
    });
  if (free.length < wish.places) return null;

  free.sort(
    (a, b) =>
      a.kept - b.kept || a.openSides - b.openSides || a.idleMs - b.idleMs || a.order - b.order,
  );
  return free.slice(0, wish.places).map((place) => place.placeId);
}

function latest(instants: readonly number[]): number {
  return instants.reduce((found, instant) => Math.max(found, instant), -Infinity);
}

function earliest(instants: readonly number[]): number {
  return instants.reduce((found, instant) => Math.min(found, instant), Infinity);
}
