import { chiSquareTest, type ChiSquareTest } from '../numerics/chi-square-test';
import { factorPositiveDefinite, quadraticForm } from '../numerics/positive-definite';
import type { Distribution } from './error-law';
import type { SettingRegression } from './fit-regression';

/**
 * Whether the terms that `full` has and `reduced` has not change the time until set: the likelihood
 * ratio test, 2 (logLik full - logLik reduced) against chi-square. Levels set aside count with the
 * likelihood's limit, which is that of the fit without them, and a degree of freedom each.
 *
 * Both must rest on the same batches and distribution, `full` must have more terms. Throws RangeError
 * otherwise. Source: S. S. Wilks, Ann. Math. Statist. 9 (1938).
 */
export function likelihoodRatioTest(
  full: SettingRegression,
  reduced: SettingRegression,
): ChiSquareTest {
  const more = freeTerms(full) - freeTerms(reduced);
  if (full.distribution !== reduced.distribution || batches(full) !== batches(reduced)) {
    throw new RangeError('full and reduced must have the same distribution and batches');
  }
  if (more < 1) throw new RangeError(`full must have more terms than reduced, got ${more} more`);
  return chiSquareTest(Math.max(0, 2 * (full.logLik - reduced.logLik)), more);
}

function seenAside({ setAside }: SettingRegression) {
  return setAside.filter(({ n }) => n > 0);
}

/** Coefficients that were free, those of levels set aside included. */
export function freeTerms(regression: SettingRegression): number {
  return regression.terms.length + seenAside(regression).length;
}

function batches(regression: SettingRegression): number {
  return regression.n + seenAside(regression).reduce((sum, { n }) => sum + n, 0);
}

/**
 * Whether a covariate changes the time until set, from one fit: Wald's test that all its
 * coefficients are 0, b' V^-1 b against chi-square. Levels set aside are not tested.
 *
 * Throws RangeError when the regression has no coefficient of that covariate.
 * Source: A. Wald, Trans. Amer. Math. Soc. 54 (1943).
 */
export function waldTest(regression: SettingRegression, covariate: string): ChiSquareTest {
  const own = regression.terms.flatMap((term, j) =>
    term.kind !== 'intercept' && term.covariate === covariate ? [j] : [],
  );
  if (own.length === 0) {
    throw new RangeError(`covariate must have a coefficient in the regression, got ${covariate}`);
  }
  const block = own.flatMap((r) => own.map((c) => regression.covariance[r]?.[c] ?? NaN));
  const factor = factorPositiveDefinite(Float64Array.from(block), own.length);
  if ('dependentColumn' in factor) throw new RangeError('covariance must be positive definite');
  const coefficients = Float64Array.from(own, (j) => regression.coefficients[j] ?? NaN);
  return chiSquareTest(quadraticForm(factor, coefficients), own.length);
}

/**
 * The distribution that describes the same batches best by Akaike's criterion (smallest AIC; the first
 * of equals). Throws RangeError when there is none or they rest on different batches.
 * Source: H. Akaike, IEEE Trans. Automatic Control 19 (1974).
 */
export function bestDistribution(regressions: readonly SettingRegression[]): Distribution {
  const [first, ...others] = regressions;
  if (first === undefined || others.some((other) => batches(other) !== batches(first))) {
    throw new RangeError('regressions must hold at least one, all of the same batches');
  }
  return others.reduce((best, other) => (other.aic < best.aic ? other : best), first).distribution;
}
