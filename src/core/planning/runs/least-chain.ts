import type { MinuteSpan } from './minute-spans';

/** Whole minutes from one moment of a run to the next: at least and at most. */
export type Gap = { readonly least: number; readonly most: number };

/** What ties the three moments of a run together: cool enough, to the bench, on the shelf. */
export type Gaps = {
  readonly readyToBench: Gap;
  readonly benchToShelf: Gap;
  /** Only when the cool room is the very cabinet that warmed: it must have changed over. */
  readonly readyToShelfLeast: number;
};

export type Moments = { readonly ready: number; readonly bench: number; readonly shelf: number };

/** Can any three moments satisfy these gaps? */
export function areGapsPossible({ readyToBench, benchToShelf, readyToShelfLeast }: Gaps): boolean {
  return (
    readyToBench.least <= readyToBench.most &&
    benchToShelf.least <= benchToShelf.most &&
    readyToShelfLeast <= readyToBench.most + benchToShelf.most
  );
}

/**
 * The least moments within one span each that satisfy possible gaps; null when there are none.
 *
 * Every condition says that one moment is not before another plus a constant. Such conditions have a least solution, in
 * which each moment by itself is as early as it can be in any: start at the least values and raise whatever is too
 * early. With possible gaps no circle of conditions raises a moment above itself, so a few rounds settle it.
 */
export function leastMoments(
  readySpan: MinuteSpan,
  benchSpan: MinuteSpan,
  shelfSpan: MinuteSpan,
  { readyToBench, benchToShelf, readyToShelfLeast }: Gaps,
): Moments | null {
  let ready = readySpan.first;
  let bench = benchSpan.first;
  let shelf = shelfSpan.first;
  for (;;) {
    const nextShelf = Math.max(shelf, bench + benchToShelf.least, ready + readyToShelfLeast);
    const nextBench = Math.max(bench, ready + readyToBench.least, nextShelf - benchToShelf.most);
    const nextReady = Math.max(ready, nextBench - readyToBench.most);
    if (nextReady > readySpan.last || nextBench > benchSpan.last || nextShelf > shelfSpan.last) {
      return null;
    }
    if (nextReady === ready && nextBench === bench && nextShelf === shelf) {
      return { ready, bench, shelf };
    }
    ready = nextReady;
    bench = nextBench;
    shelf = nextShelf;
  }
}

/**
 * The moments with the earliest bench; of those the earliest shelf; of those the latest ready moment, so that the honey
 * stands as short as it can. Null when there are none. Spans of each moment in order and apart.
 *
 * Exact: a solution lies in some three spans, and the least of those three has its earliest bench. The bench spans come
 * in order, so the first that has any holds the earliest.
 */
export function soonestMoments(
  readySpans: readonly MinuteSpan[],
  benchSpans: readonly MinuteSpan[],
  shelfSpans: readonly MinuteSpan[],
  gaps: Gaps,
): Moments | null {
  const { readyToBench, benchToShelf, readyToShelfLeast } = gaps;
  for (const bench of benchSpans) {
    let best: Moments | null = null;
    for (const ready of readySpans) {
      if (ready.last + readyToBench.most < bench.first) continue;
      if (ready.first + readyToBench.least > bench.last) break;
      for (const shelf of shelfSpans) {
        if (shelf.last < bench.first + benchToShelf.least) continue;
        if (shelf.first > bench.last + benchToShelf.most) break;
        const found = leastMoments(ready, bench, shelf, gaps);
        if (found && (!best || isSooner(found, best))) best = found;
      }
    }
    if (best === null) continue;

    const latestReady = Math.min(best.bench - readyToBench.least, best.shelf - readyToShelfLeast);
    let ready = best.ready;
    for (const { first, last } of readySpans) {
      if (first <= latestReady) ready = Math.max(ready, Math.min(last, latestReady));
    }
    return { ...best, ready };
  }
  return null;
}

function isSooner(a: Moments, b: Moments): boolean {
  return a.bench < b.bench || (a.bench === b.bench && a.shelf < b.shelf);
}
