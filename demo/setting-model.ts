import type { SourceName } from './records';

/**
 * How fast the demo's honeys set. INVENTED: no number here was measured, and none may be used for real honey. Only the shape follows
 * what is known: each source has its own pace, setting is fastest near 14 °C and slower on both sides, more seed makes it faster, and
 * batches of one kind differ. The days until a batch has set are log-logistic, with
 *
 *   median = days of the source at 14 °C with 10 % seed
 *          × exp(((temperature − 14 °C) / 6 °C)²)
 *          × √(10 % / seed percent)
 */

const optimumC = 14;
const toleranceC = 6;
const usualSeedPercent = 10;
/** The larger, the less do batches of one kind differ. */
const alikeness = 6;

/** Days by which half of the batches have set, at 14 °C with 10 % seed. Robinia outlasts everybody who looks. */
export const medianDaysAt14C: Record<SourceName, number> = {
  'oilseed rape': 5,
  dandelion: 7,
  sunflower: 8,
  'fruit blossom': 10,
  phacelia: 11,
  'white clover': 12,
  lime: 16,
  heather: 23,
  'sweet chestnut': 29,
  robinia: 400,
};

export interface Setting {
  /** Mass fractions; they add up to 1. A mixture's pace lies between those of its parts (geometric mean). */
  honey: { source: SourceName; fraction: number }[];
  temperatureC: number;
  /** Mass of seed per mass of honey, in percent. */
  seedPercent: number;
}

/** Days by which half of such batches have set. Works for seed above 0 and temperatures from -30 to 60 °C; throws RangeError otherwise. */
export function medianSettingDays({ honey, temperatureC, seedPercent }: Setting): number {
  if (!Number.isFinite(temperatureC) || temperatureC < -30 || temperatureC > 60) {
    throw new RangeError(`temperatureC must be from -30 to 60, got ${temperatureC}`);
  }
  if (!Number.isFinite(seedPercent) || seedPercent <= 0) {
    throw new RangeError(`seedPercent must be above 0, got ${seedPercent}`);
  }
  const logDays = honey.reduce(
    (sum, { source, fraction }) => sum + fraction * Math.log(medianDaysAt14C[source]),
    0,
  );
  const cold = Math.exp(((temperatureC - optimumC) / toleranceC) ** 2);
  return Math.exp(logDays) * cold * Math.sqrt(usualSeedPercent / seedPercent);
}

/** Days until one batch has set, of those with that median. `luck`, above 0 and below 1, is the share of them that set before it. */
export function settingDays(medianDays: number, luck: number): number {
  if (!Number.isFinite(luck) || luck <= 0 || luck >= 1) {
    throw new RangeError(`luck must be above 0 and below 1, got ${luck}`);
  }
  return medianDays * (luck / (1 - luck)) ** (1 / alikeness);
}

/** The cool room's temperature over the year, invented like the rest: coolest in the middle of January, warmest in that of July. */
export function coolRoomC(time: Date): number {
  const newYear = Date.UTC(time.getUTCFullYear(), 0, 1);
  const yearFraction = (time.getTime() - newYear) / (365.25 * 86_400_000);
  return 13 - 2.2 * Math.cos(2 * Math.PI * (yearFraction - 15 / 365));
}

/** What the cabinet is set to when it cools. */
export const cabinetC = 14;
