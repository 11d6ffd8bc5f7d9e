import type { StationTimes, Wish } from '../../../src/core/planning/station-times';
import { MINUTE_MS } from './small-stations';

/** Half a minute: finer than the times of the small stations, so that no edge can hide between steps. */
export const STEP_MS = MINUTE_MS / 2;

/**
 * The independent answer: which places are free for the whole wish, found by asking of every half
 * minute of it what goes on in the station. Null when no place could be had, whatever is free.
 */
export function freeOnGrid(station: StationTimes, wish: Wish, startsAt: number): string[] | null {
  const endsAt = startsAt + wish.minutes * MINUTE_MS;
  const changeoverMs = station.changeoverMinutes * MINUTE_MS;
  const free = new Set(station.placeIds);

  for (let t = startsAt - changeoverMs; t < endsAt + changeoverMs; t += STEP_MS) {
    const during = t >= startsAt && t < endsAt;
    const open = station.closures.every(({ startsAt: s, endsAt: e }) => t < s || t >= e);
    if (during && !open) return null;
    for (const booking of station.bookings) {
      if (t < booking.startsAt || t >= booking.endsAt) continue;
      if (booking.duty !== wish.duty) return null;
      if (!during) continue;
      if (Math.max(booking.minC, wish.minC) > Math.min(booking.maxC, wish.maxC)) return null;
      for (const placeId of booking.placeIds) free.delete(placeId);
    }
  }
  return [...free];
}
