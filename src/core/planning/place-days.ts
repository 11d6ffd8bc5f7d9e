import { minutesToMs, requireInstant, type Span } from './station-times';

const dayMs = minutesToMs(1440);

/**
 * How much of a station these bookings hold from `now` on, in place-days: the places of each times the days of
 * it that are still ahead. Of a running booking the rest counts, one that is over counts nothing.
 *
 * Instants in whole epoch milliseconds; RangeError for a `now` that is none.
 */
export function placeDaysAhead(
  bookings: readonly (Span & { readonly places: number })[],
  now: number,
): number {
  requireInstant('now', now);
  // Whole numbers until the last step: no sum of fractions drifts.
  const placeMs = bookings.reduce((sum, { startsAt, endsAt, places }) => {
    return sum + places * Math.max(0, endsAt - Math.max(startsAt, now));
  }, 0);
  return placeMs / dayMs;
}
