import { checksToObservation } from '../core/setting/checks-to-observation';
import type { ForecastBatch } from '../core/setting/forecast/forecast-batch';
import type { SeededBatch } from '../setting-times/seeded-batch';
import { seededTraits } from './asked-batch';

/** Older ones change nothing that is said. */
export const MOST_BATCHES = 2_000;

/** The club's latest batches that tell something, but the one asked about: of that the looks count by themselves. */
export function clubBatches(
  seeded: readonly SeededBatch[],
  askedBatchId: string | undefined,
): ForecastBatch[] {
  const telling = seeded.flatMap((batch): ForecastBatch[] => {
    if (batch.batchId === askedBatchId) return [];
    const observation = checksToObservation(batch.checks, batch.seededAt);
    const { traits } = seededTraits(batch);
    return observation === null
      ? []
      : [{ ...traits, observation, floralSource: batch.floralSourceId }];
  });
  return telling.slice(-MOST_BATCHES);
}
