import { requireRange } from './require-range';

/**
 * Half-width, in standard errors, of a two-sided 95 % interval: Student's t for these degrees of freedom.
 *
 * Cornish–Fisher expansion about the normal quantile z = 1.959964 in powers of 1/degrees of freedom.
 * Source: Abramowitz & Stegun 1964, 26.7.5. Within 0.00002 from 9 degrees of freedom upwards.
 * Range: 9 upwards. Example: 10 degrees of freedom, 2.228.
 *
 * @throws RangeError outside that range.
 */
export function studentT95(degreesOfFreedom: number): number {
  const n = requireRange('degreesOfFreedom', degreesOfFreedom, 9, Infinity);
  const z = 1.959963985;
  const first = (z ** 3 + z) / 4;
  const second = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96;
  const third = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384;
  const fourth = (79 * z ** 9 + 776 * z ** 7 + 1482 * z ** 5 - 1920 * z ** 3 - 945 * z) / 92_160;
  return z + first / n + second / n ** 2 + third / n ** 3 + fourth / n ** 4;
}
