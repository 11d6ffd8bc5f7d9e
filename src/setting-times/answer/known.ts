/** A hundred years. */
const MOST_DAYS = 36_525;
const MOST_TIMES = 1_000_000;

/** Days that can be told; null beyond a hundred years. */
export function knownDays(days: number): number | null {
  return Number.isFinite(days) && days <= MOST_DAYS ? days : null;
}

/** A ratio that can be told; null beyond a million. */
export function known(ratio: number): number | null {
  return Number.isFinite(ratio) && ratio <= MOST_TIMES ? ratio : null;
}
