import { checkObservation, type SettingObservation } from './observation';

/** An observation and how many batches share it. `upper` is Infinity where the batch was not seen set. */
export type DistinctObservation = { lower: number; upper: number; weight: number };

/**
 * Gathers equal observations into one each, with their weights summed.
 * Throws RangeError for an observation that cannot be true (see checkObservation).
 */
export function distinctObservations(
  observations: readonly SettingObservation[],
): DistinctObservation[] {
  const distinct: DistinctObservation[] = [];
  const byLower = new Map<number, Map<number, DistinctObservation>>();
  for (const observation of observations) {
    checkObservation(observation);
    const lower = observation.lower;
    const upper = observation.upper ?? Infinity;
    const weight = observation.weight ?? 1;

    let byUpper = byLower.get(lower);
    if (byUpper === undefined)
      byLower.set(lower, (byUpper = new Map<number, DistinctObservation>()));
    const known = byUpper.get(upper);
    if (known === undefined) {
      const fresh = { lower, upper, weight };
      byUpper.set(upper, fresh);
      distinct.push(fresh);
    } else {
      known.weight += weight;
    }
  }
  return distinct;
}
