import {
  firstMinuteFrom,
  intersect,
  lastMinuteUntil,
  subtract,
  toInstant,
  unite,
  type MinuteSpan,
} from './minute-spans';
import type { IndexedStation, PailCount } from './station-diary-index';

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
  const until = window.last + minutes(mostOthers);
  const counts = indexed.pailsDuring(toInstant(window.first), toInstant(until));
  const greatest = Math.min(mostOthers, Math.max(0, ...counts.map(({ pails }) => pails)));
  const levels: WarmingLevel[] = [];
  let undecided: MinuteSpan[] = [window];
  for (let otherPails = 0; otherPails <= greatest && undecided.length > 0; otherPails++) {
    const length = minutes(otherPails);
    const isLast = otherPails === greatest;
    // Of numbers that take equally long only the largest can say anything new.
    if (!isLast && minutes(otherPails + 1) === length) continue;
    const crowded = isLast ? [] : startsThatMeet(counts, otherPails, length);
    const starts = subtract(undecided, crowded);
    if (starts.length > 0) levels.push({ otherPails, minutes: length, starts });
    undecided = intersect(undecided, crowded);
  }
  return levels;
}

/** The starts of so long a warming that meet more pails. */
function startsThatMeet(
  counts: readonly PailCount[],
  otherPails: number,
  length: number,
): MinuteSpan[] {
  const met = counts
    .filter(({ pails }) => pails > otherPails)
    .map(({ startsAt, endsAt }) => ({
      first: lastMinuteUntil(startsAt) - length + 1,
      last: firstMinuteFrom(endsAt) - 1,
    }));
  return unite(met, []);
}
