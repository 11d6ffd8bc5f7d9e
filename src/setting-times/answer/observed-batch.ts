import { checksToObservation } from '../../core/setting/checks-to-observation';
import type { SettingObservation } from '../../core/setting/observation';
import type { SeededBatch } from '../seeded-batch';

/** A seeded batch, and what the looks at it tell of its setting time; null: nothing. */
export interface ObservedBatch extends SeededBatch {
  observation: SettingObservation | null;
}

export function observed(batch: SeededBatch): ObservedBatch {
  return { ...batch, observation: checksToObservation(batch.checks, batch.seededAt) };
}

export function observationsOf(batches: readonly ObservedBatch[]): SettingObservation[] {
  return batches.flatMap(({ observation }) => observation ?? []);
}

/** How many of them have been seen set. */
export function countSet(batches: readonly ObservedBatch[]): number {
  return observationsOf(batches).filter(({ upper }) => upper !== null).length;
}
