import { requireRange } from './require-range';

/** Venir, Spaziani & Maltini 2010: 108.39 ± 6.16 J/g, crystals isolated from dandelion honey. */
export const MELTING_ENTHALPY_J_PER_KG = 108_390;

/** Water in a crystal of glucose monohydrate: 18.015 of 198.17 by mass. */
export const CRYSTAL_WATER_PERCENT = (100 * 18.015) / 198.17;

/** The most crystals a set honey is taken to hold, g per 100 g (rape, dandelion; from memory). */
export const MOST_CRYSTALS_PERCENT = 25;

/** Temperatures between which crystals melt. */
export interface MeltingRange {
  meltingFromC: number;
  meltingToC: number;
}

/**
 * Melting ranges by grain. Source: Lupano 1997: crystals grown at −20 °C (fine) 25 to 45 °C, grown at
 * 20 °C (coarse) 45 to 65 °C.
 */
export const MELTING_RANGE_BY_GRAIN = {
  fine: { meltingFromC: 25, meltingToC: 45 },
  coarse: { meltingFromC: 45, meltingToC: 65 },
} as const satisfies Record<string, MeltingRange>;

/**
 * How much heat does melting all crystals of a honey take, in J per kg of honey?
 *
 * Crystals in the honey times 108.39 J/g. Source: Venir, Spaziani & Maltini 2010.
 * Range: 0 to 25 g of crystals per 100 g. Example: 15 g per 100 g takes 16,259 J/kg.
 *
 * @throws RangeError outside that range.
 */
export function meltingHeatJPerKg(crystalPercent: number): number {
  requireRange('crystalPercent', crystalPercent, 0, MOST_CRYSTALS_PERCENT);
  return (crystalPercent / 100) * MELTING_ENTHALPY_J_PER_KG;
}

/**
 * What share of the crystals has melted once the honey has been at this temperature?
 *
 * None at the lower end of the range, all at the upper, evenly between: the source gives the two
 * ends only. Time to dissolve is not counted. Any finite temperature will do.
 *
 * @throws RangeError if the temperature is not finite or the range does not rise.
 */
export function meltedFraction(temperatureC: number, range: MeltingRange): number {
  requireRange('temperatureC', temperatureC, -Infinity, Infinity);
  requireRange('meltingToC', range.meltingToC, range.meltingFromC + 0.01, Infinity);
  const share = (temperatureC - range.meltingFromC) / (range.meltingToC - range.meltingFromC);
  return Math.min(1, Math.max(0, share));
}

/**
 * How wet is the liquid left between the crystals of a set honey, in %?
 *
 * Glucose leaves as monohydrate with only 9.09 % water, so (water − 9.09 % of the crystals) is shared
 * by what is not crystal: (W − 9.09·x/100) / (1 − x/100). A mass balance.
 * Range: 10 to 30 % water, 0 to 25 g of crystals per 100 g. Example: 18 % with 15 g is 19.57 %.
 *
 * @throws RangeError outside that range.
 */
export function liquidPhaseWaterPercent(honey: {
  waterPercent: number;
  crystalPercent: number;
}): number {
  const waterPercent = requireRange('waterPercent', honey.waterPercent, 10, 30);
  requireRange('crystalPercent', honey.crystalPercent, 0, MOST_CRYSTALS_PERCENT);
  const crystalFraction = honey.crystalPercent / 100;
  return (waterPercent - CRYSTAL_WATER_PERCENT * crystalFraction) / (1 - crystalFraction);
}
