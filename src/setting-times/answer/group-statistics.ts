import { seededRandom } from '../../core/random';
import { bootstrapLimits, type DaysLimits } from '../../core/setting/bootstrap-limits';
import type { SettingObservation } from '../../core/setting/observation';
import { quantileDays, quantileInterval } from '../../core/setting/quantile-interval';
import { fitTurnbull, type TurnbullFit } from '../../core/setting/turnbull';
import type { SettingInterval, SettingQuantile } from '../setting-times.responses';

/** The same batches give the same limits, whoever asks and whenever. */
export const SEED = 20_261_125;

/** With fewer, nearly every resample repeats one batch and the limits mean nothing. */
export const FEWEST_SEEN_SET = 3;

export const MOST_REPLICATES = 400;
const FEWEST_REPLICATES = 100;
/** Beyond, fewer resamples do: thousands of batches give narrow limits anyway. */
const MOST_DRAWS = 2_000_000;

const QUARTER = 0.25;
const HALF = 0.5;
const THREE_QUARTERS = 0.75;
const EIGHTIETH = 0.8;
const ASKED = [QUARTER, HALF, THREE_QUARTERS, EIGHTIETH];

export interface GroupStatistics {
  curve: SettingInterval[];
  median: SettingQuantile | null;
  lowerQuartile: SettingQuantile | null;
  upperQuartile: SettingQuantile | null;
  percentile80: SettingQuantile | null;
  replicates: number;
  tooFew: string | null;
}

/** What the looks tell of one group of batches. */
export function groupStatistics(observations: readonly SettingObservation[]): GroupStatistics {
  const tooFew = tooFewWords(observations);
  const fit = fitTurnbull(observations);
  if (tooFew !== null) {
    const none = { median: null, lowerQuartile: null, upperQuartile: null, percentile80: null };
    const curve = observations.length === 0 ? [] : curveOf(fit, null);
    return { curve, ...none, replicates: 0, tooFew };
  }
  const replicates = Math.round(
    Math.min(MOST_REPLICATES, Math.max(FEWEST_REPLICATES, MOST_DRAWS / observations.length)),
  );
  const timesDays = fit.intervals.flatMap(({ right }) => right ?? []);
  const limits = bootstrapLimits(
    observations,
    { setFractions: ASKED, timesDays },
    { replicates, random: seededRandom(SEED) },
  );
  const quantile = (setFraction: number) =>
    quantileOf(fit, setFraction, limits.quantiles[ASKED.indexOf(setFraction)]);
  return {
    curve: curveOf(fit, limits.survival),
    median: quantile(HALF),
    lowerQuartile: quantile(QUARTER),
    upperQuartile: quantile(THREE_QUARTERS),
    percentile80: quantile(EIGHTIETH),
    replicates,
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

/** Limits stand in the order of the intervals that have an end. */
function curveOf(
  { intervals }: TurnbullFit,
  limits: readonly { lower: number; upper: number }[] | null,
): SettingInterval[] {
  let setSoFar = 0;
  return intervals.map(({ left, right, mass }, index) => {
    setSoFar += mass;
    const stillSetting = right === null ? 0 : Math.max(0, 1 - setSoFar);
    const limit = limits?.[index];
    return {
      leftDays: left,
      rightDays: right,
      mass,
      stillSetting,
      stillSettingLower: limit?.lower ?? null,
      stillSettingUpper: limit?.upper ?? null,
    };
  });
}

function quantileOf(
  fit: TurnbullFit,
  setFraction: number,
  limits: DaysLimits | undefined,
): SettingQuantile | null {
  if (limits === undefined) return null;
  const interval = quantileInterval(fit, setFraction);
  const { left, right } = interval;
  return { quotedDays: quantileDays(interval).quoted, leftDays: left, rightDays: right, ...limits };
}
