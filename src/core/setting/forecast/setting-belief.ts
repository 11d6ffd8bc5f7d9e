import { dot, varianceOf } from '../numerics/linear-form';
import type { Profile } from '../regression/covariate';
import type { Distribution } from '../regression/error-law';
import type { SettingRegression } from '../regression/fit-regression';
import { profileRow } from '../regression/profile-row';
import type { SetAsideLevel } from '../regression/set-aside';

/** A law, with a normal belief about the linear predictor and the logarithm of the scale of a batch. */
export type BeliefPart = {
  distribution: Distribution;
  /** Weights of the parts sum to 1. */
  weight: number;
  linearPredictor: number;
  logScale: number;
  variance: { linearPredictor: number; logScale: number; both: number };
};

/** What is believed of how one batch sets: laws, with their places and scales as far as they are known. */
export type SettingBelief = { kind: 'belief'; parts: BeliefPart[] };

/**
 * What a regression lets one believe of a batch with these covariates: its estimates, with the
 * uncertainty that their covariance leaves.
 * Throws RangeError for a profile that does not fit (see profileRow).
 */
export function beliefFromRegression(
  regression: SettingRegression,
  profile: Profile,
): SettingBelief | { kind: 'no-estimate'; level: SetAsideLevel } {
  const found = profileRow(regression, profile);
  if (found.kind === 'set-aside') return { kind: 'no-estimate', level: found.level };
  return { kind: 'belief', parts: [beliefPart(found.row, regression.distribution, regression)] };
}

/**
 * One part, of weight 1, from columns and estimates (covariance with the log scale last). Errors of
 * the coefficients grow with the scale (see scaleEnlargement).
 */
export function beliefPart(
  row: readonly number[],
  distribution: Distribution,
  estimates: {
    coefficients: readonly number[];
    scale: number;
    covariance: readonly (readonly number[])[];
  },
  coefficientsFitted = row.length,
): BeliefPart {
  const { coefficients, scale, covariance } = estimates;
  const last = covariance.at(-1) ?? [];
  const enlargement = scaleEnlargement(coefficientsFitted, covariance);
  return {
    distribution,
    weight: 1,
    linearPredictor: dot(row, coefficients),
    logScale: Math.log(scale * enlargement),
    variance: {
      linearPredictor: varianceOf([...row, 0], covariance) * enlargement ** 2,
      logScale: last.at(-1) ?? NaN,
      both: dot(row, last) * enlargement,
    },
  };
}

/**
 * By what factor the most likely scale is too small, since the coefficients have been fitted to the
 * same batches: with nothing known beforehand the belief's log scale is larger by (coefficients
 * fitted) x its variance. With exact log-normal times that is the familiar divisor n - k in place of
 * n. Source: A. Gelman and others, "Bayesian Data Analysis" (2013), section 14.2, carried over to
 * censored times by the normal approximation.
 */
export function scaleEnlargement(
  coefficientsFitted: number,
  covariance: readonly (readonly number[])[],
): number {
  return Math.exp(coefficientsFitted * (covariance.at(-1)?.at(-1) ?? NaN));
}
