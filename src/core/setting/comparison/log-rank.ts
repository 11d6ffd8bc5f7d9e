import type { SettingObservation } from '../observation';
import { factorPositiveDefinite, quadraticForm } from '../numerics/positive-definite';
import { chiSquareTest, type ChiSquareTest } from '../numerics/chi-square-test';
import { mergedTimes, tallyTimes } from './kaplan-meier';

export type Group = { name: string; observations: readonly SettingObservation[] };

export type GroupCounts = {
  name: string;
  n: number;
  /** Batches that set, each with the weight of its time. */
  observed: number;
  /** As many as would have, were all groups alike. */
  expected: number;
};

export type LogRank = {
  method: 'log-rank' | 'Peto-Peto';
  groups: GroupCounts[];
  /** Covariance of observed less expected between groups. */
  covariance: number[][];
  test:
    | ({ kind: 'test' } & ChiSquareTest)
    | { kind: 'too-few'; reason: 'fewer than two groups could have set' | 'no variation' };
};

/**
 * Whether groups of batches set equally fast, where times are exact or right-censored.
 *
 * At each time at which batches set, those that did are compared with the share of each group at
 * risk; variances by the hypergeometric distribution. 'log-rank' weighs all times alike, 'Peto-Peto'
 * by the pooled Kaplan-Meier survival just before, and so early times more. A group that none could
 * have set in (expected 0) is left out of the degrees of freedom.
 *
 * Sources: N. Mantel, Cancer Chemotherapy Reports 50 (1966); R. Peto and J. Peto, J. R. Statist. Soc.
 * A 135 (1972); D. P. Harrington and T. R. Fleming, Biometrika 69 (1982). Throws RangeError for an
 * observation that cannot be true or is known only to an interval (see intervalLogRank for those).
 */
export function logRank(groups: readonly Group[], method: LogRank['method']): LogRank {
  const oneTime = mergedTimes(groups.map(({ observations }) => observations));
  const tallies = groups.map(({ observations }) => tallyTimes(observations, oneTime));
  const atRisk = tallies.map((own) =>
    own.reduce((sum, { setCount, censoredCount }) => sum + setCount + censoredCount, 0),
  );
  const counts = groups.map(({ name }, g) => ({
    name,
    n: atRisk[g] ?? 0,
    observed: 0,
    expected: 0,
  }));
  const covariance = groups.map(() => groups.map(() => 0));

  const times = [...new Set(tallies.flat().map(({ time }) => time))].sort((a, b) => a - b);
  const byTime = tallies.map((own) => new Map(own.map((tally) => [tally.time, tally])));
  let survival = 1;
  for (const time of times) {
    const here = byTime.map((own) => own.get(time) ?? { setCount: 0, censoredCount: 0 });
    const risk = atRisk.reduce((sum, n) => sum + n, 0);
    const set = here.reduce((sum, { setCount }) => sum + setCount, 0);
    const weight = method === 'log-rank' ? 1 : survival;
    const spread = risk > 1 ? (weight * weight * set * (risk - set)) / (risk - 1) : 0;
    counts.forEach((count, g) => {
      const share = (atRisk[g] ?? 0) / risk;
      count.observed += weight * (here[g]?.setCount ?? 0);
      count.expected += weight * set * share;
      covariance[g]?.forEach((value, other, line) => {
        const otherShare = (atRisk[other] ?? 0) / risk;
        line[other] = value + spread * share * ((g === other ? 1 : 0) - otherShare);
      });
    });
    survival *= (risk - set) / risk;
    here.forEach(({ setCount, censoredCount }, g) => {
      atRisk[g] = (atRisk[g] ?? 0) - setCount - censoredCount;
    });
  }
  return { method, groups: counts, covariance, test: testOf(counts, covariance) };
}

function testOf(counts: readonly GroupCounts[], covariance: readonly number[][]): LogRank['test'] {
  const concerned = counts.flatMap(({ expected }, g) => (expected > 0 ? [g] : []));
  if (concerned.length < 2) {
    return { kind: 'too-few', reason: 'fewer than two groups could have set' };
  }
  // Differences sum to 0, so one group tells nothing new.
  const free = concerned.slice(1);
  const block = free.flatMap((g) => free.map((other) => covariance[g]?.[other] ?? NaN));
  const factor = factorPositiveDefinite(Float64Array.from(block), free.length);
  if ('dependentColumn' in factor) return { kind: 'too-few', reason: 'no variation' };
  const differences = Float64Array.from(free, (g) => {
    const { observed, expected } = counts[g] ?? { observed: NaN, expected: NaN };
    return observed - expected;
  });
  return { kind: 'test', ...chiSquareTest(quadraticForm(factor, differences), free.length) };
}
