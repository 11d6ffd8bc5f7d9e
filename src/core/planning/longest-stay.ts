import {
  keepsOut,
  minutesToMs,
  obstacleOf,
  requireInstant,
  requireSensible,
  type StationBooking,
  type StationTimes,
} from './station-times';

/**
 * Until when at the latest a booking could last where it is: on its own places, for its duty and its band; null when it cannot last
 * beyond its end by a single millisecond. `station` is what else goes on there: the booking itself is left out.
 *
 * The stay ends where the first of these begins: a closure; a window for another duty; a booking of another duty, less the changeover; a booking whose band has
 * no temperature in common; a booking of one of its places. `until` is as far ahead as the caller looks, and the answer when nothing
 * comes before it. Whether the room is open then is not asked. Instants in epoch milliseconds. Throws RangeError for what makes no sense (see `requireSensible`).
 */
export function longestStay(
  station: StationTimes,
  booking: StationBooking,
  until: number,
): number | null {
  const wish = { ...booking, places: booking.placeIds.length, minutes: 1 };
  requireSensible(station, wish);
  requireInstant('until', until);
  const changeoverMs = minutesToMs(station.changeoverMinutes);
  let latest = until;
  const stopAt = (startsAt: number, endsAt: number): void => {
    if (endsAt > booking.startsAt) latest = Math.min(latest, startsAt);
  };

  for (const closure of station.closures) stopAt(closure.startsAt, closure.endsAt);
  for (const window of station.dutyWindows) {
    if (keepsOut(window, wish)) stopAt(window.startsAt, window.endsAt);
  }
  for (const other of station.bookings) {
    switch (obstacleOf(other, wish)) {
      case 'other-duty':
        stopAt(other.startsAt - changeoverMs, other.endsAt + changeoverMs);
        break;
      case 'temperature':
        stopAt(other.startsAt, other.endsAt);
        break;
      case 'places':
        if (other.placeIds.some((placeId) => booking.placeIds.includes(placeId))) {
          stopAt(other.startsAt, other.endsAt);
        }
        break;
    }
  }
  return latest > booking.endsAt ? latest : null;
}
