import type { BatchTraits } from '../core/setting/forecast/forecast-batch';
import { invalidParameter } from '../core/refusal';
import type { SeededBatch, TemperatureOrigin } from '../setting-times/seeded-batch';
import type { AskedRow, BatchRecord } from './asked-row';
import type { SettingForecastQuery } from './setting-forecast.requests';

const dayMs = 86_400_000;

/** The batch asked about: what the request says, and what is on record where it says nothing. */
export interface AskedBatch {
  /** Epoch milliseconds. */
  startsAt: number;
  startsAtFrom: 'seeded' | 'given' | 'bench-booking';
  /** Null: mixed. Undefined: not known. */
  floralSourceId: string | null | undefined;
  traits: BatchTraits;
  temperatureFrom: 'given' | TemperatureOrigin | null;
}

/** Refuses a batch or a floral source that the club does not have, and a batch of which nobody says when it starts. */
export function askedBatch(
  query: SettingForecastQuery,
  { sources, batch }: AskedRow,
  seeded: SeededBatch | undefined,
): AskedBatch {
  if (query.batchId !== undefined && batch === null) {
    throw invalidParameter('batchId', 'The club has no such batch.');
  }
  const { floralSourceId } = query;
  if (floralSourceId !== undefined && !sources.some(({ id }) => id === floralSourceId)) {
    throw invalidParameter('floralSourceId', 'The club has no such floral source.');
  }
  const start = startOf(query, batch, seeded);
  const recorded =
    seeded === undefined ? plannedTraits(batch, start.startsAt) : seededTraits(seeded);
  const temperatureFrom =
    query.temperatureC !== undefined ? ('given' as const) : recorded.temperatureFrom;
  return {
    ...start,
    floralSourceId: floralSourceId ?? recorded.floralSourceId,
    temperatureFrom,
    traits: {
      temperatureC: query.temperatureC ?? recorded.traits.temperatureC,
      seedPercent: query.seedPercent ?? recorded.traits.seedPercent,
      seedGrain: query.seedGrain ?? recorded.traits.seedGrain,
      moisturePercent: query.moisturePercent ?? recorded.traits.moisturePercent,
      honeyAgeDays: query.honeyAgeDays ?? recorded.traits.honeyAgeDays,
    },
  };
}

function startOf(
  { startsAt }: SettingForecastQuery,
  batch: BatchRecord | null,
  seeded: SeededBatch | undefined,
): Pick<AskedBatch, 'startsAt' | 'startsAtFrom'> {
  if (seeded !== undefined) {
    if (startsAt !== undefined && startsAt.getTime() !== seeded.seededAt) {
      const at = new Date(seeded.seededAt).toISOString();
      throw invalidParameter('startsAt', `The batch was seeded at ${at}: leave startsAt out.`);
    }
    return { startsAt: seeded.seededAt, startsAtFrom: 'seeded' };
  }
  if (startsAt !== undefined) return { startsAt: startsAt.getTime(), startsAtFrom: 'given' };
  if (typeof batch?.benchAt === 'number') {
    return { startsAt: batch.benchAt, startsAtFrom: 'bench-booking' };
  }
  const why =
    batch === null
      ? 'Say when the seed is to be stirred in, or name a batch.'
      : 'Say when the seed is to be stirred in: the batch is not seeded, and the bench is not booked for it.';
  throw invalidParameter('startsAt', why);
}

type Recorded = Pick<AskedBatch, 'floralSourceId' | 'traits' | 'temperatureFrom'>;

/** What is on record of a seeded batch. */
export function seededTraits(batch: SeededBatch): Recorded {
  const { floralSourceId, settingTemperature, seedFraction, seedGrain, waterPercent } = batch;
  return {
    floralSourceId,
    temperatureFrom: settingTemperature?.from ?? null,
    traits: {
      temperatureC: settingTemperature?.meanC ?? null,
      seedPercent: seedFraction > 0 ? 100 * seedFraction : null,
      seedGrain,
      moisturePercent: waterPercent,
      honeyAgeDays: batch.honeyAgeDays,
    },
  };
}

/** What the honey meant for a batch, and its cool booking, tell beforehand. */
function plannedTraits(batch: BatchRecord | null, startsAt: number): Recorded {
  const honey = batch?.honey ?? [];
  const massG = honey.reduce((sum, lot) => sum + lot.massG, 0);
  const bySource = new Map<string, number>();
  for (const lot of honey) {
    for (const { floralSourceId, centiPercent } of lot.shares) {
      const before = bySource.get(floralSourceId) ?? 0;
      bySource.set(floralSourceId, before + lot.massG * centiPercent);
    }
  }
  const dominant = [...bySource].find(([, share]) => 2 * share > 10_000 * massG);
  const temperatureC = batch?.coolMiddleC ?? null;
  return {
    floralSourceId: batch === null ? undefined : (dominant?.[0] ?? null),
    temperatureFrom: temperatureC === null ? null : 'band',
    traits: {
      temperatureC,
      seedPercent: null,
      seedGrain: null,
      moisturePercent: meanByMass(honey, ({ moistureCentiPercent }) =>
        moistureCentiPercent === null ? null : moistureCentiPercent / 100,
      ),
      honeyAgeDays: meanByMass(honey, ({ extractedAt }) =>
        extractedAt === null ? null : Math.max(0, (startsAt - extractedAt) / dayMs),
      ),
    },
  };
}

function meanByMass<Lot extends { massG: number }>(
  lots: readonly Lot[],
  valueOf: (lot: Lot) => number | null,
): number | null {
  let [sum, massG] = [0, 0];
  for (const lot of lots) {
    const value = valueOf(lot);
    if (value === null) continue;
    sum += value * lot.massG;
    massG += lot.massG;
  }
  return massG === 0 ? null : sum / massG;
}
