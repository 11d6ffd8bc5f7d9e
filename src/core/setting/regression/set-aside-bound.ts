import { dot } from '../numerics/linear-form';
import { normalQuantile } from '../numerics/normal';
import type { Profile, RegressionData } from './covariate';
import { emptyKernel } from './error-law';
import { errorLaw } from './error-laws';
import type { SettingRegression } from './fit-regression';
import { profileRow } from './profile-row';
import type { SetAsideLevel } from './set-aside';

/** What can be said of a level set aside: how fast at most, or at least, against another level. */
export type SetAsideBound =
  | { kind: 'at most'; ratio: number; confidenceLevel: number }
  | { kind: 'at least'; ratio: number; confidenceLevel: number }
  | { kind: 'unknown' };

/**
 * How many times as fast batches of a level set aside set, all else equal, as those of `against`, at
 * most (none seen set) or at least (all set before the first look).
 *
 * The one-sided bound by the likelihood ratio: the shift of log time at which the level's own batches
 * are less likely than at the limit by a factor of exp(-z^2 / 2), z the normal quantile of the level;
 * 1.35 in log-likelihood for 95 %. Everything else stays at its estimate, whose own uncertainty is
 * not in the bound. Source: D. R. Cox and D. Oakes, "Analysis of Survival Data" (1984), section 3.3.
 *
 * `data` are those that the regression was fitted to. Unknown when the level has no batches whose
 * other covariates the regression knows. Throws RangeError for a confidence level not above 0.5 and
 * below 1, and for an unknown `against`.
 */
export function setAsideBound(
  regression: SettingRegression,
  data: RegressionData,
  aside: SetAsideLevel,
  against: string,
  confidenceLevel = 0.95,
): SetAsideBound {
  if (!(confidenceLevel > 0.5 && confidenceLevel < 1)) {
    throw new RangeError(`confidenceLevel must be above 0.5 and below 1, got ${confidenceLevel}`);
  }
  const law = errorLaw(regression.distribution);
  const kernel = emptyKernel();
  const early = aside.why === 'all set before the first look';
  const batches = standardised(regression, data, aside, against);
  if (batches.length === 0) return { kind: 'unknown' };

  const sought = -(normalQuantile(confidenceLevel) ** 2) / 2;
  const logLikAt = (shift: number) =>
    batches.reduce((sum, { z, weight }) => {
      const place = z - shift / regression.scale;
      if (early) law.left(place, kernel);
      else law.right(place, kernel);
      return sum + weight * kernel.value;
    }, 0);
  // Slower than the shift is likelier where none is seen set, faster where all were.
  let [low, high] = [-WIDEST, WIDEST];
  for (let halving = 0; halving < 80; halving += 1) {
    const middle = (low + high) / 2;
    if (logLikAt(middle) > sought === early) low = middle;
    else high = middle;
  }
  return { kind: early ? 'at least' : 'at most', ratio: Math.exp(-low), confidenceLevel };
}

/** The shift of log time looked for lies within it either way. */
const WIDEST = 100;

/** The level's batches, placed as if they were of `against`. */
function standardised(
  regression: SettingRegression,
  data: RegressionData,
  aside: SetAsideLevel,
  against: string,
): { z: number; weight: number }[] {
  return data.observations.flatMap(({ lower, upper, weight = 1 }, row) => {
    const profile: Profile = Object.fromEntries(
      data.covariates.map(({ name, values }) => [name, values[row] ?? NaN]),
    );
    if (profile[aside.covariate] !== aside.level) return [];
    const found = profileRow(regression, { ...profile, [aside.covariate]: against });
    const logTime = Math.log(upper ?? lower);
    if (found.kind === 'set-aside' || logTime === -Infinity) return [];
    return [{ z: (logTime - dot(found.row, regression.coefficients)) / regression.scale, weight }];
  });
}
