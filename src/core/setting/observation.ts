/**
 * What is known of the time, in days after the seed was stirred in, at which one batch set.
 *
 * | kind | lower | upper | known |
 * | --- | --- | --- | --- |
 * | exact | t | t | it set at t |
 * | interval | L > 0 | R > L | it set in (L, R] |
 * | left-censored | 0 | R > 0 | it set in (0, R] |
 * | right-censored | L | null | it had not set at L |
 *
 * `weight` is a whole number of batches of which the same is known; absent, it is 1.
 */
export type SettingObservation = { lower: number; upper: number | null; weight?: number };

export type ObservationKind = 'exact' | 'interval' | 'left-censored' | 'right-censored';

/**
 * Which of the four kinds of knowledge an observation holds (see SettingObservation).
 * Does not check the observation; `checkObservation` does.
 */
export function observationKind(observation: SettingObservation): ObservationKind {
  const { lower, upper } = observation;
  if (upper === null) return 'right-censored';
  if (upper === lower) return 'exact';
  return lower === 0 ? 'left-censored' : 'interval';
}

/**
 * Refuses an observation that cannot be true.
 * Works for lower from 0 days, upper above 0 and not below lower (or null), weight a whole number
 * from 1. Throws RangeError for anything else.
 */
export function checkObservation(observation: SettingObservation): void {
  const { lower, upper, weight } = observation;
  if (!Number.isFinite(lower) || lower < 0) {
    throw new RangeError(`lower must be a number of days from 0 up, got ${lower}`);
  }
  if (upper !== null && !(Number.isFinite(upper) && upper > 0 && upper >= lower)) {
    throw new RangeError(
      `upper must be null or a number of days above 0 and not below lower, got ${upper}`,
    );
  }
  if (weight !== undefined && !(Number.isSafeInteger(weight) && weight >= 1)) {
    throw new RangeError(`weight must be a whole number from 1 up, got ${weight}`);
  }
}
