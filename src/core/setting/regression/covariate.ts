import { checkObservation, type SettingObservation } from '../observation';

/**
 * Something known of every batch beforehand that may change how fast it sets: a number, or one of
 * a few levels of which the first is the one that others are compared with. Values stand in the
 * order of the observations.
 */
export type Covariate =
  | { kind: 'numeric'; name: string; values: readonly number[] }
  | { kind: 'factor'; name: string; levels: readonly string[]; values: readonly string[] };

export type RegressionData = {
  observations: readonly SettingObservation[];
  covariates: readonly Covariate[];
};

/**
 * What one coefficient of a regression stands for: the logarithm of the time of a batch at every
 * reference level and at 0 of every number; what a level adds to that of the reference level; what
 * one unit of a number adds.
 */
export type Term =
  | { kind: 'intercept' }
  | { kind: 'level'; covariate: string; level: string; reference: string }
  | { kind: 'numeric'; covariate: string };

/** The covariates of a batch, by name. */
export type Profile = Readonly<Record<string, number | string>>;

/**
 * Refuses data that cannot be fitted to: an observation that cannot be true, a covariate that has
 * not one value for each observation, a number that is not finite, a value that is none of the
 * levels, a name or level given twice. Throws RangeError.
 */
export function checkRegressionData({ observations, covariates }: RegressionData): void {
  observations.forEach(checkObservation);
  refuseTwice(
    'covariates',
    covariates.map(({ name }) => name),
  );
  for (const covariate of covariates) {
    const { name, values } = covariate;
    if (values.length !== observations.length) {
      throw new RangeError(
        `values of ${name} must be as many as observations (${observations.length}), got ${values.length}`,
      );
    }
    if (covariate.kind === 'numeric') {
      const wrong = covariate.values.find((value) => !Number.isFinite(value));
      if (wrong !== undefined) {
        throw new RangeError(`values of ${name} must be finite numbers, got ${wrong}`);
      }
    } else {
      refuseTwice(`levels of ${name}`, covariate.levels);
      const known = new Set(covariate.levels);
      const wrong = covariate.values.find((value) => !known.has(value));
      if (wrong !== undefined) {
        throw new RangeError(`values of ${name} must be among its levels, got ${wrong}`);
      }
    }
  }
}

function refuseTwice(what: string, names: readonly string[]): void {
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined) throw new RangeError(`${what} must differ, got ${twice} twice`);
}
