import { at } from '../at';
import { scaleEnlargement } from '../forecast/setting-belief';
import { invertFactored, type Factor } from '../numerics/positive-definite';
import { observationKind } from '../observation';
import { checkRegressionData, type RegressionData, type Term } from '../regression/covariate';
import { buildDesign, type Design } from '../regression/design';
import type { Distribution, ErrorLaw } from '../regression/error-law';
import { errorLaw } from '../regression/error-laws';
import { maximizeLikelihood } from '../regression/maximize-likelihood';
import {
  collinearColumns,
  refuseObservations,
  risingWithoutEnd,
  type NoEstimate,
} from '../regression/no-estimate';
import { setAsideLevels, type SetAsideLevel } from '../regression/set-aside';
import { startingPoint } from '../regression/starting-point';
import { inTermsOfTime } from '../regression/terms-of-time';

/** The estimates at one supposed spread between levels. */
export type PoolingPart = {
  /** How far this spread is believed; weights sum to 1. */
  weight: number;
  /** Standard deviation of levels about their mean, in units of the scale. */
  relativeSpread: number;
  /** One for each term, on the logarithm of time. */
  coefficients: number[];
  scale: number;
  /** Of the coefficients and, last, the logarithm of the scale. */
  covariance: number[][];
  /** How many coefficients the batches decide; one drawn wholly to the mean counts nothing. */
  effectiveCoefficients: number;
};

export type PooledLevels = {
  kind: 'estimate';
  method: 'accelerated failure time, levels pooled in part';
  distribution: Distribution;
  covariate: string;
  levels: { level: string; n: number; setCount: number }[];
  /** An intercept, the mean of the levels; then covariates, the pooled one with every level. */
  terms: Term[];
  parts: PoolingPart[];
  /** Levels of other factors without an estimate; their batches are not counted. */
  setAside: SetAsideLevel[];
};

/** Spreads tried, in units of the scale: a tenth to five times, each 1.3 times the one before. */
const SPREADS = Array.from({ length: 16 }, (_, i) => 0.1 * 1.3 ** i);
/** Spreads as large as the scale are as likely as not to be exceeded, before anything is seen. */
const PRIOR_SCALE = 1;

/**
 * How fast each level of a factor sets, such as each floral source, when levels are taken to be draws
 * of one kind: each is drawn towards their mean, the more the fewer its batches, so that three batches
 * do not shout, and a level with none seen set, or no batch at all, still has a figure.
 *
 * The regression of fitRegression with an effect for every level, normal about 0 with a spread that
 * is itself unknown. For each of a row of spreads, in units of the scale, the effects are those that
 * make the penalised likelihood largest, and Laplace's integral over all coefficients says how far
 * the spread is believed, with a half-Cauchy prior (none on coefficients and log scale). Answers are averaged over the spreads.
 *
 * Sources: S. Ripatti and J. Palmgren, "Estimation of multivariate frailty models using penalized
 * partial likelihood", Biometrics 56 (2000), for the penalty and Laplace's integral; A. Gelman, "Prior
 * distributions for variance parameters in hierarchical models", Bayesian Analysis 1 (2006), for the
 * prior. Where no maximum exists it is said why, as a value. Throws RangeError for data that cannot
 * be fitted to (see checkRegressionData) and when `covariate` is no factor of theirs.
 */
export function poolLevels(
  data: RegressionData,
  distribution: Distribution,
  covariate: string,
): PooledLevels | NoEstimate {
  checkRegressionData(data);
  const pooled = data.covariates.find(({ name }) => name === covariate);
  if (pooled?.kind !== 'factor') {
    throw new RangeError(`covariate must be a factor of the data, got ${covariate}`);
  }
  const refusal = refuseObservations(data.observations);
  if (refusal !== null) return refusal;
  const others = data.covariates.filter(({ name }) => name !== covariate);
  const { aside, rows } = setAsideLevels({ ...data, covariates: others });
  if (rows.length === 0) {
    const terms = aside.map((level) => `${level.covariate} ${level.level}`);
    return { kind: 'no-estimate', reason: 'covariates part set from unset', terms };
  }

  const design = buildDesign(data, rows, covariate);
  const fits = fitSpreads(errorLaw(distribution), design, covariate);
  if ('kind' in fits) return fits;

  const highest = Math.max(...fits.map(({ logEvidence }) => logEvidence));
  const total = fits.reduce((sum, { logEvidence }) => sum + Math.exp(logEvidence - highest), 0);
  const parts = fits.map(({ logEvidence, ...part }) => ({
    ...part,
    weight: Math.exp(logEvidence - highest) / total,
  }));
  const levels = pooled.levels.map((level) => {
    const own = rows.flatMap((row) =>
      pooled.values[row] === level ? (data.observations[row] ?? []) : [],
    );
    const set = own.filter((seen) => observationKind(seen) !== 'right-censored');
    return { level, n: batches(own), setCount: batches(set) };
  });
  return {
    kind: 'estimate',
    method: 'accelerated failure time, levels pooled in part',
    distribution,
    covariate,
    levels,
    terms: design.terms,
    parts,
    setAside: aside,
  };
}

function batches(observations: readonly { weight?: number }[]): number {
  return observations.reduce((sum, { weight = 1 }) => sum + weight, 0);
}

type SpreadFit = Omit<PoolingPart, 'weight'> & { logEvidence: number };

function fitSpreads(law: ErrorLaw, design: Design, covariate: string): SpreadFit[] | NoEstimate {
  const isLevel = design.terms.map((term) => term.kind === 'level' && term.covariate === covariate);
  const count = isLevel.filter(Boolean).length;
  const penaltyAt = (spread: number) =>
    Float64Array.from(isLevel, (level) => (level ? 1 / spread ** 2 : 0));
  let start = startingPoint(law, design.rows, penaltyAt(1));
  if ('collinear' in start) return collinearColumns(design, start.collinear);

  const fits: SpreadFit[] = [];
  for (const relativeSpread of SPREADS) {
    const ascent = maximizeLikelihood(law, design.rows, penaltyAt(relativeSpread), start);
    if (ascent.kind === 'rising') return risingWithoutEnd(design, ascent);
    start = ascent.state.point;
    const logPrior = -Math.log1p((relativeSpread / PRIOR_SCALE) ** 2);
    const inverse = invertFactored(withoutLast(ascent.factor));
    const held = isLevel.map((level, j) =>
      level ? at(inverse, j * isLevel.length + j) / relativeSpread ** 2 : 0,
    );
    fits.push({
      ...inTermsOfTime(design, start, ascent.factor),
      relativeSpread,
      effectiveCoefficients: held.reduce((sum, share) => sum + 1 - share, 0),
      logEvidence:
        ascent.state.value -
        count * Math.log(relativeSpread) -
        ascent.factor.logDeterminant / 2 +
        logPrior -
        (isLevel.length - count + 1) * Math.log(at(start, isLevel.length)) +
        // Spreads stand in a row of equal ratios.
        Math.log(relativeSpread),
    });
  }
  return fits;
}

/** The factor of the matrix without its last row and column. */
function withoutLast({ lower, size }: Factor): Factor {
  const kept = size - 1;
  const cells = Float64Array.from({ length: kept * kept }, (_, cell) =>
    at(lower, Math.floor(cell / kept) * size + (cell % kept)),
  );
  return { lower: cells, size: kept, logDeterminant: NaN };
}

/**
 * The effect of each level on the logarithm of time, averaged over the spreads, and its covariance,
 * larger where the scale is likely larger than its estimate (see scaleEnlargement).
 */
export function levelEffects({ terms, covariate, parts }: PooledLevels): {
  effects: number[];
  covariance: number[][];
} {
  const own = terms.flatMap((term, j) =>
    term.kind === 'level' && term.covariate === covariate ? [j] : [],
  );
  const effects = own.map((j) =>
    parts.reduce((sum, { weight, coefficients }) => sum + weight * (coefficients[j] ?? NaN), 0),
  );
  const covariance = own.map((j, r) =>
    own.map((k, c) =>
      parts.reduce((sum, part) => {
        const off = (column: number, mean: number | undefined) =>
          (part.coefficients[column] ?? NaN) - (mean ?? NaN);
        const between = off(j, effects[r]) * off(k, effects[c]);
        const enlargement = scaleEnlargement(part.effectiveCoefficients, part.covariance);
        const within = (part.covariance[j]?.[k] ?? NaN) * enlargement ** 2;
        return sum + part.weight * (within + between);
      }, 0),
    ),
  );
  return { effects, covariance };
}
