import type { Span, StationTimes, Wish } from '../../../src/core/planning/station-times';
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
  if (station.open !== null && !canComeIn(station.open, wish, startsAt, endsAt)) return null;

  for (let t = startsAt - changeoverMs; t < endsAt + changeoverMs; t += STEP_MS) {
    const during = t >= startsAt && t < endsAt;
    const open = station.closures.every(({ startsAt: s, endsAt: e }) => t < s || t >= e);
    if (during && !open) return null;
    const isKept = station.dutyWindows.some(
      (window) => window.duty !== wish.duty && t >= window.startsAt && t < window.endsAt,
    );
    if (during && isKept) return null;
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

/** Open for the first minute, and when it ends or just before; at the bench, all the time between. */
function canComeIn(spans: readonly Span[], wish: Wish, startsAt: number, endsAt: number): boolean {
  const isOpen = (t: number) => spans.some((span) => t >= span.startsAt && t < span.endsAt);
  const steps = (from: number, until: number) =>
    Array.from({ length: (until - from) / STEP_MS }, (_, index) => from + index * STEP_MS);
  if (wish.duty === 'bench') return steps(startsAt, endsAt).every(isOpen);
  const canLoad = steps(startsAt, startsAt + MINUTE_MS).every(isOpen);
  return canLoad && (isOpen(endsAt) || isOpen(endsAt - STEP_MS));
}
