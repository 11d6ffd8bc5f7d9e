import { at } from '../at';
import { solveFactored } from '../numerics/positive-definite';
import type { Distribution, ErrorLaw } from '../regression/error-law';
import { errorLaw } from '../regression/error-laws';
import type { Design } from '../regression/design';
import type { TraitName } from './choose-covariates';
import type { ForecastBatch, ForecastProfile } from './forecast-batch';
import { columnsOfProfile, forecastColumns, type ForecastColumns } from './forecast-columns';
import { FORECAST_PRIORS } from './forecast-priors';
import type { SettingBelief } from './setting-belief';
import { fitSupposing, type SupposedFit } from './supposed-fit';

/** The fit under one law, one spread of batches and one spread of sources. */
export type Supposition = SupposedFit & {
  distribution: Distribution;
  scale: number;
  betweenSources: number;
  /** How far it is believed; weights sum to 1. */
  weight: number;
};

export type ForecastModel = {
  design: Design;
  suppositions: Supposition[];
  /** How far each law is believed. */
  distributions: { distribution: Distribution; weight: number }[];
};

export const DISTRIBUTIONS: readonly Distribution[] = ['weibull', 'lognormal', 'loglogistic'];

/** Spreads of sources tried: 0.06 to 1.1, each 1.8 times the one before. */
const SOURCE_SPREADS = Array.from({ length: 6 }, (_, i) => 0.06 * 1.8 ** i);
const MIDDLE_SPREAD = SOURCE_SPREADS[2] ?? NaN;
/** Spreads of batches tried: so many standard deviations of their logarithm about the most likely. */
const SCALE_STEPS = [-1.5, -3, 1.5, 3, 4.5];
/** Below this share of the best a supposition changes nothing that is said. */
const LEAST_LOG_SHARE = Math.log(1e-7);

/**
 * What a club's batches tell of how long the next one takes, for clubs of any size, also of none.
 *
 * The model: log(days) = a mean for the club + what its floral source adds + what each used trait
 * adds + scale x W, W of the law that makes times Weibull, log-normal or log-logistic; every part
 * with a wide belief beforehand (FORECAST_PRIORS). The laws, the scale and the spread between sources are
 * each tried at a row of values, and each combination counts by how well it foretells what was seen,
 * with the coefficients averaged out. Sources are so drawn towards the club's mean, the more the fewer
 * their batches; the club's mean towards what is likely of any club.
 *
 * Averaging over the laws, instead of taking the one of least AIC, does not stake a small club's forecast on a choice that
 * its batches cannot make; with many batches the weights come to that choice by themselves.
 *
 * Sources: H. Rue, S. Martino and N. Chopin, "Approximate Bayesian inference for latent Gaussian
 * models by using integrated nested Laplace approximations", J. R. Statist. Soc. B 71 (2009); J. A. Hoeting and
 * others, "Bayesian model averaging", Statist. Sci. 14 (1999).
 * Throws RangeError for an observation that cannot be true.
 */
export function fitForecastModel(
  batches: readonly ForecastBatch[],
  traits: readonly TraitName[],
): ForecastModel {
  const columns = forecastColumns(batches, traits);
  const laws = DISTRIBUTIONS.map((distribution) => suppositionsOf(errorLaw(distribution), columns));
  const best = Math.max(...laws.map(({ highest }) => highest));
  const tried = laws.flatMap(({ others }) => others(best + LEAST_LOG_SHARE));
  const highest = Math.max(...tried.map(({ logWeight }) => logWeight));
  const kept = tried.filter(({ logWeight }) => logWeight - highest > LEAST_LOG_SHARE);
  const total = kept.reduce((sum, { logWeight }) => sum + Math.exp(logWeight - highest), 0);
  const suppositions = kept.map(({ logWeight, ...fit }) => ({
    ...fit,
    weight: Math.exp(logWeight - highest) / total,
  }));
  const distributions = DISTRIBUTIONS.map((distribution) => ({
    distribution,
    weight: suppositions
      .filter((one) => one.distribution === distribution)
      .reduce((sum, { weight }) => sum + weight, 0),
  })).sort((a, b) => b.weight - a.weight);
  return { design: columns.design, suppositions, distributions };
}

/**
 * What a model lets one believe of a batch: one part for each supposition. A source that the batches
 * do not have, or one not known, is as far from the club's mean as sources are.
 */
export function beliefFromModel(model: ForecastModel, profile: ForecastProfile): SettingBelief {
  const { row, sourceIsKnown } = columnsOfProfile(model.design, profile);
  const parts = model.suppositions.map(
    ({ distribution, scale, betweenSources, weight, ratios, factor }) => {
      const spread = solveFactored(factor, row);
      const sum = (of: Float64Array) => of.reduce((all, value, j) => all + value * at(row, j), 0);
      const between = sourceIsKnown ? 0 : betweenSources ** 2;
      return {
        distribution,
        weight,
        linearPredictor: model.design.centre + scale * sum(ratios),
        logScale: Math.log(scale),
        variance: {
          linearPredictor: scale ** 2 * sum(spread) + between,
          logScale: 0,
          both: 0,
        },
      };
    },
  );
  return { kind: 'belief', parts };
}

type Tried = Omit<Supposition, 'weight'> & { logWeight: number };

/** Suppositions under one law: the most likely scale, and from there both spreads varied. */
function suppositionsOf(law: ErrorLaw, columns: ForecastColumns) {
  let last = { ratios: new Float64Array(columns.design.rows.width) as Float64Array, scale: 1 };
  const tryOne = (logScale: number, betweenSources: number): Tried => {
    const scale = Math.exp(logScale);
    const start = last.ratios.map((ratio) => (ratio * last.scale) / scale);
    const deviations = columns.deviationsAt(betweenSources);
    const fit = fitSupposing(law, columns.design.rows, { scale, deviations, start });
    last = { ratios: fit.ratios, scale };
    const logWeight = fit.logEvidence + logPrior(law, scale, betweenSources);
    return { ...fit, distribution: law.distribution, scale, betweenSources, logWeight };
  };
  const { mode, deviation } = likelyScale(law, (logScale) => tryOne(logScale, MIDDLE_SPREAD));
  const counted = (one: Tried) => ({ ...one, logWeight: one.logWeight + Math.log(deviation) });
  const middles = SOURCE_SPREADS.map((spread) => counted(tryOne(mode, spread)));
  const highest = Math.max(...middles.map(({ logWeight }) => logWeight));
  /** The rest, of the spreads of sources that are within reach of the best of all laws. */
  const others = (least: number) =>
    middles
      .filter(({ logWeight }) => logWeight > least)
      .flatMap((middle) => {
        last = middle;
        return [
          middle,
          ...SCALE_STEPS.map((steps) =>
            counted(tryOne(mode + steps * deviation, middle.betweenSources)),
          ),
        ];
      });
  return { highest, others };
}

/** Densities of the logarithms of both spreads, which stand in rows of equal ratios. */
function logPrior(law: ErrorLaw, scale: number, betweenSources: number): number {
  const { betweenBatches, betweenBatchesDiffers, betweenSources: sources } = FORECAST_PRIORS;
  const off = Math.log((scale * law.standardDeviation) / betweenBatches) / betweenBatchesDiffers;
  return -(off * off) / 2 - (betweenSources / sources) ** 2 / 2 + Math.log(betweenSources);
}

const DIFFERENCE = 0.05;
const LONGEST_STEP = 0.7;

/** The logarithm of the scale that is most likely, and how far it may be off: by Newton's method. */
function likelyScale(law: ErrorLaw, tryOne: (logScale: number) => { logWeight: number }) {
  let mode = Math.log(FORECAST_PRIORS.betweenBatches / law.standardDeviation);
  let deviation: number = FORECAST_PRIORS.betweenBatchesDiffers;
  for (let round = 0; round < 12; round += 1) {
    const [below, here, above] = [-DIFFERENCE, 0, DIFFERENCE].map(
      (off) => tryOne(mode + off).logWeight,
    ) as [number, number, number];
    const slope = (above - below) / (2 * DIFFERENCE);
    const bend = (above - 2 * here + below) / DIFFERENCE ** 2;
    // Never wider than what was likely beforehand, nor where it bends the wrong way far from the top.
    if (bend < 0) deviation = Math.min(FORECAST_PRIORS.betweenBatchesDiffers, 1 / Math.sqrt(-bend));
    const wanted = slope * deviation ** 2;
    const step = Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, wanted));
    mode += step;
    if (Math.abs(step) < 0.1 * deviation) break;
  }
  return { mode, deviation };
}
