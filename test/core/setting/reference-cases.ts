import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { SettingObservation } from '../../../src/core/setting/observation';
import type { ReferenceCase, Result } from '../../references/survival/types';

const folder = join(__dirname, '../../references/survival');

/** The reference cases: R's survival package and npsurv, as the README beside them describes. */
export const referenceCases: ReferenceCase[] = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => JSON.parse(readFileSync(join(folder, name), 'utf8')) as ReferenceCase);

/** Every result of a kind, with the case it belongs to. */
export function resultsOfKind<K extends Result['kind']>(kind: K) {
  return referenceCases.flatMap((reference) =>
    reference.results
      .filter((result): result is Extract<Result, { kind: K }> => result.kind === kind)
      .map((result) => ({ reference, result })),
  );
}

/** The observations of one group of a case; all of them when there is no group column. */
export function observationsOf(
  reference: ReferenceCase,
  groupColumn: string | null,
  group: string,
): SettingObservation[] {
  const { lower, upper, weight } = reference.data.columns;
  const groups = groupColumn === null ? undefined : reference.data.columns[groupColumn];
  return lower.flatMap((start, row) => {
    if (groups !== undefined && String(groups[row]) !== group) return [];
    const observation = { lower: start, upper: upper[row] ?? null };
    return [weight === undefined ? observation : { ...observation, weight: weight[row]! }];
  });
}

/** A number out of a result's tolerances. */
export function tolerance(result: Result, name: string): number {
  const value = result.tolerance[name];
  if (typeof value !== 'number') throw new Error(`no tolerance ${name} in ${result.label}`);
  return value;
}
