import { at } from '../at';
import { observationKind } from '../observation';
import { checkRegressionData, type RegressionData, type Term } from './covariate';
import { buildDesign, type Design } from './design';
import type { Distribution } from './error-law';
import { errorLaw } from './error-laws';
import { maximizeLikelihood } from './maximize-likelihood';
import {
  collinearColumns,
  refuseObservations,
  risingWithoutEnd,
  type NoEstimate,
} from './no-estimate';
import { setAsideLevels, type SetAsideLevel } from './set-aside';
import { startingPoint } from './starting-point';
import { inTermsOfTime } from './terms-of-time';

export type SettingRegression = {
  kind: 'estimate';
  method: 'accelerated failure time, maximum likelihood';
  distribution: Distribution;
  terms: Term[];
  /** One for each term, on the natural logarithm of time; a factor of exp(coefficient) in time. */
  coefficients: number[];
  /** Spread of the logarithm of time about what the terms say; 1 / shape of a Weibull distribution. */
  scale: number;
  /** Covariance of the coefficients and, last, of the logarithm of the scale. */
  covariance: number[][];
  /** Of the coefficients and, last, of the logarithm of the scale. */
  standardErrors: number[];
  /** Natural logarithm of the likelihood; exact times by their density on the scale of time. */
  logLik: number;
  /** -2 logLik + 2 (coefficients + 1). */
  aic: number;
  /** Batches that the estimate rests on, weights counted. */
  n: number;
  /** Of these, seen to have set. */
  setCount: number;
  /** Levels without an estimate; their batches are not in n. */
  setAside: SetAsideLevel[];
  iterations: number;
};

/**
 * How covariates stretch or shorten the time until honey has set.
 *
 * The model: log(time) = intercept + sum of coefficient x covariate + scale x W, with W of the law
 * that makes times Weibull, log-normal or log-logistic (accelerated failure time). The maximum
 * of the likelihood of what was seen: density at an exact time, probability of an interval, of
 * later than the last look, of no later than the first. Factors by treatment contrasts against
 * their first level that occurs. Standard errors from the inverse of the observed information.
 *
 * Times in days (any unit works, the intercept changes with it). Where no maximum exists it is said
 * why, as a value; levels of a factor that have none are set aside and the rest is fitted, which is
 * the limit. Throws RangeError for data that cannot be fitted to (see checkRegressionData).
 *
 * Source: J. D. Kalbfleisch and R. L. Prentice, "The Statistical Analysis of Failure Time Data"
 * (2002), chapter 3; the algorithm: see maximizeLikelihood.
 */
export function fitRegression(
  data: RegressionData,
  distribution: Distribution,
): SettingRegression | NoEstimate {
  checkRegressionData(data);
  const refusal = refuseObservations(data.observations);
  if (refusal !== null) return refusal;
  const { aside, rows } = setAsideLevels(data);
  if (rows.length === 0) {
    const terms = aside.map(({ covariate, level }) => `${covariate} ${level}`);
    return { kind: 'no-estimate', reason: 'covariates part set from unset', terms };
  }

  const law = errorLaw(distribution);
  const design = buildDesign(data, rows);
  const penalty = new Float64Array(design.rows.width);
  const start = startingPoint(law, design.rows, penalty);
  if ('collinear' in start) return collinearColumns(design, start.collinear);
  const ascent = maximizeLikelihood(law, design.rows, penalty, start);
  if (ascent.kind === 'rising') return risingWithoutEnd(design, ascent);

  const { coefficients, scale, covariance } = inTermsOfTime(
    design,
    ascent.state.point,
    ascent.factor,
  );
  const logLik = ascent.state.value - logTimesOfExactRows(design);
  const used = rows.map((row) => data.observations[row]).filter((seen) => seen !== undefined);
  const count = (of: typeof used) => of.reduce((sum, { weight = 1 }) => sum + weight, 0);
  return {
    kind: 'estimate',
    method: 'accelerated failure time, maximum likelihood',
    distribution,
    terms: design.terms,
    coefficients,
    scale,
    covariance,
    standardErrors: covariance.map((line, j) => Math.sqrt(line[j] ?? NaN)),
    logLik,
    aic: -2 * logLik + 2 * (coefficients.length + 1),
    n: count(used),
    setCount: count(used.filter((seen) => observationKind(seen) !== 'right-censored')),
    setAside: aside,
    iterations: ascent.iterations,
  };
}

/** What turns the density of the logarithm of an exact time into that of the time. */
function logTimesOfExactRows({ rows, centre }: Design): number {
  let sum = 0;
  for (let i = 0; i < rows.ends.exact; i += 1) {
    sum += at(rows.weight, i) * (at(rows.place, i) + centre);
  }
  return sum;
}
