import {
  keepsOut,
  minutesToMs,
  obstacleOf,
  requireInstant,
  requireSensible,
  startsWhileClosed,
  type Span,
  type StationTimes,
  type Wish,
} from './station-times';

/** The wish fits at every start from firstStart to lastStart, both included, in epoch milliseconds. */
export type StartSpan = {
  readonly firstStart: number;
  readonly lastStart: number;
  /** Places free for the whole time wished, at the least favourable start of the span. */
  readonly freePlaces: number;
};

/** The search: start no earlier than `from`, end no later than `until`, at most `count` spans. */
export type Search = { readonly from: number; readonly until: number; readonly count: number };

/**
 * When does the wish fit? The spans of possible starts, in order, each as long as it can be; the first
 * `firstStart` is the earliest start of all. Fitting means what `whyNot` says. Empty when nothing fits.
 *
 * Exact, without trying starts on a grid: a span of time [a, b) that must not be overlapped forbids the
 * starts strictly between a - length and b, and a changeover widens both sides; so do times at which the room
 * is closed, each for loading and for clearing (see `startsWhileClosed`). The possible starts are
 * what open intervals leave over, a closed set; so each of its pieces includes its ends, and begins at
 * `from` or where an obstacle, padded, ends. A gap of exactly the wished length is a piece of one instant.
 * A place counts as free at a start when no booking of it forbids that start: free for the whole time,
 * not by turns. One sweep over the sorted ends of all intervals: n log n in the bookings.
 *
 * `from` and `until` in whole epoch milliseconds, `count` a whole number of at least 1; RangeError
 * otherwise, or for a wish or a station that makes no sense (see `requireSensible`).
 */
export function nextFreeTimes(station: StationTimes, wish: Wish, search: Search): StartSpan[] {
  requireSensible(station, wish);
  requireInstant('from', search.from);
  requireInstant('until', search.until);
  if (!Number.isSafeInteger(search.count) || search.count < 1) {
    throw new RangeError(`count must be a whole number of at least 1, got ${search.count}`);
  }
  const latestStart = search.until - minutesToMs(wish.minutes);
  if (latestStart < search.from) return [];

  const turns = turnsWithin(station, wish, search.from, latestStart);
  const tally = new Tally(station.placeIds);
  const found: StartSpan[] = [];
  let open = null as StartSpan | null;
  let next = 0;
  let start = search.from;
  for (;;) {
    // At the instant itself, what ends here is over and what begins here forbids only later starts.
    for (let turn = turns[next]; turn && isBefore(turn, start); turn = turns[++next]) {
      tally.take(turn);
    }
    if (tally.fits(wish)) {
      open = {
        firstStart: open?.firstStart ?? start,
        lastStart: start,
        freePlaces: Math.min(open?.freePlaces ?? Infinity, tally.freePlaces),
      };
    }
    if (start === latestStart) break;

    for (let turn = turns[next]; turn && turn.at === start; turn = turns[++next]) tally.take(turn);
    if (open && tally.fits(wish)) {
      open = { ...open, freePlaces: Math.min(open.freePlaces, tally.freePlaces) };
    } else if (open) {
      found.push(open);
      if (found.length === search.count) return found;
      open = null;
    }
    start = Math.min(turns[next]?.at ?? latestStart, latestStart);
  }
  return open ? [...found, open] : found;
}

/** Where the starts forbidden by one obstacle begin (change 1) or end (change -1), both ends excluded. */
type Turn = {
  readonly at: number;
  readonly change: 1 | -1;
  /** The places no longer free; null when the obstacle forbids the start at any place. */
  readonly placeIds: readonly string[] | null;
};

function turnsWithin(station: StationTimes, wish: Wish, from: number, latestStart: number): Turn[] {
  const lengthMs = minutesToMs(wish.minutes);
  const changeoverMs = minutesToMs(station.changeoverMinutes);
  const turns: Turn[] = [];
  const forbidStarts = (begins: number, ends: number, placeIds: readonly string[] | null): void => {
    if (ends <= from || begins >= latestStart) return;
    turns.push({ at: begins, change: 1, placeIds }, { at: ends, change: -1, placeIds });
  };
  const forbid = (span: Span, paddingMs: number, placeIds: readonly string[] | null): void =>
    forbidStarts(span.startsAt - paddingMs - lengthMs, span.endsAt + paddingMs, placeIds);

  for (const closure of station.closures) forbid(closure, 0, null);
  for (const window of station.dutyWindows) if (keepsOut(window, wish)) forbid(window, 0, null);
  if (station.open !== null) {
    for (const { startsAt, endsAt } of startsWhileClosed(station.open, wish)) {
      forbidStarts(startsAt, endsAt, null);
    }
  }
  for (const booking of station.bookings) {
    const obstacle = obstacleOf(booking, wish);
    forbid(
      booking,
      obstacle === 'other-duty' ? changeoverMs : 0,
      obstacle === 'places' ? booking.placeIds : null,
    );
  }
  return turns.sort((a, b) => a.at - b.at || a.change - b.change);
}

/** Is this turn in force at the instant `start` itself? */
function isBefore(turn: Turn, start: number): boolean {
  return turn.at < start || (turn.at === start && turn.change === -1);
}

/** Counts, along the sweep, what forbids the present start. */
class Tally {
  freePlaces: number;
  private forbidding = 0;
  private readonly holders: Map<string, number>;

  constructor(placeIds: readonly string[]) {
    this.holders = new Map(placeIds.map((placeId) => [placeId, 0]));
    this.freePlaces = this.holders.size;
  }

  take({ change, placeIds }: Turn): void {
    if (placeIds === null) this.forbidding += change;
    for (const placeId of placeIds ?? []) {
      const held = this.holders.get(placeId);
      if (held === undefined) continue;
      this.holders.set(placeId, held + change);
      if (held === 0) this.freePlaces -= 1;
      if (held + change === 0) this.freePlaces += 1;
    }
  }

  fits(wish: Wish): boolean {
    return this.forbidding === 0 && this.freePlaces >= wish.places;
  }
}
