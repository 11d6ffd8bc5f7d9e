import { interpolate } from './interpolate';
import type { WaterAndTemperature } from './moisture';
import { requireRange } from './require-range';

const TEMPERATURE_C = [2, 21, 49, 71] as const;
const WATER_PERCENT = [15, 17, 19, 21] as const;

/** In 1e-5 cal/cm·s·°C; a row for each water content above, a column for each temperature. */
const TABLE = [
  [123, 129, 137, 143],
  [121, 128, 136, 142],
  [120, 126, 134, 140],
  [118, 125, 132, 138],
] as const;
const W_PER_M_K_OF_TABLE_UNIT = 418.4e-5;

/**
 * How well does honey conduct heat, in W/m·K?
 *
 * Straight lines between the rows and columns of the published table: drier and warmer honey
 * conducts slightly better.
 * Source: table of Helvey 1954 and Detroy (17 % at 21 °C 0.536 and at 71 °C 0.595 read; the other
 * cells from memory, high). For set honey sources disagree, from 0.10–0.22 to 0.50 W/m·K.
 * Range: 15 to 21 % water, 2 to 71 °C. Example: 17 % at 21 °C is 0.536.
 *
 * @throws RangeError outside that range.
 */
export function conductivityWPerMK(honey: WaterAndTemperature): number {
  requireRange('waterPercent', honey.waterPercent, 15, 21);
  requireRange('temperatureC', honey.temperatureC, 2, 71);

  const atTemperature = TABLE.map((row) => interpolate(TEMPERATURE_C, row, honey.temperatureC));
  return interpolate(WATER_PERCENT, atTemperature, honey.waterPercent) * W_PER_M_K_OF_TABLE_UNIT;
}
