import type { RandomSource } from '../random';
import type { SettingObservation } from './observation';
import { settingTimeQuantile, type SettingTimeQuantile } from './setting-time-quantile';

const REPLICATES = 999;

/**
 * By how many days half of the batches have set, with 95 % limits from 999 resamples.
 * See settingTimeQuantile, of which this is the case setFraction 0.5, for everything else.
 */
export function medianSettingTime(
  observations: readonly SettingObservation[],
  random: RandomSource,
): SettingTimeQuantile {
  return settingTimeQuantile(observations, { setFraction: 0.5, replicates: REPLICATES, random });
}
