import { choosePlaces } from './choose-places';
import { nextFreeTimes } from './next-free-times';
import { minutesToMs, type Span, type StationBooking, type StationTimes } from './station-times';
import { wholeMinuteStarts } from './whole-minute-starts';

/** Where a displaced booking can go; null when nowhere in the time searched. */
export type Move<Booking extends StationBooking> = {
  readonly booking: Booking;
  readonly to: (Span & { readonly placeIds: readonly string[] }) | null;
};

/**
 * Where bookings go that cannot stay at their times: each to the nearest start, no earlier than it was planned, at
 * which it fits with its own length, duty, band and number of places, in the station as it is without them; its
 * own places first. Never earlier: whoever hears of it late has missed nothing. They choose in the order of their
 * starts, equal ones as they are given, and none gets what an earlier one took.
 *
 * `station` without the displaced bookings, with what displaced them. Ends no later than `until`, starts on
 * whole minutes. Instants in whole epoch milliseconds; RangeError for a booking that does not last whole minutes,
 * or for what `requireSensible` refuses.
 */
export function moveDisplaced<Booking extends StationBooking>(
  station: StationTimes,
  displaced: readonly Booking[],
  until: number,
): Move<Booking>[] {
  let bookings = station.bookings;
  return [...displaced]
    .sort((a, b) => a.startsAt - b.startsAt)
    .map((booking) => {
      const times = { ...station, bookings };
      const lengthMs = booking.endsAt - booking.startsAt;
      const wish = {
        duty: booking.duty,
        minC: booking.minC,
        maxC: booking.maxC,
        places: booking.placeIds.length,
        minutes: lengthMs / minutesToMs(1),
      };
      // A few spans: the first may hold no whole minute.
      const search = { from: booking.startsAt, until, count: 5 };
      const [span] = wholeMinuteStarts(nextFreeTimes(times, wish, search));
      const placeIds =
        span === undefined ? null : choosePlaces(times, wish, span.firstStart, booking.placeIds);
      if (span === undefined || placeIds === null) return { booking, to: null };

      const to = { startsAt: span.firstStart, endsAt: span.firstStart + lengthMs, placeIds };
      bookings = [...bookings, { ...booking, ...to }];
      return { booking, to };
    });
}
