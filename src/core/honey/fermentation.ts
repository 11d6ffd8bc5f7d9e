import { liquidPhaseWaterPercent } from './crystals';
import { requireRange } from './require-range';

/**
 * Lochhead 1933, Zbl. Bakt. II 88, 296–302: up to this much water, honey with fewer yeasts per gram than
 * this did not ferment within a year. The bands are printed as 17.1–18.0, 18.1–19.0, 19.1–20.0;
 * what lies between two bands is put into the stricter.
 */
const SAFE_BELOW_COUNT = [
  { upToWaterPercent: 18, yeastPerG: 1000 },
  { upToWaterPercent: 19, yeastPerG: 10 },
  { upToWaterPercent: 20, yeastPerG: 1 },
] as const;
const ALWAYS_SAFE_BELOW_WATER_PERCENT = 17.1;

export type FermentationClass =
  | { kind: 'safe' }
  /** Safe only with fewer yeasts per gram than this. */
  | { kind: 'safe-below-count'; yeastPerG: 1000 | 10 | 1 }
  | { kind: 'always-in-danger' };

/**
 * How liable is honey of this moisture to ferment within a year?
 *
 * Below 17.1 %: safe whatever the yeast count. To 18.0 %: safe below 1000 per g. To 19.0 %: below 10.
 * To 20.0 %: below 1. Above: always in danger. Source: Lochhead 1933, as above; one handbook words the
 * limits as "1000 or less" and "not more than 10": the stricter "below" is taken.
 * Range: 10 to 30 % water. Example: 18.5 % is safe below 10 yeasts per gram.
 *
 * @throws RangeError outside that range.
 */
export function fermentationClass(waterPercent: number): FermentationClass {
  requireRange('waterPercent', waterPercent, 10, 30);
  if (waterPercent < ALWAYS_SAFE_BELOW_WATER_PERCENT) return { kind: 'safe' };
  const band = SAFE_BELOW_COUNT.find(({ upToWaterPercent }) => waterPercent <= upToWaterPercent);
  if (!band) return { kind: 'always-in-danger' };
  return { kind: 'safe-below-count', yeastPerG: band.yeastPerG };
}

export type FermentationRisk = 'safe' | 'count-unknown' | 'in-danger';

/**
 * Will honey of this moisture and yeast count keep for a year? `count-unknown` where it depends on
 * the count and none was made. Source and range: {@link fermentationClass}; counts from 0 per gram.
 * Example: 17.5 % with 200 yeasts per gram is safe.
 *
 * @throws RangeError outside that range.
 */
export function fermentationRisk(honey: {
  waterPercent: number;
  yeastPerG?: number;
}): FermentationRisk {
  const found = fermentationClass(honey.waterPercent);
  if (honey.yeastPerG !== undefined) requireRange('yeastPerG', honey.yeastPerG, 0, Infinity);
  switch (found.kind) {
    case 'safe':
      return 'safe';
    case 'always-in-danger':
      return 'in-danger';
    case 'safe-below-count':
      if (honey.yeastPerG === undefined) return 'count-unknown';
      return honey.yeastPerG < found.yeastPerG ? 'safe' : 'in-danger';
  }
}

/**
 * Water activity of set honey above that of the same honey liquid: 0.03 to 0.04 in most of 50 samples
 * (Shafiq et al. 2014), up to 0.065 in dandelion honey (Venir, Spaziani & Maltini 2010).
 */
export const WATER_ACTIVITY_RISE_ON_SETTING = { from: 0.03, to: 0.04, highest: 0.065 } as const;

/** Yeasts grow neither at 11 °C and below nor, as good as, above 27 °C (honey handbooks). */
export const FERMENTATION_C = { aboveC: 11, upToC: 27 } as const;

export interface FermentationForecast {
  /** Of the honey as it is, evenly moist. */
  before: FermentationRisk;
  /** Of the liquid between the crystals once it has set. */
  afterSetting: FermentationRisk;
  liquidWaterPercent: number;
  /** Setting makes it worse: to be told before the batch is made. */
  worsensOnSetting: boolean;
}

const FROM_GOOD_TO_BAD: readonly FermentationRisk[] = ['safe', 'count-unknown', 'in-danger'];

/**
 * Will this honey keep, now and after it has set?
 *
 * Glucose takes little water into its crystals, so the liquid left is wetter than the honey was. Both
 * moistures are judged by Lochhead's bands, which were found on honeys as they came: for the liquid
 * phase that is the cautious reading.
 * Source: {@link fermentationClass}; crystals.ts (mass balance).
 * Range: 10 to 30 % water; 0 to 25 g of crystals per 100 g once set.
 * Example: 18 % with 15 g of crystals: safe below 1000 yeasts per gram; set, 19.57 %: below 1.
 *
 * @throws RangeError outside that range.
 */
export function fermentationForecast(batch: {
  waterPercent: number;
  crystalPercent: number;
  yeastPerG?: number;
}): FermentationForecast {
  const liquidWaterPercent = liquidPhaseWaterPercent(batch);
  const before = fermentationRisk(batch);
  const afterSetting = fermentationRisk({ ...batch, waterPercent: liquidWaterPercent });
  return {
    before,
    afterSetting,
    liquidWaterPercent,
    worsensOnSetting: FROM_GOOD_TO_BAD.indexOf(afterSetting) > FROM_GOOD_TO_BAD.indexOf(before),
  };
}
