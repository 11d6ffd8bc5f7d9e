import { interpolate } from './interpolate';
import { requireRange } from './require-range';

const ZERO_C_IN_K = 273.15;
const HOURS_PER_DAY = 24;
const DAYS_PER_YEAR = 365.25;
const BAND_GAIN_MG_PER_KG = 30;

/** Temperatures of the published waiting times. */
export const HMF_RANGE_C = { lowest: 10, highest: 80 } as const;

/**
 * Hours until a honey has gained 30 mg/kg, at every 10 °C: the longest and the shortest of all
 * published bands, and one time that lies in each band of the two fuller sources.
 */
const HOURS_TO_GAIN_30 = [
  { atC: 10, longest: years(30), likely: years(27.4), shortest: years(25) },
  { atC: 20, longest: days(800), likely: days(692.8), shortest: days(300) },
  { atC: 30, longest: days(300), likely: days(193.6), shortest: days(60) },
  { atC: 40, longest: days(50), likely: days(31.62), shortest: days(20) },
  { atC: 50, longest: days(10), likely: days(6.325), shortest: days(4) },
  { atC: 60, longest: days(2.5), likely: days(1.581), shortest: days(1) },
  { atC: 70, longest: 15, likely: 5, shortest: 3 },
  { atC: 80, longest: 2, likely: 0.577, shortest: 0.5 },
] as const;

const COLDNESS = HOURS_TO_GAIN_30.map(({ atC }) => coldness(atC));
const LOGARITHMS = {
  most: HOURS_TO_GAIN_30.map(({ shortest }) => Math.log(BAND_GAIN_MG_PER_KG / shortest)),
  likely: HOURS_TO_GAIN_30.map(({ likely }) => Math.log(BAND_GAIN_MG_PER_KG / likely)),
  least: HOURS_TO_GAIN_30.map(({ longest }) => Math.log(BAND_GAIN_MG_PER_KG / longest)),
} as const;

/** Honeys differ widely: the slowest published, a likely one (mind the rest), the fastest published. */
export type HmfPace = keyof typeof LOGARITHMS;

/**
 * How fast does honey of this temperature form HMF, in mg/kg per hour?
 *
 * Zero order (no slackening as it gathers): 30 mg/kg over the published waiting time, straight lines
 * between the published temperatures in ln rate against 1/T. `likely` is the geometric mean of the
 * band, and at 70 °C the one time that both sources allow.
 * Source: White et al. in the Manual of Beekeeping (30 to 80 °C), an adviser of the Danish Beekeepers'
 * Association (10 to 80 °C), a UK club table (20, 30, 70 °C). The bands differ by a factor of up to 5
 * between sources; low-acid honeys are slower still. Never take one number for the truth.
 * Range: 10 to 80 °C. Example: at 40 °C likely 0.0395 mg/kg per hour, 1.9 in two days.
 *
 * @throws RangeError outside that range.
 */
export function hmfGainPerHour(temperatureC: number, pace: HmfPace): number {
  requireRange('temperatureC', temperatureC, HMF_RANGE_C.lowest, HMF_RANGE_C.highest);
  return Math.exp(interpolate(COLDNESS, LOGARITHMS[pace], coldness(temperatureC)));
}

/** −1/T, rising with temperature as the interpolation wants it. */
function coldness(temperatureC: number): number {
  return -1 / (temperatureC + ZERO_C_IN_K);
}

function days(count: number): number {
  return count * HOURS_PER_DAY;
}

function years(count: number): number {
  return days(count * DAYS_PER_YEAR);
}
