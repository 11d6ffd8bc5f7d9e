import { longestStay } from '../core/planning/longest-stay';
import { freeElsewhere } from '../stations/free-elsewhere';
import type { StationDiary } from '../stations/station-diary';
import type { OverstayRow } from './overstay-rows';
import type { OtherPlaces } from './overstays.responses';

const minuteMs = 60_000;
const dayMs = 86_400_000;
/** For how long other places are looked for when nobody knows how long it takes. Creamed honey takes a week or more: common practice, no source. */
const usualDays = 7;
const leastDays = 1;

/** What can be done about honey that stands past its end: until when it may stay, and where else there is room for it. */
export function wayOut(
  row: OverstayRow,
  diaries: readonly StationDiary[],
  { now, until, likelyUntil }: { now: number; until: number; likelyUntil: number | null },
): { longestExtension: number | null; otherPlaces: OtherPlaces } {
  const { duty, placeIds } = row;
  const band = { minC: row.minDeciC / 10, maxC: row.maxDeciC / 10 };
  const own = diaries.find(({ stationId }) => stationId === row.stationId);
  const stay = {
    duty,
    ...band,
    placeIds,
    startsAt: row.startsAt.getTime(),
    endsAt: row.endsAt.getTime(),
  };
  const others = own && {
    ...own.times,
    bookings: own.times.bookings.filter(({ id }) => id !== row.bookingId),
  };
  const longest = others === undefined ? null : longestStay(others, stay, until);
  const wholeMinutes = longest === null ? null : Math.floor(longest / minuteMs) * minuteMs;

  const neededMs =
    likelyUntil === null ? usualDays * dayMs : Math.max(leastDays * dayMs, likelyUntil - now);
  const minutes = Math.ceil(Math.min(neededMs, until - now) / minuteMs);
  const from = Math.ceil(now / minuteMs) * minuteMs;
  const wish = { duty, ...band, places: placeIds.length, minutes };
  return {
    longestExtension: wholeMinutes !== null && wholeMinutes > now ? wholeMinutes : null,
    otherPlaces: { minutes, stations: freeElsewhere(diaries, wish, { from, until }) },
  };
}
