import { Injectable } from '@nestjs/common';
import { checksToObservation } from '../core/setting/checks-to-observation';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { groupStatistics, REPLICATES } from './group-statistics';
import type { SeededBatch } from './seeded-batch';
import { seededBatches } from './seeded-batch-rows';
import type { SettingTimesQuery } from './setting-times.requests';
import type { SettingGroup, SettingTimesResponse } from './setting-times.responses';

const method =
  'Days from stirring in the seed (the step “seeded”) until the batch had set. Of each batch it is only known between ' +
  'which two looks it set; a batch not seen set, also one that was abandoned, is known not to have set at its last look, ' +
  'and a batch that nobody looked at tells nothing. The curve is the maximum-likelihood estimate for such data (Turnbull 1976), ' +
  'which supposes no shape. The median is quoted as the middle of the interval that holds it; its 95 % limits are ' +
  `percentiles of ${REPLICATES} resamples of the batches (bootstrap), always the same for the same batches. A batch counts to ` +
  'the floral source of more than half of its honey’s mass, else it is mixed. Nothing here is adjusted for temperature or season.';

@Injectable()
export class SettingTimesService {
  constructor(private readonly database: Database) {}

  async bySource(caller: ClubCaller, query: SettingTimesQuery): Promise<SettingTimesResponse> {
    const { from, until } = query;
    const wanted = { from, until, withTemperature: false };
    const batches = await seededBatches(this.database, caller.clubId, wanted);

    const bySource = new Map<string | null, SeededBatch[]>();
    for (const batch of batches) {
      const group = bySource.get(batch.floralSourceId);
      if (group === undefined) bySource.set(batch.floralSourceId, [batch]);
      else group.push(batch);
    }
    const groups: SettingGroup[] = [];
    for (const [floralSourceId, group] of bySource) {
      const name = group[0]?.floralSourceName ?? 'mixed';
      groups.push(await groupOf(floralSourceId, name, group));
    }
    return { method, groups: groups.sort(mostFirst), all: await groupOf(null, 'all', batches) };
  }
}

async function groupOf(
  floralSourceId: string | null,
  name: string,
  batches: readonly SeededBatch[],
): Promise<SettingGroup> {
  const seen = batches.map((batch) => ({
    ...batch,
    observation: checksToObservation(batch.checks, batch.seededAt),
  }));
  const observations = seen.flatMap(({ observation }) => observation ?? []);
  const setCount = observations.filter(({ upper }) => upper !== null).length;
  const abandonedCount = seen.filter(
    ({ isAbandoned, observation }) => isAbandoned && (observation?.upper ?? null) === null,
  ).length;
  return {
    floralSourceId,
    name,
    batchCount: batches.length,
    setCount,
    stillSettingCount: batches.length - setCount - abandonedCount,
    abandonedCount,
    observedCount: observations.length,
    ...(await groupStatistics(observations)),
  };
}

function mostFirst(a: SettingGroup, b: SettingGroup): number {
  const isMixed = (group: SettingGroup) => Number(group.floralSourceId === null);
  return isMixed(a) - isMixed(b) || b.batchCount - a.batchCount || (a.name < b.name ? -1 : 1);
}
