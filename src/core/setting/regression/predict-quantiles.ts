import { dot, varianceOf } from '../numerics/linear-form';
import { normalQuantile } from '../numerics/normal';
import type { Profile } from './covariate';
import { errorLaw } from './error-laws';
import type { SettingRegression } from './fit-regression';
import { profileRow } from './profile-row';
import type { SetAsideLevel } from './set-aside';

type Limits = { lower: number; upper: number };

/** By when the share `setFraction` of such batches has set, in the regression's unit of time. */
export type PredictedQuantile = {
  setFraction: number;
  time: number;
  standardError: number;
  logTime: number;
  logStandardError: number;
  /** Formed on the logarithm, so above 0: the ones to quote. */
  limits: Limits;
  /** Formed on the time itself; may go below 0. */
  plainLimits: Limits;
};

export type Prediction =
  | {
      kind: 'estimate';
      confidenceLevel: number;
      linearPredictor: number;
      linearPredictorStandardError: number;
      quantiles: PredictedQuantile[];
    }
  | { kind: 'no-estimate'; level: SetAsideLevel };

/**
 * By when given shares of the batches with these covariates have set, with limits of how well the
 * shares' times are known (not of how batches spread: see settingForecast).
 *
 * Formula: log time = linear predictor + scale x w, w the law's quantile; its variance by the delta
 * method with the gradient (columns, scale x w) in (coefficients, log scale). Source: J. F. Lawless,
 * "Statistical Models and Methods for Lifetime Data" (2003), sections 4.1 and 6.3.
 *
 * Works for shares and confidence level above 0 and below 1. Throws RangeError for others and for a
 * profile that does not fit (see profileRow).
 */
export function predictQuantiles(
  regression: SettingRegression,
  profile: Profile,
  setFractions: readonly number[],
  confidenceLevel = 0.95,
): Prediction {
  for (const value of [...setFractions, confidenceLevel]) {
    if (!(value > 0 && value < 1)) {
      throw new RangeError(
        `setFractions and confidenceLevel must be above 0 and below 1, got ${value}`,
      );
    }
  }
  const found = profileRow(regression, profile);
  if (found.kind === 'set-aside') return { kind: 'no-estimate', level: found.level };

  const { distribution, coefficients, scale, covariance } = regression;
  const law = errorLaw(distribution);
  const z = normalQuantile((1 + confidenceLevel) / 2);
  const linearPredictor = dot(found.row, coefficients);
  const quantiles = setFractions.map((setFraction) => {
    const spread = scale * law.quantile(setFraction);
    const logTime = linearPredictor + spread;
    const logStandardError = Math.sqrt(varianceOf([...found.row, spread], covariance));
    const time = Math.exp(logTime);
    const standardError = time * logStandardError;
    return {
      setFraction,
      time,
      standardError,
      logTime,
      logStandardError,
      limits: {
        lower: Math.exp(logTime - z * logStandardError),
        upper: Math.exp(logTime + z * logStandardError),
      },
      plainLimits: { lower: time - z * standardError, upper: time + z * standardError },
    };
  });
  return {
    kind: 'estimate',
    confidenceLevel,
    linearPredictor,
    linearPredictorStandardError: Math.sqrt(varianceOf([...found.row, 0], covariance)),
    quantiles,
  };
}
