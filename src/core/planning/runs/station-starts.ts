import { nextFreeTimes } from '../next-free-times';
import { minutesToMs, obstacleOf, type Wish } from '../station-times';
import { firstMinuteFrom, lastMinuteUntil, toInstant, type MinuteSpan } from './minute-spans';
import type { SlotName } from './run';
import type { IndexedStation } from './station-diary-index';
import type { Waivers } from './waivers';

/**
 * At which minutes from `first` to `last` the wish may start in the station: what `nextFreeTimes` finds there, duty
 * windows of other duties being closed to it, without the constraints waived for this slot.
 *
 * Exact: a start in those minutes meets only bookings, closures and windows that overlap the time from `first` to the
 * end of a wish started at `last`, a changeover to either side; all others are left out unread. Lengths are whole
 * minutes, so of each span of possible starts the whole minutes are kept.
 */
export function stationStarts(
  indexed: IndexedStation,
  slot: SlotName,
  wish: Wish,
  { first, last }: MinuteSpan,
  waivers: Waivers,
): MinuteSpan[] {
  if (first > last || indexed.station.placeIds.length < wish.places) return [];
  const from = toInstant(first);
  const until = toInstant(last + wish.minutes);
  const paddingMs = minutesToMs(indexed.station.changeoverMinutes);
  const part = indexed.during(from - paddingMs, until + paddingMs);
  const windows = part.dutyWindows.filter(({ duty }) => duty !== wish.duty);
  const times = {
    placeIds: part.placeIds,
    changeoverMinutes: waivers.has(`${slot} changeover`) ? 0 : part.changeoverMinutes,
    bookings:
      waivers.size === 0
        ? part.bookings
        : part.bookings.filter((held) => !waivers.has(`${slot} ${obstacleOf(held, wish)}`)),
    closures: [
      ...(waivers.has(`${slot} closed`) ? [] : part.closures),
      ...(waivers.has(`${slot} duty-window`) ? [] : windows),
    ],
    dutyWindows: [],
    open: null,
  };
  const starts: MinuteSpan[] = [];
  for (const span of nextFreeTimes(times, wish, { from, until, count: Number.MAX_SAFE_INTEGER })) {
    const minutes = {
      first: firstMinuteFrom(span.firstStart),
      last: lastMinuteUntil(span.lastStart),
    };
    if (minutes.first <= minutes.last) starts.push(minutes);
  }
  return starts;
}
