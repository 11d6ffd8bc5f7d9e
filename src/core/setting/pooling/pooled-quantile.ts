import { scaleEnlargement } from '../forecast/setting-belief';
import { dot, varianceOf } from '../numerics/linear-form';
import { normalQuantile } from '../numerics/normal';
import type { Profile } from '../regression/covariate';
import { errorLaw } from '../regression/error-laws';
import { profileRow } from '../regression/profile-row';
import type { SetAsideLevel } from '../regression/set-aside';
import type { PooledLevels } from './pool-levels';

export type PooledQuantile =
  | { kind: 'estimate'; time: number; lower: number; upper: number; confidenceLevel: number }
  | { kind: 'no-estimate'; level: SetAsideLevel };

/**
 * By when the share `setFraction` of batches with these covariates has set, by pooled levels.
 *
 * Formula: the logarithm of time is linear predictor + scale x w, w the law's quantile, at each of the
 * spreads between levels; its mean over the spreads, and its variance within them (delta method, larger
 * where the scale is likely larger than its estimate, see scaleEnlargement) and between them. Limits are
 * normal on the logarithm. They say how well the time is known, not how batches spread about it.
 *
 * Works for a share and a confidence level above 0 and below 1. Throws RangeError for others and for a
 * profile that does not fit (see profileRow). Sources: see poolLevels and predictQuantiles.
 */
export function pooledQuantile(
  pooled: PooledLevels,
  profile: Profile,
  setFraction: number,
  confidenceLevel = 0.95,
): PooledQuantile {
  for (const value of [setFraction, confidenceLevel]) {
    if (!(value > 0 && value < 1)) {
      throw new RangeError(
        `setFraction and confidenceLevel must be above 0 and below 1, got ${value}`,
      );
    }
  }
  const found = profileRow(pooled, profile);
  if (found.kind === 'set-aside') return { kind: 'no-estimate', level: found.level };

  const w = errorLaw(pooled.distribution).quantile(setFraction);
  const parts = pooled.parts.map(({ weight, coefficients, scale, covariance, ...part }) => ({
    weight,
    log: dot(found.row, coefficients) + scale * w,
    variance:
      varianceOf([...found.row, scale * w], covariance) *
      scaleEnlargement(part.effectiveCoefficients, covariance) ** 2,
  }));
  const log = parts.reduce((sum, part) => sum + part.weight * part.log, 0);
  const variance = parts.reduce(
    (sum, part) => sum + part.weight * (part.variance + (part.log - log) ** 2),
    0,
  );
  const reach = normalQuantile((1 + confidenceLevel) / 2) * Math.sqrt(variance);
  return {
    kind: 'estimate',
    time: Math.exp(log),
    lower: Math.exp(log - reach),
    upper: Math.exp(log + reach),
    confidenceLevel,
  };
}
