import { choosePlaces } from './choose-places';
import { minutesToMs, type StationBooking, type StationTimes } from './station-times';

/** Which places a booking gets at its own times; null when too few are free. */
export type OtherPlaces<Booking extends StationBooking> = {
  readonly booking: Booking;
  readonly placeIds: readonly string[] | null;
};

/**
 * Which places bookings get whose own ones are no more: each as many as it has, at its own times, those of its own that remain
 * first. They choose in the order of their starts, equal ones as they are given, and none gets what an earlier one took.
 *
 * `station` with the places that remain, without these bookings. RangeError for a booking that does not last whole minutes, or for
 * what `requireSensible` refuses.
 */
export function otherPlaces<Booking extends StationBooking>(
  station: StationTimes,
  displaced: readonly Booking[],
): OtherPlaces<Booking>[] {
  let bookings = station.bookings;
  return [...displaced]
    .sort((a, b) => a.startsAt - b.startsAt)
    .map((booking) => {
      const { duty, minC, maxC, startsAt, endsAt } = booking;
      const minutes = (endsAt - startsAt) / minutesToMs(1);
      const wish = { duty, minC, maxC, places: booking.placeIds.length, minutes };
      const placeIds = choosePlaces({ ...station, bookings }, wish, startsAt, booking.placeIds);
      if (placeIds !== null) bookings = [...bookings, { ...booking, placeIds }];
      return { booking, placeIds };
    });
}
