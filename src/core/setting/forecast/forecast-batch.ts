import type { SettingObservation } from '../observation';

export type SeedGrain = 'fine' | 'medium' | 'coarse';

/** What may be known of a batch beforehand that changes how fast it sets. Null: nobody knows. */
export type BatchTraits = {
  /** Of the place where it stands to set. */
  temperatureC: number | null;
  /** Seed in a hundred parts of honey and seed together. */
  seedPercent: number | null;
  seedGrain: SeedGrain | null;
  /** Water in the honey. */
  moisturePercent: number | null;
  /** From extraction to stirring in the seed. */
  honeyAgeDays: number | null;
};

/** A batch that tells something: what was seen of it, and what was known beforehand. */
export type ForecastBatch = BatchTraits & {
  observation: SettingObservation;
  /** Any name that is the same for the same source; null: a mixture of which none is more than half. */
  floralSource: string | null;
};

/** The batch that is asked about. Its floral source may also be `unknown`: any of those the club has. */
export type ForecastProfile = BatchTraits & {
  floralSource: { known: true; name: string | null } | { known: false };
};

/** A batch of which nothing is known beforehand. */
export const NO_TRAITS: BatchTraits = {
  temperatureC: null,
  seedPercent: null,
  seedGrain: null,
  moisturePercent: null,
  honeyAgeDays: null,
};
