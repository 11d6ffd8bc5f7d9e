import { requireRange } from './require-range';

/** Helvey 1954: 0.54 cal/g·°C for 17.4 % water at 20 °C. */
const HELVEY_J_PER_KG_K = 2260;
const HELVEY_WATER_PERCENT = 17.4;

const WATER_J_PER_KG_K = 4182;
const DRY_MATTER_J_PER_KG_K =
  (HELVEY_J_PER_KG_K - (WATER_J_PER_KG_K * HELVEY_WATER_PERCENT) / 100) /
  (1 - HELVEY_WATER_PERCENT / 100);

const RANGE_PERCENT = { lowest: 13, highest: 21 } as const;

/**
 * How much heat warms a kilogram of clear honey by one degree, in J/kg·K?
 *
 * Water and dry matter by mass, the dry matter's share chosen so that 17.4 % water gives Helvey's
 * value. No change with temperature: the coefficient in circulation is not well enough founded.
 * Source: Helvey 1954 (0.54 cal/g·°C); water 4182 J/kg·K at 20 °C.
 * Sources disagree: one handbook gives 0.57 cal/g·°C (2385 J/kg·K) at 17 %, six per cent more.
 * The heat that melts crystals comes on top: see crystals.ts.
 * Range: 13 to 21 % water, meant for 20 to 50 °C. Example: 17.4 % is 2260 J/kg·K.
 *
 * @throws RangeError outside that range.
 */
export function specificHeatJPerKgK(waterPercent: number): number {
  requireRange('waterPercent', waterPercent, RANGE_PERCENT.lowest, RANGE_PERCENT.highest);
  const waterFraction = waterPercent / 100;
  return WATER_J_PER_KG_K * waterFraction + DRY_MATTER_J_PER_KG_K * (1 - waterFraction);
}
