import type { SettingCheck } from '../core/setting/checks-to-observation';
import { seasonOf, type Season } from '../core/setting/season';

/** Where a setting temperature comes from: thermometers, or the band that was booked. */
export type TemperatureOrigin = 'readings' | 'band';

/** A batch with seed in it, what was known of it when it was seeded, and what was seen of it since. Times are epoch milliseconds. */
export interface SeededBatch {
  batchId: string;
  seededAt: number;
  season: Season;
  isAbandoned: boolean;
  /** The source of more than half of its honey; none: mixed. */
  floralSourceId: string | null;
  floralSourceName: string | null;
  /** After the seeding, in order of time; those struck out are not here. */
  checks: SettingCheck[];
  /** Mass of the seed in the mass of honey and seed together. */
  seedFraction: number;
  /** Of the seed lot with the greatest mass. */
  seedGrain: 'fine' | 'medium' | 'coarse' | null;
  /** Of the honey lots whose moisture is known, by mass. */
  waterPercent: number | null;
  /** From extraction until seeding, of the honey lots whose day is known, by mass. */
  honeyAgeDays: number | null;
  /** The lot that began the line of the seed lot with the greatest mass: see seededBatchRows. */
  seedLineId: string | null;
  seedLineName: string | null;
  /** The station of the cool bookings in which it stood the longest while it set. */
  stationId: string | null;
  stationName: string | null;
  /** On average while it set; none where nothing is known, or it was not asked for. */
  settingTemperature: { meanC: number; from: TemperatureOrigin } | null;
}

/** Seeded batches as the database writes them: JSON, and the time zone by whose calendar their seasons go. */
export interface SeededBatchText {
  batches: string;
  timeZone: string;
}

/** Reads what the database wrote. */
export function parseSeededBatches({ batches, timeZone }: SeededBatchText): SeededBatch[] {
  const rows = JSON.parse(batches) as (Omit<SeededBatch, 'season' | 'settingTemperature'> & {
    readingsMeanC: number | null;
    bandMiddleC: number | null;
  })[];
  return rows.map(({ readingsMeanC, bandMiddleC, ...row }) => ({
    ...row,
    season: seasonOf(row.seededAt, timeZone),
    settingTemperature: temperatureOf(readingsMeanC, bandMiddleC),
  }));
}

function temperatureOf(
  readingsMeanC: number | null,
  bandMiddleC: number | null,
): SeededBatch['settingTemperature'] {
  if (readingsMeanC !== null) return { meanC: readingsMeanC, from: 'readings' };
  return bandMiddleC === null ? null : { meanC: bandMiddleC, from: 'band' };
}
