/** Temperatures from `fromC` up to, not including, `toC`. */
export type TemperatureBand = { fromC: number; toC: number };

const WIDTH_C = 2;

/**
 * The band of two degrees, from an even number up, in which a temperature lies: 13.2 °C lies in 12 to
 * 14 °C, and so does 12 °C. Two degrees are about as far apart as the corners of one cool room
 * (common practice, no source). Works for finite temperatures. Throws RangeError for others.
 */
export function temperatureBand(temperatureC: number): TemperatureBand {
  if (!Number.isFinite(temperatureC)) {
    throw new RangeError(`temperatureC must be a finite number, got ${temperatureC}`);
  }
  // Adding 0 makes a nought of a negative one.
  const fromC = Math.floor(temperatureC / WIDTH_C) * WIDTH_C + 0;
  return { fromC, toC: fromC + WIDTH_C };
}
