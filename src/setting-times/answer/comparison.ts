import { seededRandom } from '../../core/random';
import { intervalLogRank } from '../../core/setting/comparison/interval-log-rank';
import type { SettingComparison } from '../setting-times-comparison.responses';
import type { BatchGroup } from './batch-groups';
import { SEED } from './group-statistics';
import { observationsOf } from './observed-batch';
import { pInWords } from './words';

const MOST_PERMUTATIONS = 1999;
const FEWEST_PERMUTATIONS = 199;
const MOST_DEALS = 10_000_000;

/** Whether the groups set equally fast. What belongs to no group does not take part. */
export function compareGroups(groups: readonly BatchGroup[]): SettingComparison {
  const compared = groups
    .filter(({ key }) => key !== null)
    .map(({ name, batches }) => ({ name, observations: observationsOf(batches) }));
  const batchCount = compared.reduce((sum, { observations }) => sum + observations.length, 0);
  const permutations = Math.round(
    Math.min(
      MOST_PERMUTATIONS,
      Math.max(FEWEST_PERMUTATIONS, MOST_DEALS / Math.max(1, batchCount)),
    ),
  );
  const { method, test } = intervalLogRank(compared, { permutations, random: seededRandom(SEED) });
  if (test.kind === 'too-few') {
    return { method, batchCount, p: null, permutations: null, inWords: tooFewWords[test.reason] };
  }
  return { method, batchCount, p: test.p, permutations, inWords: differenceInWords(test.p) };
}

const tooFewWords = {
  'fewer than two groups have batches':
    'There is nothing to compare: fewer than two groups have batches that somebody looked at.',
  'all batches alike':
    'There is nothing to compare: the looks do not tell any batch from the others.',
} as const;

function differenceInWords(p: number): string {
  if (p < 0.05) {
    return `The groups differ by more than chance makes likely (${pInWords(p)}).`;
  }
  const times = Math.round(100 * p);
  return (
    `That the groups differ cannot be shown: were they all alike, chance would part them as far in ${times} of 100 cases ` +
    `(${pInWords(p)}).`
  );
}
