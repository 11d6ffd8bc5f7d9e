import type { RandomSource } from '../random';
import { bootstrapStatistic, percentile } from './bootstrap';
import type { SettingObservation } from './observation';
import { quantileDays, quantileInterval } from './quantile-interval';
import { fitTurnbull } from './turnbull';

type Counts = {
  /** Batches, weights counted. */
  n: number;
  /** Of these, seen to have set. */
  setCount: number;
  /** Of these, still setting when last looked at. */
  stillSettingCount: number;
};

export type SettingTimeQuantile =
  | (Counts & {
      kind: 'estimate';
      setFraction: number;
      /** The number to quote (see quantileDays); null: not reached. */
      days: number | null;
      /** All that the batches tell of it: it lies in (leftDays, rightDays]; null: no end known. */
      interval: { leftDays: number; rightDays: number | null };
      /** null: not reached. */
      confidence: { level: 0.95; lowerDays: number; upperDays: number | null };
      replicates: number;
      method: 'Turnbull maximum-likelihood estimate, bootstrap percentile limits';
    })
  | (Counts & {
      kind: 'too-few';
      reason: 'nothing observed' | 'none seen set' | 'fewer than 3 seen set';
    });

/** With fewer seen set, nearly every resample repeats one batch and the limits mean nothing. */
const FEWEST_SEEN_SET = 3;
/** With fewer, the outermost 2.5 % would rest on a single resample or two. */
const FEWEST_REPLICATES = 100;

/**
 * By how many days the share `setFraction` of batches has set (0.5: the median), with 95 % limits.
 *
 * The estimate is that of fitTurnbull and quantileInterval. The limits are the 2.5th percentile of
 * the earliest and the 97.5th of the latest that the quantile may be in each of `replicates`
 * resamples: taking the ends, and not middles, keeps in what the gaps between looks leave open.
 * `random` decides the resamples: the same source gives the same limits.
 *
 * Works for 0 < setFraction < 1 and whole replicates from 100. Throws RangeError otherwise, and for
 * an observation that cannot be true. Fewer than 3 batches seen to have set are 'too-few'.
 * Source of the limits: B. Efron and R. J. Tibshirani, "An Introduction to the Bootstrap" (1993),
 * chapter 13. The least number of batches is our own choice.
 */
export function settingTimeQuantile(
  observations: readonly SettingObservation[],
  options: { setFraction: number; replicates: number; random: RandomSource },
): SettingTimeQuantile {
  const { setFraction, replicates, random } = options;
  if (!Number.isSafeInteger(replicates) || replicates < FEWEST_REPLICATES) {
    throw new RangeError(
      `replicates must be a whole number from ${FEWEST_REPLICATES} up, got ${replicates}`,
    );
  }
  const fit = fitTurnbull(observations);
  const interval = quantileInterval(fit, setFraction);
  const counts = countSeen(observations);
  if (counts.n === 0) return { ...counts, kind: 'too-few', reason: 'nothing observed' };
  if (counts.setCount === 0) return { ...counts, kind: 'too-few', reason: 'none seen set' };
  if (counts.setCount < FEWEST_SEEN_SET) {
    return { ...counts, kind: 'too-few', reason: 'fewer than 3 seen set' };
  }

  const resampled = bootstrapStatistic(observations, replicates, random, (resample) =>
    quantileDays(quantileInterval(resample, setFraction)),
  );
  const earliest = resampled.map((days) => days.earliest);
  const latest = resampled.map((days) => days.latest ?? Infinity);

  return {
    ...counts,
    kind: 'estimate',
    setFraction,
    days: quantileDays(interval).quoted,
    interval: { leftDays: interval.left, rightDays: interval.right },
    confidence: {
      level: 0.95,
      lowerDays: percentile(earliest, 0.025),
      upperDays: finiteOrNull(percentile(latest, 0.975)),
    },
    replicates,
    method: 'Turnbull maximum-likelihood estimate, bootstrap percentile limits',
  };
}

function countSeen(observations: readonly SettingObservation[]): Counts {
  let n = 0;
  let setCount = 0;
  for (const { upper, weight = 1 } of observations) {
    n += weight;
    if (upper !== null) setCount += weight;
  }
  return { n, setCount, stillSettingCount: n - setCount };
}

function finiteOrNull(days: number): number | null {
  return Number.isFinite(days) ? days : null;
}
