import { observationKind } from '../observation';
import type { RegressionData } from './covariate';

/**
 * A level of a factor for which no coefficient exists: with no batch seen to set the likelihood
 * grows without end as the level's times go to infinity, with all set before the first look as they
 * go to 0. The fit is then the one on the other batches, which is the limit.
 */
export type SetAsideLevel = {
  covariate: string;
  level: string;
  /** Batches at this level, weights counted. */
  n: number;
  why: 'no batches' | 'none seen set' | 'all set before the first look';
};

/**
 * Which levels must be set aside, and which rows are left without them. Leaving out a level of one
 * factor may empty a level of another, so it goes on until nothing changes.
 */
export function setAsideLevels(data: RegressionData): { aside: SetAsideLevel[]; rows: number[] } {
  const kinds = data.observations.map(observationKind);
  const aside: SetAsideLevel[] = [];
  let rows = kinds.map((_, row) => row);
  for (let before = -1; before !== aside.length;) {
    before = aside.length;
    for (const covariate of data.covariates) {
      if (covariate.kind === 'numeric') continue;
      const rowsOf = new Map<string, number[]>(covariate.levels.map((level) => [level, []]));
      for (const row of rows) rowsOf.get(covariate.values[row] ?? '')?.push(row);
      for (const [level, own] of rowsOf) {
        const why = whyAside(own.map((row) => kinds[row]));
        const known = aside.some((one) => one.covariate === covariate.name && one.level === level);
        if (why === null || known) continue;
        const n = own.reduce((sum, row) => sum + (data.observations[row]?.weight ?? 1), 0);
        aside.push({ covariate: covariate.name, level, n, why });
        rows = rows.filter((row) => covariate.values[row] !== level);
      }
    }
  }
  return { aside, rows };
}

function whyAside(kinds: readonly unknown[]): SetAsideLevel['why'] | null {
  if (kinds.length === 0) return 'no batches';
  if (kinds.every((kind) => kind === 'right-censored')) return 'none seen set';
  if (kinds.every((kind) => kind === 'left-censored')) return 'all set before the first look';
  return null;
}
