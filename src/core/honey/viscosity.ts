import { interpolate } from './interpolate';
import type { WaterAndTemperature } from './moisture';
import { requireRange } from './require-range';

/** Clover honey of 16 % water. */
const TEMPERATURE_C = [14, 20, 25, 30, 40, 50, 70] as const;
const POISE_AT_16_PERCENT = [600, 190, 90, 65, 20, 10, 3] as const;

/** White clover honey at 25 °C. */
const WATER_PERCENT = [13.7, 14.2, 15.5, 17.1, 18.2, 19.1, 20.2, 21.5] as const;
const POISE_AT_25C = [420, 269, 138, 69, 48.1, 34.9, 20.4, 13.6] as const;

const REFERENCE_WATER_PERCENT = 16;
const PA_S_PER_POISE = 0.1;

const logarithms = (values: readonly number[]) => values.map((value) => Math.log(value));
const LOG_AT_16_PERCENT = logarithms(POISE_AT_16_PERCENT);
const LOG_AT_25C = logarithms(POISE_AT_25C);
const LOG_AT_REFERENCE = interpolate(WATER_PERCENT, LOG_AT_25C, REFERENCE_WATER_PERCENT);

/**
 * How thick is clear honey, in Pa·s?
 *
 * The temperature series at 16 % water, times the ratio by which the moisture series at 25 °C says
 * that honey of this moisture is thicker or thinner than at 16 %; straight lines between the
 * published points, in the logarithm.
 * Source: Munro 1943 (16 %: rounded points read; at 25 °C: 13.7 % 420 poise read, the others from
 * memory, high). Where the two series meet (16 %, 25 °C) they differ by a fifth: 90 and 111 poise.
 * Count on a quarter either way, and on more for honeys that gel (heather, manuka).
 * Range: 13.7 to 21.5 % water, 14 to 70 °C. Example: 16 % at 40 °C is 2.0 Pa·s.
 *
 * @throws RangeError outside that range.
 */
export function viscosityPaS(honey: WaterAndTemperature): number {
  requireRange('waterPercent', honey.waterPercent, 13.7, 21.5);
  requireRange('temperatureC', honey.temperatureC, 14, 70);

  const atReference = interpolate(TEMPERATURE_C, LOG_AT_16_PERCENT, honey.temperatureC);
  const ratio = interpolate(WATER_PERCENT, LOG_AT_25C, honey.waterPercent) - LOG_AT_REFERENCE;
  return Math.exp(atReference + ratio) * PA_S_PER_POISE;
}
