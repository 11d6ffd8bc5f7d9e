import { seededRandom } from '../core/random';
import { bootstrapStatistic, percentile } from '../core/setting/bootstrap';
import type { SettingObservation } from '../core/setting/observation';
import {
  quantileDays,
  quantileInterval,
  type QuantileDays,
} from '../core/setting/quantile-interval';
import { fitTurnbull, type TurnbullFit } from '../core/setting/turnbull';
import type { SettingInterval, SettingMedian, SettingQuartile } from './setting-times.responses';

export const REPLICATES = 400;

/** The same batches give the same limits, whoever asks and whenever. */
const SEED = 20_261_125;

/** With fewer, nearly every resample repeats one batch and the limits mean nothing. */
const FEWEST_SEEN_SET = 3;

/** Batches resampled without giving way: some tens of milliseconds of work. */
const BATCHES_AT_A_TIME = 10_000;

export interface GroupStatistics {
  curve: SettingInterval[];
  median: SettingMedian | null;
  lowerQuartile: SettingQuartile | null;
  upperQuartile: SettingQuartile | null;
  tooFew: string | null;
}

/** What the looks tell of one group of batches. Gives way to other requests between resamples. */
export async function groupStatistics(
  observations: readonly SettingObservation[],
): Promise<GroupStatistics> {
  const tooFew = tooFewWords(observations);
  const fit = fitTurnbull(observations);
  const curve = observations.length === 0 ? [] : curveOf(fit);
  if (tooFew !== null) {
    return { curve, median: null, lowerQuartile: null, upperQuartile: null, tooFew };
  }
  return {
    curve,
    median: await medianOf(fit, observations),
    lowerQuartile: quartileOf(fit, 0.25),
    upperQuartile: quartileOf(fit, 0.75),
    tooFew: null,
  };
}

function tooFewWords(observations: readonly SettingObservation[]): string | null {
  const setCount = observations.filter(({ upper }) => upper !== null).length;
  if (observations.length === 0) return 'Nobody has looked at any of them yet.';
  if (setCount === 0) return 'None of them has been seen set.';
  if (setCount < FEWEST_SEEN_SET) {
    return `Fewer than ${FEWEST_SEEN_SET} of them have been seen set.`;
  }
  return null;
}

function curveOf({ intervals }: TurnbullFit): SettingInterval[] {
  let setSoFar = 0;
  return intervals.map(({ left, right, mass }) => {
    setSoFar += mass;
    const stillSetting = right === null ? 0 : Math.max(0, 1 - setSoFar);
    return { leftDays: left, rightDays: right, mass, stillSetting };
  });
}

async function medianOf(
  fit: TurnbullFit,
  observations: readonly SettingObservation[],
): Promise<SettingMedian> {
  const { left, right } = quantileInterval(fit, 0.5);
  const random = seededRandom(SEED);
  const atATime = Math.max(1, Math.floor(BATCHES_AT_A_TIME / observations.length));
  const medians: QuantileDays[] = [];
  while (medians.length < REPLICATES) {
    const count = Math.min(atATime, REPLICATES - medians.length);
    medians.push(...bootstrapStatistic(observations, count, random, medianDays));
    await new Promise((resolve) => setImmediate(resolve));
  }
  const earliest = medians.map((days) => days.earliest);
  const latest = medians.map((days) => days.latest ?? Infinity);
  const upperDays = percentile(latest, 0.975);
  return {
    quotedDays: medianDays(fit).quoted,
    leftDays: left,
    rightDays: right,
    lowerDays: percentile(earliest, 0.025),
    upperDays: Number.isFinite(upperDays) ? upperDays : null,
  };
}

function medianDays(fit: TurnbullFit): QuantileDays {
  return quantileDays(quantileInterval(fit, 0.5));
}

function quartileOf(fit: TurnbullFit, setFraction: number): SettingQuartile {
  const { left, right } = quantileInterval(fit, setFraction);
  return { leftDays: left, rightDays: right };
}
