import type { Covariate, Profile, RegressionData } from '../../core/setting/regression/covariate';
import type { SettingRegression } from '../../core/setting/regression/fit-regression';
import type { SettingObservation } from '../../core/setting/observation';
import { adjusterKinds } from './adjuster-values';
import type { BatchGroup } from './batch-groups';
import type { Adjuster, Question } from './question';
import { adjusterNames, groupingNames } from './words';

/** Batches that somebody looked at and of which all is known that is asked for; and how many lack what. */
export interface CompleteBatches {
  data: RegressionData;
  /** The name of the covariate that holds the groups. */
  groupName: string;
  /** Looked at, yet left out; a batch that lacks two things counts for both. */
  leftOut: { lacking: string; batchCount: number }[];
  /** Each of them once. */
  leftOutCount: number;
}

interface Row {
  group: string;
  observation: SettingObservation;
  values: (number | string)[];
}

/** The batches of some groups as data of a regression: the group first, then the adjusters. */
export function completeBatches(
  groups: readonly BatchGroup[],
  { by, adjust }: Question,
): CompleteBatches {
  const groupName = groupingNames[by];
  const lacking = new Map<string, number>();
  let leftOutCount = 0;
  const rows: Row[] = [];
  for (const { key, name, batches } of groups) {
    for (const batch of batches) {
      if (batch.observation === null) continue;
      const values = adjust.map((adjuster) => adjusterKinds[adjuster].of(batch));
      const missing = adjust.flatMap((adjuster, index) =>
        values[index] === null ? [adjusterNames[adjuster]] : [],
      );
      if (key === null) missing.unshift(groupName);
      for (const what of missing) lacking.set(what, (lacking.get(what) ?? 0) + 1);
      if (missing.length > 0) leftOutCount += 1;
      else
        rows.push({
          group: name,
          observation: batch.observation,
          values: values.flatMap((value) => value ?? []),
        });
    }
  }
  return {
    groupName,
    data: {
      observations: rows.map(({ observation }) => observation),
      covariates: [
        factorOf(groupName, rows, ({ group }) => group),
        ...adjust.map((adjuster, index) => covariateOf(adjuster, rows, index)),
      ],
    },
    leftOut: Array.from(lacking, ([what, batchCount]) => ({ lacking: what, batchCount })),
    leftOutCount,
  };
}

function covariateOf(adjuster: Adjuster, rows: readonly Row[], index: number): Covariate {
  const name = adjusterNames[adjuster];
  return adjusterKinds[adjuster].kind === 'numeric'
    ? { kind: 'numeric', name, values: rows.map(({ values }) => Number(values[index])) }
    : factorOf(name, rows, ({ values }) => String(values[index]));
}

/** Others are compared with the level of which the most batches were seen set. */
function factorOf(name: string, rows: readonly Row[], of: (row: Row) => string): Covariate {
  const setCounts = new Map<string, number>();
  for (const row of rows) {
    const set = row.observation.upper === null ? 0 : 1;
    setCounts.set(of(row), (setCounts.get(of(row)) ?? 0) + set);
  }
  const levels = [...setCounts]
    .sort(([a, aCount], [b, bCount]) => bCount - aCount || (a < b ? -1 : 1))
    .map(([level]) => level);
  return { kind: 'factor', name, levels, values: rows.map(of) };
}

/** Numbers at their mean, and the first level that has an estimate of each factor but that of the groups. */
export function usualProfile(
  { data, groupName }: CompleteBatches,
  { setAside }: Pick<SettingRegression, 'setAside'>,
): Profile {
  const entries = data.covariates.flatMap((covariate): [string, number | string][] => {
    const { name } = covariate;
    if (name === groupName) return [];
    if (covariate.kind === 'numeric') {
      const sum = covariate.values.reduce((total, value) => total + value, 0);
      return [[name, sum / covariate.values.length]];
    }
    const level = covariate.levels.find(
      (one) => !setAside.some((aside) => aside.covariate === name && aside.level === one),
    );
    return level === undefined ? [] : [[name, level]];
  });
  return Object.fromEntries(entries);
}
