import { predictiveOf } from './predictive';
import type { SettingBelief } from './setting-belief';

export type SettingForecast = {
  kind: 'forecast';
  /** By these days after seeding the batch has set, each with the certainty beside it; null: see settingForecast. */
  setBy: { certainty: number; days: number | null }[];
  /** Sets within these days with that certainty, and as likely before as after. */
  within: { certainty: number; earliestDays: number | null; latestDays: number | null }[];
  /** How likely it was to be still not set when it was last seen so; 1 for a planned batch. */
  chanceOfNotSetSoFar: number;
};

const CERTAINTIES = [0.5, 0.8, 0.95];

/**
 * In how many days after seeding a batch has set: planned, or known not to have set by
 * `notSetByDays` (the last look that found it so; later days without a look tell nothing).
 *
 * The answer is the predictive distribution: the law's, averaged over what is believed of its place
 * and scale, so it is wider where fewer batches are behind it. For a running batch each place and
 * scale counts by how well it foretold that the batch would not have set.
 *
 * The average is a sum over a grid of the normal belief (trapezoids at 3/4 of a standard deviation
 * out to 4.5, exact to five digits of the certainty), so there is nothing of chance in it. Source:
 * J. F. Lawless and M. Fredette, "Frequentist prediction intervals and predictive distributions",
 * Biometrika 92 (2005); normal belief by the large-sample law of maximum likelihood.
 *
 * A day more than ten years away is null: so little is known that no day can be named. Works for
 * notSetByDays from 0 to ten years. Throws RangeError otherwise.
 */
export function settingForecast(belief: SettingBelief, notSetByDays = 0): SettingForecast {
  const predictive = predictiveOf(belief, notSetByDays);
  return {
    kind: 'forecast',
    setBy: CERTAINTIES.map((certainty) => ({ certainty, days: predictive.quantile(certainty) })),
    within: CERTAINTIES.map((certainty) => ({
      certainty,
      earliestDays: predictive.quantile((1 - certainty) / 2),
      latestDays: predictive.quantile((1 + certainty) / 2),
    })),
    chanceOfNotSetSoFar: Math.exp(predictive.logNotSetSoFar),
  };
}

/**
 * Until which day after seeding the cool room is needed, to be `certainty` certain that the batch has
 * set by then; null when no day can be named (see settingForecast). Works for certainties above 0 and
 * below 1. Throws RangeError otherwise.
 */
export function coolRoomDays(
  belief: SettingBelief,
  certainty: number,
  notSetByDays = 0,
): number | null {
  if (!(certainty > 0 && certainty < 1)) {
    throw new RangeError(`certainty must be above 0 and below 1, got ${certainty}`);
  }
  return predictiveOf(belief, notSetByDays).quantile(certainty);
}

/**
 * The chance that a batch has set by `byDays` after seeding, when it was not set by `notSetByDays`.
 * Works for byDays from notSetByDays up. Throws RangeError otherwise.
 */
export function chanceSetBy(belief: SettingBelief, byDays: number, notSetByDays = 0): number {
  if (!(Number.isFinite(byDays) && byDays >= notSetByDays)) {
    throw new RangeError(`byDays must be a number from ${notSetByDays} up, got ${byDays}`);
  }
  const { logNotSet, logNotSetSoFar } = predictiveOf(belief, notSetByDays);
  return -Math.expm1(logNotSet(byDays) - logNotSetSoFar);
}
