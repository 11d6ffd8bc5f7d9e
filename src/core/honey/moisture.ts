import { requireRange } from './require-range';

/**
 * Wedmore's straight line between log10(n − 1) and water, n being the refractive index at 20 °C.
 * Copies that print 1.73190 in place of −0.2681 mean the logarithm of 100·(n − 1).
 */
const WEDMORE_CONSTANT = -0.2681;
const WEDMORE_DIVISOR = 0.002243;

/** Refractive index that honey loses for each °C it is warmer. */
const INDEX_PER_C = 0.00023;
const TABLE_TEMPERATURE_C = 20;

/** Ends of the published table: 25.0 % and 13.0 % water at 20 °C. */
const TABLE_INDEX = { lowest: 1.474, highest: 1.5044 } as const;

/**
 * The source gives the correction without limits; these are the temperatures at which honey is
 * read in practice, near enough to 20 °C for a straight line.
 */
const READING_C = { lowest: 10, highest: 40 } as const;

/** Water the table covers, as the equation gives it at the table's two ends. */
export const MOISTURE_RANGE_PERCENT = { lowest: 13, highest: 25 } as const;

export interface RefractometerReading {
  /** As read, without correction (a reading already corrected to 20 °C has temperatureC 20). */
  refractiveIndex: number;
  /** Of the honey on the prism, 10 to 40. */
  temperatureC: number;
}

/**
 * How much water is in a honey, from a refractometer reading?
 *
 * The reading is brought to 20 °C (0.00023 added per °C above, taken off per °C below), then
 * water = (−0.2681 − log10(n − 1)) / 0.002243 in g per 100 g.
 * Source: Chataway 1932 (data); Wedmore 1955 (equation); AOAC 969.38 and the International Honey
 * Commission's harmonised methods (correction); table in Bogdanov, Book of Honey, ch. 4.
 * Range: an index of 1.4740 to 1.5044 once brought to 20 °C, that is 25.0 to 13.0 % water; honey
 * at 10 to 40 °C. The equation follows the table within 0.03 % water.
 * Set honey must be made clear (50 °C, in a closed vessel) and cooled before it is read.
 * Example: 1.4900 read at 25 °C is 1.49115 at 20 °C, 18.14 % water.
 *
 * @throws RangeError outside those ranges.
 */
export function moistureFromRefractiveIndex(reading: RefractometerReading): number {
  const temperatureC = requireRange(
    'temperatureC',
    reading.temperatureC,
    READING_C.lowest,
    READING_C.highest,
  );
  const correction = INDEX_PER_C * (temperatureC - TABLE_TEMPERATURE_C);
  const lowest = round(TABLE_INDEX.lowest - correction);
  const highest = round(TABLE_INDEX.highest - correction);
  requireRange('refractiveIndex', reading.refractiveIndex, lowest, highest);

  const indexAt20C = reading.refractiveIndex + correction;
  return (WEDMORE_CONSTANT - Math.log10(indexAt20C - 1)) / WEDMORE_DIVISOR;
}

export interface WaterAndTemperature {
  waterPercent: number;
  temperatureC: number;
}

/**
 * What should a refractometer show for a honey of known water? The inverse of
 * {@link moistureFromRefractiveIndex}: n = 1 + 10^(−0.2681 − 0.002243 · water), less 0.00023 per
 * °C above 20 °C. Same sources. Range: 13 to 25 % water, 10 to 40 °C.
 * Example: 18 % at 20 °C shows 1.4915.
 *
 * @throws RangeError outside those ranges.
 */
export function refractiveIndexFromMoisture(honey: WaterAndTemperature): number {
  const { lowest, highest } = MOISTURE_RANGE_PERCENT;
  const waterPercent = requireRange('waterPercent', honey.waterPercent, lowest, highest);
  requireRange('temperatureC', honey.temperatureC, READING_C.lowest, READING_C.highest);

  const indexAt20C = 1 + 10 ** (WEDMORE_CONSTANT - WEDMORE_DIVISOR * waterPercent);
  return indexAt20C - INDEX_PER_C * (honey.temperatureC - TABLE_TEMPERATURE_C);
}

/** Seven decimals, more than any instrument shows: a table's own end must not fail by rounding. */
function round(index: number): number {
  return Math.round(index * 1e7) / 1e7;
}
