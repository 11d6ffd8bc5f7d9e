import type { Span } from '../station-times';
import { countWhile } from './minute-spans';
import type { RoomStation } from './run';

/** So many pails are warmed in the station all the time of the span. */
export type PailCount = Span & { readonly pails: number };

/** A station whose diary is in order, so that a part of it is found without reading all of it. */
export type IndexedStation = {
  readonly station: RoomStation;
  /** With the bookings, closures and duty windows that share an instant with [from, until). */
  readonly during: (from: number, until: number) => RoomStation;
  /** The pails that are warmed then, from one change of their number to the next. */
  readonly pailsDuring: (from: number, until: number) => PailCount[];
};

/** Puts the diary in order once: n log n. A part of it is then found in log n and the bookings it has. */
export function indexStation(station: RoomStation): IndexedStation {
  const bookings = partsOf(station.bookings);
  const closures = partsOf(station.closures);
  const dutyWindows = partsOf(station.dutyWindows);
  return {
    station,
    pailsDuring: partsOf(pailCounts(station)),
    during: (from, until) => ({
      ...station,
      bookings: bookings(from, until),
      closures: closures(from, until),
      dutyWindows: dutyWindows(from, until),
    }),
  };
}

/** Finds the spans that share an instant with [from, until). */
function partsOf<T extends Span>(spans: readonly T[]): (from: number, until: number) => T[] {
  const sorted = spans.toSorted((a, b) => a.startsAt - b.startsAt);
  // A span may outlast later ones; the latest end so far never falls, so it can be searched by halves.
  let latest = -Infinity;
  const latestEnds = sorted.map(({ endsAt }) => (latest = Math.max(latest, endsAt)));
  return (from, until) => {
    const begin = countWhile(latestEnds, (endsAt) => endsAt <= from);
    const end = countWhile(sorted, ({ startsAt }) => startsAt < until);
    return sorted.slice(begin, end).filter(({ endsAt }) => endsAt > from);
  };
}

function pailCounts({ bookings }: RoomStation): PailCount[] {
  const changes: { at: number; change: number }[] = [];
  for (const { duty, startsAt, endsAt, placeIds } of bookings) {
    if (duty !== 'warm') continue;
    changes.push(
      { at: startsAt, change: placeIds.length },
      { at: endsAt, change: -placeIds.length },
    );
  }
  changes.sort((a, b) => a.at - b.at);
  const counts: PailCount[] = [];
  let pails = 0;
  let startsAt = -Infinity;
  for (const { at, change } of changes) {
    if (at > startsAt && pails > 0) counts.push({ startsAt, endsAt: at, pails });
    pails += change;
    startsAt = at;
  }
  return counts;
}
