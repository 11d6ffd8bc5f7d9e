import { interpolate } from './interpolate';
import { requireRange } from './require-range';

const WATER_PERCENT = [13, 14, 15, 16, 17, 18, 18.6, 19, 20, 21] as const;
const SPECIFIC_GRAVITY_20_20 = [
  1.4457, 1.4404, 1.435, 1.4295, 1.4237, 1.4171, 1.4129, 1.4101, 1.4027, 1.395,
] as const;
const WATER_AT_20C_KG_PER_M3 = 998.2;
const RANGE_PERCENT = { lowest: 13, highest: 21 } as const;

/**
 * How many times as heavy as water is honey of this moisture, both at 20 °C?
 *
 * Straight lines between the rows of the published table.
 * Source: the White, USDA and Bogdanov table of specific gravity 20/20 °C (18 % 1.4171 and 17 %
 * 1.423 read; the other rows from memory, high). The much copied "15 % is 1.423" is wrong: 1.4350.
 * Range: 13 to 21 % water. Example: 18 % is 1.4171.
 *
 * @throws RangeError outside that range.
 */
export function specificGravityAt20C(waterPercent: number): number {
  requireRange('waterPercent', waterPercent, RANGE_PERCENT.lowest, RANGE_PERCENT.highest);
  return interpolate(WATER_PERCENT, SPECIFIC_GRAVITY_20_20, waterPercent);
}

/**
 * How much does a cubic metre of honey of this moisture weigh, in kg, at 20 °C?
 *
 * Specific gravity times 998.2 kg/m³, the density of water at 20 °C. Warm honey is a little lighter;
 * no figure good enough to compute with was found, so none is used.
 * Source and range (13 to 21 % water) of {@link specificGravityAt20C}. Example: 18 % is 1415 kg/m³.
 *
 * @throws RangeError outside that range.
 */
export function densityAt20CKgPerM3(waterPercent: number): number {
  return specificGravityAt20C(waterPercent) * WATER_AT_20C_KG_PER_M3;
}
