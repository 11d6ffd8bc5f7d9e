import type { RandomSource } from '../../random';
import { chiSquareTest, type ChiSquareTest } from '../numerics/chi-square-test';
import { intervalScores } from './interval-scores';
import type { Group } from './log-rank';

export type IntervalLogRank = {
  method: 'log-rank test for intervals, by permutation';
  groups: {
    name: string;
    n: number;
    /** Observed less expected: above 0, these set sooner than the groups together. */
    score: number;
  }[];
  test:
    | {
        kind: 'test';
        /** The share of the permutations, the groups' own among them, that differ as much. */
        p: number;
        permutations: number;
        /** What the same distance says in the limit of many batches. */
        largeSample: ChiSquareTest;
      }
    | { kind: 'too-few'; reason: 'fewer than two groups have batches' | 'all batches alike' };
};

/**
 * Whether groups of batches set equally fast, where looks leave intervals.
 *
 * Every batch gets its score (see intervalScores). Were the groups alike, any dealing of the batches
 * to them would be as likely; so the groups' distance, (n - 1) / sum of squared scores x sum over
 * groups of (sum of scores)^2 / batches, is set against that of `permutations` dealings. On exact and
 * right-censored times it is the log-rank test with the permutation's variance.
 *
 * It supposes that how often batches are looked at and when looking stops does not go with the group.
 * `random` decides the dealings. Works for whole permutations from 99. Throws RangeError otherwise,
 * and for an observation that cannot be true. Source: M. P. Fay and P. A. Shaw, "Exact and asymptotic
 * weighted logrank tests for interval censored data", J. Statist. Software 36(2) (2010).
 */
export function intervalLogRank(
  groups: readonly Group[],
  { permutations, random }: { permutations: number; random: RandomSource },
): IntervalLogRank {
  if (!(Number.isSafeInteger(permutations) && permutations >= FEWEST_PERMUTATIONS)) {
    throw new RangeError(
      `permutations must be a whole number from ${FEWEST_PERMUTATIONS} up, got ${permutations}`,
    );
  }
  const all = groups.flatMap(({ observations }, group) =>
    observations.map((observation) => ({ group, weight: observation.weight ?? 1 })),
  );
  const pooled = intervalScores(groups.flatMap(({ observations }) => observations));
  const scores = pooled.flatMap((score, i) => new Array<number>(all[i]?.weight ?? 0).fill(score));
  const labels = all.flatMap(({ group, weight }) => new Array<number>(weight).fill(group));
  const sizes = groups.map((_, g) => labels.filter((label) => label === g).length);
  const squares = scores.reduce((sum, score) => sum + score * score, 0);

  const described = (test: IntervalLogRank['test']): IntervalLogRank => ({
    method: 'log-rank test for intervals, by permutation',
    groups: groups.map(({ name }, g) => ({ name, n: sizes[g] ?? 0, score: sums[g] ?? 0 })),
    test,
  });
  const sums = sumsByLabel(labels, scores, groups.length);
  const concerned = sizes.filter((size) => size > 0).length;
  if (concerned < 2) {
    return described({ kind: 'too-few', reason: 'fewer than two groups have batches' });
  }
  if (squares < ROUNDING) return described({ kind: 'too-few', reason: 'all batches alike' });

  const distance = (by: readonly number[]) =>
    by.reduce((sum, score, g) => sum + (score * score) / Math.max(1, sizes[g] ?? 1), 0);
  const observed = distance(sums);
  let asFar = 1;
  for (let dealt = 0; dealt < permutations; dealt += 1) {
    shuffle(labels, random);
    const dealtDistance = distance(sumsByLabel(labels, scores, groups.length));
    if (dealtDistance >= observed * (1 - ROUNDING)) asFar += 1;
  }
  const chiSquare = ((scores.length - 1) / squares) * observed;
  return described({
    kind: 'test',
    p: asFar / (permutations + 1),
    permutations,
    largeSample: chiSquareTest(chiSquare, concerned - 1),
  });
}

const FEWEST_PERMUTATIONS = 99;
const ROUNDING = 1e-9;

function sumsByLabel(
  labels: readonly number[],
  scores: readonly number[],
  groups: number,
): number[] {
  const sums = new Array<number>(groups).fill(0);
  labels.forEach((label, i) => {
    sums[label] = (sums[label] ?? 0) + (scores[i] ?? NaN);
  });
  return sums;
}

/** Puts the labels in an order of which each is equally likely (R. Durstenfeld, 1964). */
function shuffle(labels: number[], random: RandomSource): void {
  for (let last = labels.length - 1; last > 0; last -= 1) {
    const other = Math.floor(random() * (last + 1));
    const label = labels[last] ?? NaN;
    labels[last] = labels[other] ?? NaN;
    labels[other] = label;
  }
}
