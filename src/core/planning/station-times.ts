export type Duty = 'warm' | 'cool' | 'bench';

/** A span of time, half-open [startsAt, endsAt): instants in whole epoch milliseconds. */
export type Span = { readonly startsAt: number; readonly endsAt: number };

export type StationBooking = Span & {
  readonly placeIds: readonly string[];
  readonly duty: Duty;
  /** The temperature band, both ends included, in degrees Celsius. */
  readonly minC: number;
  readonly maxC: number;
};

/** A time in which a station serves one duty alone. */
export type DutyWindow = Span & { readonly duty: Duty };

/**
 * What one station has to do. Bookings, closures and duty windows come back as the very objects that were
 * given, so the caller may put more on them. A booking about to be moved must be left out.
 */
export type StationTimes<
  Booking extends StationBooking = StationBooking,
  Closure extends Span = Span,
  Window extends DutyWindow = DutyWindow,
> = {
  /** In the order of the places. */
  readonly placeIds: readonly string[];
  /** Between two duties, in whole minutes. */
  readonly changeoverMinutes: number;
  readonly bookings: readonly Booking[];
  readonly closures: readonly Closure[];
  readonly dutyWindows: readonly Window[];
  /**
   * When people may come in, in order, for all the time that a wish may take: it is closed outside of these.
   * Null: open at any time.
   */
  readonly open: readonly Span[] | null;
};

/** So many places for so many whole minutes, for a duty, at one temperature within the band. */
export type Wish = {
  readonly duty: Duty;
  readonly minC: number;
  readonly maxC: number;
  readonly places: number;
  readonly minutes: number;
};

const MS_PER_MINUTE = 60_000;

/** A duration of whole minutes in milliseconds. */
export function minutesToMs(minutes: number): number {
  return minutes * MS_PER_MINUTE;
}

/** Do two half-open spans share an instant? One may start the moment the other ends. */
export function spansOverlap(a: Span, b: Span): boolean {
  return a.startsAt < b.endsAt && b.startsAt < a.endsAt;
}

/**
 * How a booking would stand in the way of a wish for overlapping times: as another duty, whose times are
 * then padded by the changeover; by a band that shares no temperature with the wish's band; or only by
 * the places it holds.
 */
export function obstacleOf(
  booking: StationBooking,
  wish: Wish,
): 'other-duty' | 'temperature' | 'places' {
  if (booking.duty !== wish.duty) return 'other-duty';
  return booking.minC <= wish.maxC && wish.minC <= booking.maxC ? 'places' : 'temperature';
}

/** Is this window kept for another duty than the wish's? */
export function keepsOut(window: DutyWindow, wish: Wish): boolean {
  return window.duty !== wish.duty;
}

/**
 * The open intervals of starts at which nobody could come in to load or to clear, for a room that is open
 * at these times alone. Loading takes a minute: a wish starts at least so long before the room closes. It
 * may end at the very moment of opening or closing. Somebody stands at the bench all the while: the room
 * is open from the start of such a wish to its end.
 */
export function startsWhileClosed(open: readonly Span[], wish: Wish): Span[] {
  const lengthMs = minutesToMs(wish.minutes);
  const closedTimes = [-Infinity, ...open.map(({ endsAt }) => endsAt)].map((startsAt, index) => ({
    startsAt,
    endsAt: open[index]?.startsAt ?? Infinity,
  }));
  return closedTimes.flatMap(({ startsAt, endsAt }) => {
    const clearing = { startsAt: startsAt - lengthMs, endsAt: endsAt - lengthMs };
    if (wish.duty === 'bench') return [{ startsAt: clearing.startsAt, endsAt }];
    return [{ startsAt: startsAt - MS_PER_MINUTE, endsAt }, clearing];
  });
}

/**
 * Throws RangeError unless the wish asks for at least 1 place and 1 minute, both whole, in a band from
 * minC up to maxC, and every span of the station has its end after its start.
 */
export function requireSensible(station: StationTimes, wish: Wish): void {
  requireWholeFrom(1, 'places', wish.places);
  requireWholeFrom(1, 'minutes', wish.minutes);
  requireWholeFrom(0, 'changeoverMinutes', station.changeoverMinutes);
  requireBand('wish', wish);
  for (const booking of station.bookings) {
    requireBand('booking', booking);
    requireSpan('booking', booking);
  }
  for (const closure of station.closures) requireSpan('closure', closure);
  for (const window of station.dutyWindows) requireSpan('duty window', window);
  for (const span of station.open ?? []) requireSpan('open time', span);
}

/** Throws RangeError unless the value is an instant in whole epoch milliseconds. */
export function requireInstant(name: string, instant: number): void {
  if (!Number.isSafeInteger(instant)) {
    throw new RangeError(`${name} must be an instant in whole epoch milliseconds, got ${instant}`);
  }
}

function requireWholeFrom(least: number, name: string, value: number): void {
  if (!Number.isSafeInteger(value) || value < least) {
    throw new RangeError(`${name} must be a whole number of at least ${least}, got ${value}`);
  }
}

function requireBand(name: string, band: { minC: number; maxC: number }): void {
  if (!Number.isFinite(band.minC) || !Number.isFinite(band.maxC) || band.minC > band.maxC) {
    throw new RangeError(
      `the ${name}'s minC must be at most its maxC, got ${band.minC} to ${band.maxC}`,
    );
  }
}

function requireSpan(name: string, span: Span): void {
  requireInstant(`the ${name}'s startsAt`, span.startsAt);
  requireInstant(`the ${name}'s endsAt`, span.endsAt);
  if (span.startsAt >= span.endsAt) {
    throw new RangeError(
      `the ${name}'s endsAt must be after its startsAt, got ${span.startsAt} to ${span.endsAt}`,
    );
  }
}
