import { conductivityWPerMK } from './conductivity';
import { meltingHeatJPerKg, type MeltingRange } from './crystals';
import { densityAt20CKgPerM3 } from './density';
import { requirePositive, requireRange } from './require-range';
import { specificHeatJPerKgK } from './specific-heat';

/** What warming a honey needs to know of it. Crystals melt evenly over their range. */
export interface HoneyHeat extends MeltingRange {
  conductivityWPerMK: number;
  densityKgPerM3: number;
  /** Without the heat that melts crystals. */
  specificHeatJPerKgK: number;
  /** For all the crystals in a kilogram of honey; 0 for honey without crystals. */
  meltingHeatJPerKg: number;
}

/** The middle of a warming, 12 to 45 °C and back: the table changes by 2 % either way. */
const TYPICAL_C = 30;

/**
 * Thermal properties of a honey from its water and its crystals, each by its own published table.
 *
 * Range: 15 to 21 % water (the conductivity table's), 0 to 25 g of crystals per 100 g. Conductivity
 * is that of clear honey at 30 °C: for set honey the sources disagree by a factor of two and more.
 * Example: 17.4 % water and 15 g of crystals: 0.545 W/m·K, 1418 kg/m³, 2260 J/kg·K, 16,259 J/kg.
 *
 * @throws RangeError outside those ranges.
 */
export function honeyHeat(
  honey: { waterPercent: number; crystalPercent: number } & MeltingRange,
): HoneyHeat {
  const { waterPercent, crystalPercent, meltingFromC, meltingToC } = honey;
  return checkedHoneyHeat({
    conductivityWPerMK: conductivityWPerMK({ waterPercent, temperatureC: TYPICAL_C }),
    densityKgPerM3: densityAt20CKgPerM3(waterPercent),
    specificHeatJPerKgK: specificHeatJPerKgK(waterPercent),
    meltingHeatJPerKg: meltingHeatJPerKg(crystalPercent),
    meltingFromC,
    meltingToC,
  });
}

/** Passes on properties that make sense. @throws RangeError naming the one that does not. */
export function checkedHoneyHeat(honey: HoneyHeat): HoneyHeat {
  requirePositive('conductivityWPerMK', honey.conductivityWPerMK);
  requirePositive('densityKgPerM3', honey.densityKgPerM3);
  requirePositive('specificHeatJPerKgK', honey.specificHeatJPerKgK);
  requireRange('meltingHeatJPerKg', honey.meltingHeatJPerKg, 0, 1e6);
  requireRange('meltingFromC', honey.meltingFromC, -50, 100);
  requireRange('meltingToC', honey.meltingToC, honey.meltingFromC + 0.01, 100);
  return honey;
}
