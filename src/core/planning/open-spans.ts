import { Temporal } from '@js-temporal/polyfill';
import { minutesToMs, requireInstant, type Span } from './station-times';

/** Open from opensMinute until closesMinute of a local day, 0 to 1440; weekday as in ISO 8601: 1 is Monday, 7 is Sunday. */
export type OpeningHours = {
  readonly weekday: number;
  readonly opensMinute: number;
  readonly closesMinute: number;
};

/** When people may come in. */
export type RoomHours = {
  /** IANA name, such as Europe/Vienna. */
  readonly timeZone: string;
  /** Of the week, several a day if need be. None at all: open day and night. */
  readonly hours: readonly OpeningHours[];
  /** Local days without any opening, YYYY-MM-DD. */
  readonly closedDays: readonly string[];
};

const dayMinutes = 1440;
const dayMs = minutesToMs(dayMinutes);

/**
 * The times between two instants at which the room is open: in order, apart from each other, cut off at both
 * instants; hours that touch, such as until 24:00 and from 0:00, are one span. A room without hours or closed
 * days is one span.
 *
 * Opening hours are what the clock on the wall shows. Where it jumps ahead, an opening or closing time that it
 * leaves out falls on the jump. Where it goes back, a time comes twice: the room opens at the first and closes
 * at the last moment at which the clock shows the hours, and stays open in between. A local day that the time
 * zone leaves out altogether has no hours.
 *
 * Instants in whole epoch milliseconds, `from` at most `until`. Throws RangeError for others, for hours that
 * are none, for a day that is not of the calendar and for a time zone that is not known.
 */
export function openSpans(room: RoomHours, from: number, until: number): Span[] {
  requireInstant('from', from);
  requireInstant('until', until);
  if (from > until) throw new RangeError(`from must be at most until, got ${from} to ${until}`);
  room.hours.forEach(requireHours);
  const closedDays = new Set(room.closedDays.map(dayNumberOf));

  // A local day is at most a day and a time zone's offset away from the same day in UTC.
  const stretches = stretchesOf(room.timeZone, from - 3 * dayMs, until + 3 * dayMs);
  const firstDay = Math.floor(from / dayMs) - 2;
  const lastDay = Math.floor(until / dayMs) + 2;
  const found: Span[] = [];
  for (let day = firstDay; day <= lastDay; day++) {
    if (closedDays.has(day)) continue;
    for (const hours of hoursOf(room, day)) {
      const span = whenShown(day * dayMs, hours, stretches);
      const startsAt = Math.max(span.startsAt, from);
      const endsAt = Math.min(span.endsAt, until);
      if (startsAt < endsAt) found.push({ startsAt, endsAt });
    }
  }
  return merged(found);
}

/** A time in which the offset from UTC stays the same. */
type Stretch = Span & { readonly offsetMs: number };

function stretchesOf(timeZone: string, from: number, until: number): Stretch[] {
  const stretches: Stretch[] = [];
  let at = Temporal.Instant.fromEpochMilliseconds(from).toZonedDateTimeISO(timeZone);
  for (;;) {
    const next = at.getTimeZoneTransition('next');
    const endsAt = Math.min(next?.epochMilliseconds ?? until, until);
    const offsetMs = at.offsetNanoseconds / 1_000_000;
    stretches.push({ startsAt: at.epochMilliseconds, endsAt, offsetMs });
    if (next === null || endsAt === until) return stretches;
    at = next;
  }
}

/** From the first to the last moment of that local day at which the clock shows the hours; empty when it never does. */
function whenShown(
  localMidnight: number,
  { opensMinute, closesMinute }: OpeningHours,
  stretches: readonly Stretch[],
): Span {
  let startsAt = Infinity;
  let endsAt = -Infinity;
  for (const stretch of stretches) {
    const midnight = localMidnight - stretch.offsetMs;
    const opens = Math.max(midnight + minutesToMs(opensMinute), stretch.startsAt);
    const closes = Math.min(midnight + minutesToMs(closesMinute), stretch.endsAt);
    if (opens >= closes) continue;
    startsAt = Math.min(startsAt, opens);
    endsAt = Math.max(endsAt, closes);
  }
  return { startsAt, endsAt };
}

const dayAndNight = { weekday: 0, opensMinute: 0, closesMinute: dayMinutes };

function hoursOf({ hours }: RoomHours, day: number): OpeningHours[] {
  if (hours.length === 0) return [dayAndNight];
  // 1 January 1970, day 0, was a Thursday.
  const weekday = ((((day + 3) % 7) + 7) % 7) + 1;
  return hours.filter((one) => one.weekday === weekday);
}

function merged(spans: Span[]): Span[] {
  const result: Span[] = [];
  for (const span of spans.sort((a, b) => a.startsAt - b.startsAt)) {
    const last = result.at(-1);
    if (last === undefined || span.startsAt > last.endsAt) result.push(span);
    else result[result.length - 1] = { ...last, endsAt: Math.max(last.endsAt, span.endsAt) };
  }
  return result;
}

/** Days from 1 January 1970. */
function dayNumberOf(day: string): number {
  const midnight = Temporal.PlainDate.from(day, { overflow: 'reject' }).toZonedDateTime('UTC');
  return midnight.epochMilliseconds / dayMs;
}

function requireHours({ weekday, opensMinute, closesMinute }: OpeningHours): void {
  const isSensible =
    [weekday, opensMinute, closesMinute].every(Number.isSafeInteger) &&
    weekday >= 1 &&
    weekday <= 7 &&
    opensMinute >= 0 &&
    opensMinute < closesMinute &&
    closesMinute <= dayMinutes;
  if (!isSensible) {
    throw new RangeError(
      `hours must open before they close, within a day of the week, got ${opensMinute} to ${closesMinute} of day ${weekday}`,
    );
  }
}
