import { requireRange } from './require-range';

export interface Composition {
  glucosePercent: number;
  fructosePercent: number;
  waterPercent: number;
}

export type Readiness = 'fast' | 'medium' | 'slow';

export interface SettingForecast {
  glucoseToWater: number;
  fructoseToGlucose: number;
  /** (glucose − water) / fructose. */
  surplusGlucose: number;
  /** By glucose over water, the measure most sources agree on. */
  readiness: Readiness;
  byGlucose: Readiness;
  /** Undefined between the published thresholds. */
  byFructoseToGlucose: 'fast' | 'slow' | undefined;
  /**
   * `yes` if glucose over water is above 2.1 or the surplus above 0.42; `doubtful` if glucose over
   * water is below 1.70 (stays liquid long: not for creaming without a trial); else `in time`.
   */
  willSet: 'yes' | 'in time' | 'doubtful';
  /** The measures do not agree: trust a trial more than this. */
  measuresDisagree: boolean;
}

/** Manikis & Thrasyvoulou 2001; White et al. 1962. */
const GLUCOSE_TO_WATER = { slowBelow: 1.7, fastAbove: 2.1 } as const;
/** Manikis & Thrasyvoulou 2001, g per 100 g. */
const GLUCOSE_PERCENT = { slowBelow: 29, fastAbove: 35 } as const;
/** From memory (medium). */
const FRUCTOSE_TO_GLUCOSE = { fastBelow: 1.11, slowAbove: 1.33 } as const;
const SURPLUS_SETS_ABOVE = 0.42;

/**
 * Will this honey set at all, and how readily?
 *
 * Glucose over water: below 1.70 slow, above 2.1 fast, between them medium. Beside it glucose alone
 * (below 29 % slow, above 35 % fast), fructose over glucose (below 1.11 fast, above 1.33 slow) and
 * (glucose − water) / fructose (above 0.42 it sets).
 * Source: White et al. 1962; Manikis & Thrasyvoulou 2001 (thresholds); F/G from memory.
 * The measures are rules of thumb and often disagree; seed speeds up each class, it changes none.
 * Range: glucose 10 to 60, fructose 15 to 60, water 10 to 30 %.
 * Example: glucose 36, fructose 38, water 16 %: G/W 2.25, fast, will set.
 *
 * @throws RangeError outside that range.
 */
export function settingForecast(honey: Composition): SettingForecast {
  const glucose = requireRange('glucosePercent', honey.glucosePercent, 10, 60);
  const fructose = requireRange('fructosePercent', honey.fructosePercent, 15, 60);
  const water = requireRange('waterPercent', honey.waterPercent, 10, 30);

  const glucoseToWater = glucose / water;
  const fructoseToGlucose = fructose / glucose;
  const surplusGlucose = (glucose - water) / fructose;
  const readiness = banded(glucoseToWater, GLUCOSE_TO_WATER);
  const byGlucose = banded(glucose, GLUCOSE_PERCENT);
  const byFructoseToGlucose =
    fructoseToGlucose < FRUCTOSE_TO_GLUCOSE.fastBelow
      ? 'fast'
      : fructoseToGlucose > FRUCTOSE_TO_GLUCOSE.slowAbove
        ? 'slow'
        : undefined;
  const voices: Readiness[] = [readiness, byGlucose, byFructoseToGlucose ?? 'medium'];
  const sets = readiness === 'fast' || surplusGlucose > SURPLUS_SETS_ABOVE;
  return {
    glucoseToWater,
    fructoseToGlucose,
    surplusGlucose,
    readiness,
    byGlucose,
    byFructoseToGlucose,
    willSet: sets ? 'yes' : readiness === 'slow' ? 'doubtful' : 'in time',
    measuresDisagree: voices.includes('fast') && voices.includes('slow'),
  };
}

function banded(value: number, band: { slowBelow: number; fastAbove: number }): Readiness {
  if (value < band.slowBelow) return 'slow';
  return value > band.fastAbove ? 'fast' : 'medium';
}
