import { dot, varianceOf } from '../numerics/linear-form';
import { normalQuantile } from '../numerics/normal';
import type { SettingRegression } from './fit-regression';
import type { SetAsideLevel } from './set-aside';

/** How many times as fast batches set as others do; below 1: slower. */
export type SpeedRatio = { ratio: number; lower: number; upper: number; confidenceLevel: number };

/**
 * How many times as fast a batch sets at one value of a covariate as at another, all else equal
 * (the acceleration factor).
 *
 * Formula: exp of the difference of what the terms say of the logarithm of time; limits from its
 * standard error on that scale. Source: J. D. Kalbfleisch and R. L. Prentice, "The Statistical
 * Analysis of Failure Time Data" (2002), section 2.3.
 *
 * Values are levels of a factor or numbers. A level set aside has no ratio (see setAsideBound).
 * Throws RangeError for a covariate or level that the regression does not know, and for a confidence
 * level that is not above 0 and below 1.
 */
export function speedRatio(
  regression: SettingRegression,
  compared: { covariate: string; value: string | number; against: string | number },
  confidenceLevel = 0.95,
): ({ kind: 'estimate' } & SpeedRatio) | { kind: 'no-estimate'; level: SetAsideLevel } {
  if (!(confidenceLevel > 0 && confidenceLevel < 1)) {
    throw new RangeError(`confidenceLevel must be above 0 and below 1, got ${confidenceLevel}`);
  }
  const { covariate, value, against } = compared;
  const aside = regression.setAside.find(
    ({ covariate: of, level }) => of === covariate && (level === value || level === against),
  );
  if (aside !== undefined) return { kind: 'no-estimate', level: aside };

  const ours = columnsAt(regression, covariate, value);
  const theirs = columnsAt(regression, covariate, against);
  const gradient = [...ours.map((column, j) => (theirs[j] ?? NaN) - column), 0];
  const log = dot(gradient.slice(0, -1), regression.coefficients);
  const reach =
    normalQuantile((1 + confidenceLevel) / 2) *
    Math.sqrt(varianceOf(gradient, regression.covariance));
  return {
    kind: 'estimate',
    ratio: Math.exp(log),
    lower: Math.exp(log - reach),
    upper: Math.exp(log + reach),
    confidenceLevel,
  };
}

/** The columns of a covariate's terms at a value, and 0 for all other terms. */
function columnsAt(
  { terms }: SettingRegression,
  covariate: string,
  value: string | number,
): number[] {
  const known = terms.some((term) => {
    if (term.kind === 'intercept' || term.covariate !== covariate) return false;
    if (term.kind === 'numeric') return typeof value === 'number' && Number.isFinite(value);
    return term.level === value || term.reference === value;
  });
  if (!known)
    throw new RangeError(`value must be one of ${covariate} in the regression, got ${value}`);
  return terms.map((term) => {
    if (term.kind === 'intercept' || term.covariate !== covariate) return 0;
    if (term.kind === 'numeric') return Number(value);
    return term.level === value ? 1 : 0;
  });
}
