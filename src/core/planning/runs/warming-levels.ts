import { subtract, toInstant, unite, type MinuteSpan } from './minute-spans';
import type { IndexedStation } from './station-diary-index';

/** The starts from which honey is warmed beside at most so many other pails, and for how long. */
export type WarmingLevel = {
  readonly otherPails: number;
  readonly minutes: number;
  readonly starts: readonly MinuteSpan[];
};

/**
 * How long honey must be warmed that is put in at each minute from `window.first` to `window.last`.
 *
 * The more pails share the cabinet, the longer it takes; and the longer it takes, the more pails may come to share it.
 * The length of a start is the least one that is long enough for what happens within it: that of the smallest number n
 * such that at no instant of `minutes(n)` from the start there are more than n other pails. It exists, as no more than
 * `mostOthers` count; the starts of n are those that n satisfies and no smaller number does.
 *
 * Exact: between two changes of the number of pails it is constant, so the starts that meet more than n are whole
 * intervals, open at both ends, from a length before such a time to its end.
 */
export function warmingLevels(
  indexed: IndexedStation,
  minutes: (otherPails: number) => number,
  mostOthers: number,
  window: MinuteSpan,
): WarmingLevel[] {
  const counts = pailCounts(indexed, window.first, window.last + minutes(mostOthers));
  const levels: WarmingLevel[] = [];
  let decided: MinuteSpan[] = [];
  for (let otherPails = 0; otherPails <= mostOthers; otherPails++) {
    const length = minutes(otherPails);
    const isLast = otherPails === mostOthers;
    // Of numbers that take equally long only the largest can say anything new.
    if (!isLast && minutes(otherPails + 1) === length) continue;
    const crowded = isLast
      ? []
      : counts
          .filter(({ pails }) => pails > otherPails)
          .map(({ startsAt, endsAt }) => ({
            first: Math.floor(startsAt / 60_000) - length + 1,
            last: Math.ceil(endsAt / 60_000) - 1,
          }));
    const enough = subtract([window], unite(crowded, []));
    const starts = subtract(enough, decided);
    if (starts.length > 0) levels.push({ otherPails, minutes: length, starts });
    decided = unite(decided, enough);
    if (decided[0]?.first === window.first && decided[0].last === window.last) break;
  }
  return levels;
}

/** How many pails are warmed in the cabinet, from one change to the next. */
function pailCounts(indexed: IndexedStation, firstMinute: number, lastMinute: number) {
  const { bookings } = indexed.during(toInstant(firstMinute), toInstant(lastMinute));
  const changes = bookings
    .filter(({ duty }) => duty === 'warm')
    .flatMap(({ startsAt, endsAt, placeIds }) => [
      { at: startsAt, change: placeIds.length },
      { at: endsAt, change: -placeIds.length },
    ])
    .sort((a, b) => a.at - b.at);
  let pails = 0;
  return changes.flatMap(({ at: startsAt, change }, index) => {
    pails += change;
    const endsAt = changes[index + 1]?.at ?? startsAt;
    return endsAt > startsAt ? [{ startsAt, endsAt, pails }] : [];
  });
}
