import type { SeededBatch } from '../seeded-batch';
import type { PooledGroup } from '../setting-times-comparison.responses';
import type { SettingGroup, SettingTimesResponse } from '../setting-times.responses';
import { adjustedTimes } from './adjusted';
import { groupBatches, type BatchGroup } from './batch-groups';
import { bestFit } from './best-fit';
import { compareGroups } from './comparison';
import { groupStatistics, MOST_REPLICATES } from './group-statistics';
import { countSet, observationsOf, observed, type ObservedBatch } from './observed-batch';
import { poolGroups } from './pooling';
import type { Grouping, Question } from './question';
import { completeBatches } from './regression-data';
import { summaryInWords } from './summary-in-words';

const memberOf: Record<Grouping, string> = {
  floralSource:
    'A batch counts to the floral source of more than half of its honey’s mass, else it is mixed.',
  season: 'A batch counts to the three months of the club’s calendar in which it was seeded.',
  temperatureBand:
    'A batch counts to the band of two degrees that holds its mean temperature while it set: of thermometers in its honey, else in its station, ' +
    'where these tell of half the time or more; else the middle of the band of its cool booking.',
  seedLine:
    'A batch counts to the lot that began the line of its seed: from the heaviest seed of the batch back over the heaviest seed of each batch before.',
  station:
    'A batch counts to the station of the cool bookings made for it in which it stood the longest while it set.',
};

const method =
  'Days from stirring in the seed (the step “seeded”) until the batch had set. Of each batch it is only known between ' +
  'which two looks it set; a batch not seen set, also one that was abandoned, is known not to have set at its last look, ' +
  'and a batch that nobody looked at tells nothing; looks struck out do not count. The curve is the maximum-likelihood estimate for such data ' +
  '(Turnbull 1976), which supposes no shape. A quantile is quoted as the middle of the interval that holds it; 95 % limits are ' +
  `percentiles of up to ${MOST_REPLICATES} resamples of the batches (bootstrap), always the same for the same batches, and those of the curve hold ` +
  'at each day by itself.';

/** Everything about the setting times of some batches, told apart and adjusted as asked. Takes long where batches are many. */
export function answerOf(
  batches: readonly SeededBatch[],
  question: Question,
): SettingTimesResponse {
  const { by, adjust } = question;
  const seen = batches.map(observed);
  const groups = groupBatches(seen, by);
  const complete = completeBatches(groups, question);
  const best = bestFit(complete.data);
  const { ranking, pooled } = poolGroups(complete, question, best);
  const own = groups.map((group) => {
    const drawn = group.key === null ? undefined : pooled.get(group.name);
    return settingGroup(group, by, drawn);
  });
  const all = settingGroup({ key: null, id: null, name: 'all', batches: seen }, by);
  const comparison = compareGroups(groups);
  const adjusted = adjust.length === 0 ? null : adjustedTimes(groups, question, complete, best);
  const told = {
    method: `${method} ${memberOf[by]}`,
    by,
    groups: own,
    all,
    comparison,
    ranking,
    adjusted,
  };
  return { inWords: summaryInWords(told), ...told };
}

function settingGroup(
  { id, name, batches }: BatchGroup,
  by: Grouping,
  pooled: PooledGroup | null = null,
): SettingGroup {
  const observations = observationsOf(batches);
  const setCount = countSet(batches);
  const abandonedCount = batches.filter((batch) => batch.isAbandoned && !isSet(batch)).length;
  return {
    id,
    floralSourceId: by === 'floralSource' ? id : null,
    name,
    batchCount: batches.length,
    setCount,
    stillSettingCount: batches.length - setCount - abandonedCount,
    abandonedCount,
    observedCount: observations.length,
    ...groupStatistics(observations),
    pooled,
  };
}

function isSet({ observation }: ObservedBatch): boolean {
  return observation !== null && observation.upper !== null;
}
