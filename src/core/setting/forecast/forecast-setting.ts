import type { Distribution } from '../regression/error-law';
import { chooseCovariates, type CovariateChoice } from './choose-covariates';
import type { ForecastBatch, ForecastProfile } from './forecast-batch';
import { beliefFromModel, fitForecastModel, type ForecastModel } from './forecast-model';
import { LATEST_DAYS, predictiveOf, type Predictive } from './predictive';

/** The batch asked about. */
export type ForecastAsked = {
  profile: ForecastProfile;
  /** The last look that found it not set, in days after seeding; 0 for a planned batch. */
  notSetByDays: number;
  /** How long ago it was seeded, of a running batch; null for a planned one. */
  todayDays: number | null;
  /** The certainty wanted of the cool room's days, above 0 and below 1. */
  certainty: number;
};

export type BatchCount = { batches: number; setCount: number };

export type SettingOutlook = {
  /** By these days after seeding the batch has set, with the certainty beside it; null: not within ten years. */
  setBy: { certainty: number; days: number | null }[];
  /** It sets within these days with that certainty, and is as likely to be earlier as later. */
  within: { certainty: number; earliestDays: number | null; latestDays: number | null }[];
  /** Whole days for which to book a cool room, and how likely it is that the batch has set when they are over. */
  coolRoom: { certainty: number; days: number | null; chance: number | null };
  /** The chance that it has set by each day, rising. */
  curve: { days: number; chance: number }[];
  /** How likely it was beforehand that it would be still not set at the last look; 1 for a planned batch. */
  chanceOfNotSetSoFar: number;
  /** At the last look it was later than with 95 percent certainty expected. */
  isOverdue: boolean;
  /** The chance that it has set by today; null for a planned batch. */
  chanceByToday: number | null;
  restsOn: { all: BatchCount; ofThisSource: BatchCount | null };
  /** How far each law is believed, the most first. */
  distributions: { distribution: Distribution; weight: number }[];
  covariates: CovariateChoice[];
};

export const CERTAINTIES = [0.5, 0.8, 0.95] as const;
/** A picture needs no more points. */
const MOST_POINTS = 40;
const CURVE_ENDS_AT = 0.99;

/**
 * When a batch has set, planned or running, from the club's other batches: the traits that can be used (see
 * chooseCovariates), the model of fitForecastModel, and the predictive distribution of settingForecast, which holds both
 * what is not known of the model and how far alike batches spread.
 *
 * `batches` must not hold the batch itself. A `model` fitted to the same batches and traits saves the fitting. Works for any
 * number of batches, none included; certainty above 0 and below 1, notSetByDays from 0 to ten years. Throws RangeError otherwise.
 */
export function forecastSetting(
  batches: readonly ForecastBatch[],
  { profile, notSetByDays, todayDays, certainty }: ForecastAsked,
  model?: ForecastModel,
): SettingOutlook {
  if (!(certainty > 0 && certainty < 1)) {
    throw new RangeError(`certainty must be above 0 and below 1, got ${certainty}`);
  }
  const covariates = chooseCovariates(batches, profile);
  const fitted = model ?? fitForecastModel(batches, usedTraits(covariates));
  const belief = beliefFromModel(fitted, profile);
  const predictive = predictiveOf(belief, notSetByDays);
  const source = profile.floralSource;
  return {
    setBy: CERTAINTIES.map((one) => ({ certainty: one, days: predictive.quantile(one) })),
    within: CERTAINTIES.map((one) => ({
      certainty: one,
      earliestDays: predictive.quantile((1 - one) / 2),
      latestDays: predictive.quantile((1 + one) / 2),
    })),
    coolRoom: coolRoomOf(predictive, certainty, notSetByDays),
    curve: curveOf(predictive, notSetByDays),
    chanceOfNotSetSoFar: Math.exp(predictive.logNotSetSoFar),
    isOverdue: predictive.logNotSetSoFar < Math.log(1 - OVERDUE),
    chanceByToday:
      todayDays === null ? null : chanceBy(predictive, Math.max(notSetByDays, todayDays)),
    restsOn: {
      all: countOf(batches),
      ofThisSource: source.known
        ? countOf(batches.filter(({ floralSource }) => floralSource === source.name))
        : null,
    },
    distributions: fitted.distributions,
    covariates,
  };
}

const OVERDUE = 0.95;

/** Which of the traits looked at enter the forecast, in their order. */
export function usedTraits(covariates: readonly CovariateChoice[]): CovariateChoice['trait'][] {
  return covariates.filter(({ used }) => used).map(({ trait }) => trait);
}

function chanceBy({ logNotSet, logNotSetSoFar }: Predictive, days: number): number {
  return Math.max(0, -Math.expm1(logNotSet(days) - logNotSetSoFar));
}

function coolRoomOf(predictive: Predictive, certainty: number, notSetByDays: number) {
  const exact = predictive.quantile(certainty);
  const days = exact === null ? null : Math.max(1, Math.ceil(exact));
  const chance = days === null ? null : chanceBy(predictive, Math.max(days, notSetByDays));
  return { certainty, days, chance };
}

/** From the last look, or the seeding, on: whole days until it has set as good as certainly. */
function curveOf(predictive: Predictive, notSetByDays: number): SettingOutlook['curve'] {
  const first = Math.floor(notSetByDays) + 1;
  const end = Math.ceil(predictive.quantile(CURVE_ENDS_AT) ?? LATEST_DAYS);
  const step = Math.max(1, Math.ceil((end - first) / (MOST_POINTS - 2)));
  const points = [{ days: notSetByDays, chance: 0 }];
  for (let days = first; days < end + step; days += step) {
    points.push({ days, chance: chanceBy(predictive, days) });
  }
  return points;
}

function countOf(batches: readonly ForecastBatch[]): BatchCount {
  const setCount = batches.filter(({ observation }) => observation.upper !== null).length;
  return { batches: batches.length, setCount };
}
