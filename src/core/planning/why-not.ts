import { choosePlaces } from './choose-places';
import {
  keepsOut,
  minutesToMs,
  obstacleOf,
  requireInstant,
  requireSensible,
  spansOverlap,
  startsWhileClosed,
  type DutyWindow,
  type Span,
  type StationBooking,
  type StationTimes,
  type Wish,
} from './station-times';

/** Why a wish does not fit at a start, with all the closures, duty windows or bookings concerned. */
export type WhyNot<
  Booking extends StationBooking = StationBooking,
  Closure extends Span = Span,
  Window extends DutyWindow = DutyWindow,
> =
  | { readonly reason: 'room-closed' }
  | { readonly reason: 'closed'; readonly closures: readonly Closure[] }
  | { readonly reason: 'duty-window'; readonly dutyWindows: readonly [Window, ...Window[]] }
  | { readonly reason: 'other-duty'; readonly bookings: readonly Booking[] }
  | { readonly reason: 'temperature'; readonly bookings: readonly Booking[] }
  | {
      readonly reason: 'places';
      readonly bookings: readonly Booking[];
      /** How many places are free for the whole time wished. */
      readonly freePlaces: number;
    };

/**
 * Why the wish does not fit when it starts at `startsAt` and ends `minutes` later; null when it fits.
 * The first of these that applies: nobody could come in to load or to clear ('room-closed', see
 * `startsWhileClosed`); a closure overlaps ('closed'); a window of another duty overlaps ('duty-window'); a
 * booking of another duty overlaps, or comes nearer than the changeover before or after ('other-duty'); an overlapping booking of the same
 * duty has a band without a temperature in common with the wish's ('temperature'; touching is enough);
 * too few places are free for the whole time ('places').
 *
 * Bands of intervals agree as soon as each two of them do, so one temperature then suits all at any
 * instant (Helly's theorem on the line). Spans are half-open: what ends at `startsAt` is no hindrance.
 * Throws RangeError for a wish or a station that makes no sense (see `requireSensible`).
 */
export function whyNot<
  Booking extends StationBooking,
  Closure extends Span,
  Window extends DutyWindow,
>(
  station: StationTimes<Booking, Closure, Window>,
  wish: Wish,
  startsAt: number,
): WhyNot<Booking, Closure, Window> | null {
  requireSensible(station, wish);
  requireInstant('startsAt', startsAt);
  const span = { startsAt, endsAt: startsAt + minutesToMs(wish.minutes) };
  const changeoverMs = minutesToMs(station.changeoverMinutes);
  const padded = { startsAt: startsAt - changeoverMs, endsAt: span.endsAt + changeoverMs };

  if (station.open !== null) {
    const forbidden = startsWhileClosed(station.open, wish);
    if (forbidden.some((starts) => starts.startsAt < startsAt && startsAt < starts.endsAt)) {
      return { reason: 'room-closed' };
    }
  }

  const closures = station.closures.filter((closure) => spansOverlap(closure, span));
  if (closures.length > 0) return { reason: 'closed', closures };

  const [window, ...more] = station.dutyWindows.filter(
    (one) => keepsOut(one, wish) && spansOverlap(one, span),
  );
  if (window) return { reason: 'duty-window', dutyWindows: [window, ...more] };

  const otherDuty = station.bookings.filter(
    (booking) => obstacleOf(booking, wish) === 'other-duty' && spansOverlap(booking, padded),
  );
  if (otherDuty.length > 0) return { reason: 'other-duty', bookings: otherDuty };

  const overlapping = station.bookings.filter((booking) => spansOverlap(booking, span));
  const otherBand = overlapping.filter((booking) => obstacleOf(booking, wish) === 'temperature');
  if (otherBand.length > 0) return { reason: 'temperature', bookings: otherBand };

  const taken = new Set(overlapping.flatMap((booking) => booking.placeIds));
  const freePlaces = station.placeIds.filter((placeId) => !taken.has(placeId)).length;
  if (freePlaces >= wish.places) return null;
  const holding = overlapping.filter((booking) =>
    booking.placeIds.some((placeId) => station.placeIds.includes(placeId)),
  );
  return { reason: 'places', bookings: holding, freePlaces };
}

/** The places a wish gets at a start, or why it gets none. */
export type Answer<
  Booking extends StationBooking = StationBooking,
  Closure extends Span = Span,
  Window extends DutyWindow = DutyWindow,
> =
  | { readonly fits: true; readonly placeIds: readonly string[] }
  | { readonly fits: false; readonly whyNot: WhyNot<Booking, Closure, Window> };

/**
 * The places the wish gets when it starts at `startsAt`, chosen as `choosePlaces` does, or the reason
 * `whyNot` gives. Throws RangeError as both do.
 */
export function placesOrWhyNot<
  Booking extends StationBooking,
  Closure extends Span,
  Window extends DutyWindow,
>(
  station: StationTimes<Booking, Closure, Window>,
  wish: Wish,
  startsAt: number,
  keepFirst: readonly string[] = [],
): Answer<Booking, Closure, Window> {
  const reason = whyNot(station, wish, startsAt);
  if (reason) return { fits: false, whyNot: reason };
  return { fits: true, placeIds: choosePlaces(station, wish, startsAt, keepFirst) ?? [] };
}
