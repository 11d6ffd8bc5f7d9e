import type { NoEstimate } from '../../core/setting/regression/no-estimate';
import {
  noEstimateInWords,
  setAsideInWords,
} from '../../core/setting/regression/no-estimate-in-words';
import { poolLevels, type PooledLevels } from '../../core/setting/pooling/pool-levels';
import { pooledQuantile } from '../../core/setting/pooling/pooled-quantile';
import { rankLevels, type RankedLevel } from '../../core/setting/pooling/rank-levels';
import { rankingInWords } from '../../core/setting/pooling/ranking-in-words';
import type { PooledGroup, SettingRanking } from '../setting-times-comparison.responses';
import { speedFields } from './adjusted-terms';
import { bestFit, type BestFit } from './best-fit';
import { knownDays } from './known';
import type { Question } from './question';
import { usualProfile, type CompleteBatches } from './regression-data';

const method =
  'Groups are taken for draws of one kind: each is drawn towards their mean, the more the fewer its batches (partial pooling; normal effects ' +
  'on the logarithm of the days in an accelerated failure time model, half-Cauchy prior on their spread). Two groups are told apart where the ' +
  '95 % limits of their ratio leave out 1, and ranked only where each can be told apart from the next.';

/** Naming hundreds of pairs helps nobody. */
const MOST_PAIRS_TOLD = 100;

/** Groups drawn together, by name, and their ranking as far as the batches can rank. */
export function poolGroups(
  complete: CompleteBatches,
  { adjust }: Question,
  best: BestFit | NoEstimate,
): { ranking: SettingRanking; pooled: Map<string, PooledGroup> } {
  const about = { method, adjustedFor: [...adjust] };
  const refuse = (inWords: string) => ({
    ranking: { ...about, order: null, toldApart: [], inWords },
    pooled: new Map<string, PooledGroup>(),
  });
  const { data, groupName } = complete;
  const factor = data.covariates.find(({ name }) => name === groupName);
  if (factor?.kind !== 'factor' || factor.levels.length < 2) {
    return refuse(
      'There is nothing to rank: fewer than two groups have batches that can be compared.',
    );
  }
  const distribution = distributionOf(complete, best);
  if (typeof distribution !== 'string') return refuse(noEstimateInWords(distribution));
  const levels = poolLevels(data, distribution, groupName);
  if (levels.kind === 'no-estimate') return refuse(noEstimateInWords(levels));

  const ranking = rankLevels(levels);
  const words = rankingInWords(ranking);
  return {
    ranking: {
      ...about,
      order: ranking.order,
      toldApart: words.toldApart.slice(0, MOST_PAIRS_TOLD).map((sentence) => `${sentence}.`),
      inWords: words.summary,
    },
    pooled: new Map(
      ranking.levels.map((level) => [level.level, pooledGroup(complete, levels, level)]),
    ),
  };
}

function pooledGroup(
  complete: CompleteBatches,
  levels: PooledLevels,
  { level, n, setCount, speed }: RankedLevel,
): PooledGroup {
  const profile = usualProfile(complete, levels);
  const median = pooledQuantile(levels, { ...profile, [complete.groupName]: level }, 0.5);
  const days =
    median.kind === 'no-estimate'
      ? { medianDays: null, lowerDays: null, upperDays: null }
      : {
          medianDays: knownDays(median.time),
          lowerDays: knownDays(median.lower),
          upperDays: knownDays(median.upper),
        };
  const restsOn = `It rests on ${n === 1 ? '1 batch' : `${n} batches`}, ${setCount} seen set.`;
  const inWords = median.kind === 'no-estimate' ? setAsideInWords(median.level) : restsOn;
  return { batchCount: n, setCount, ...days, ...speedFields(speed), inWords };
}

/** The distribution of the groups told apart; where that has no estimate, of all batches together. */
function distributionOf({ data, groupName }: CompleteBatches, best: BestFit | NoEstimate) {
  if (best.kind === 'estimate') return best.fit.distribution;
  const covariates = data.covariates.filter(({ name }) => name !== groupName);
  const together = bestFit({ ...data, covariates });
  return together.kind === 'estimate' ? together.fit.distribution : together;
}
