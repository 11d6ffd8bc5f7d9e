import type { SurvivalCurve } from './kaplan-meier';
import { survivalLimits, type LimitScale } from './survival-limits';

/** A time by which a share has set, with its limits; null: not reached. */
export type SurvivalQuantile = { time: number | null; lower: number | null; upper: number | null };

const ROUNDING = Math.sqrt(Number.EPSILON);

/**
 * By when the share `setFraction` of batches has set, with confidence limits.
 *
 * The first time at which less than 1 - setFraction is not yet set. Where exactly that much holds for
 * a while (to 1.5e-8), the middle of that while; its start when it holds to the end. The limits are
 * the same rule applied to the limits of the curve: R. Brookmeyer and J. Crowley, "A confidence
 * interval for the median survival time", Biometrics 38 (1982).
 *
 * Works for setFraction and level above 0 and below 1. Throws RangeError for others.
 */
export function survivalQuantile(
  curve: SurvivalCurve,
  setFraction: number,
  limits: { confidenceLevel: number; scale: LimitScale },
): SurvivalQuantile {
  if (!(setFraction > 0 && setFraction < 1)) {
    throw new RangeError(`setFraction must be above 0 and below 1, got ${setFraction}`);
  }
  const times = curve.steps.map(({ time }) => time);
  const { lower, upper } = survivalLimits(curve, limits);
  const reached = (shares: readonly (number | null)[]) =>
    whenReached(times, shares, 1 - setFraction);
  return {
    time: reached(curve.steps.map(({ survival }) => survival)),
    lower: reached(lower),
    upper: reached(upper),
  };
}

function whenReached(
  times: readonly number[],
  shares: readonly (number | null)[],
  left: number,
): number | null {
  const first = shares.findIndex((share) => share !== null && share <= left + ROUNDING);
  const start = times[first];
  if (start === undefined) return null;
  const below = shares.findIndex((share) => share !== null && share < left - ROUNDING);
  return (start + (times[below] ?? start)) / 2;
}
