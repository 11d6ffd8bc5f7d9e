import type { SettingObservation } from './observation';

export type SettingState = 'liquid' | 'thickening' | 'set';

/** Somebody looked at a batch: the moment in epoch milliseconds, and what they saw. */
export type SettingCheck = { at: number; state: SettingState };

const MILLISECONDS_PER_DAY = 86_400_000;

/**
 * What the looks at one batch tell about its setting time, in days after `seededAt`.
 *
 * The batch set after the last look that came before its first `set` look (0 when there was none)
 * and no later than that first `set` look (null when it has not been seen set). `thickening` is not
 * yet set. The first `set` look wins: honey does not become liquid again in the cool store, so a
 * later look that says otherwise is taken for a slip and left out, as is every look after it.
 *
 * Times are epoch milliseconds; checks may come in any order. Null when nothing is known: no look,
 * or none but at the moment of seeding.
 * Throws RangeError for a time that is not finite, for a look before seeding, and for `set` at the
 * moment of seeding.
 */
export function checksToObservation(
  checks: readonly SettingCheck[],
  seededAt: number,
): SettingObservation | null {
  if (!Number.isFinite(seededAt)) {
    throw new RangeError(`seededAt must be a time in epoch milliseconds, got ${seededAt}`);
  }
  let firstSetAt = Infinity;
  for (const check of checks) {
    if (!Number.isFinite(check.at) || check.at < seededAt) {
      throw new RangeError(
        `at must be a time in epoch milliseconds, not before the seed was stirred in (${seededAt}), got ${check.at}`,
      );
    }
    if (check.state === 'set') firstSetAt = Math.min(firstSetAt, check.at);
  }
  if (firstSetAt === seededAt) {
    throw new RangeError(
      `at must be after the seed was stirred in (${seededAt}) when the batch was seen set`,
    );
  }

  let lastNotSetAt = seededAt;
  for (const check of checks) {
    if (check.at < firstSetAt) lastNotSetAt = Math.max(lastNotSetAt, check.at);
  }

  if (firstSetAt === Infinity && lastNotSetAt === seededAt) return null;
  return {
    lower: (lastNotSetAt - seededAt) / MILLISECONDS_PER_DAY,
    upper: firstSetAt === Infinity ? null : (firstSetAt - seededAt) / MILLISECONDS_PER_DAY,
  };
}
