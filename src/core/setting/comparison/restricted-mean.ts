import type { SurvivalCurve } from './kaplan-meier';

/** The mean time within a horizon; a batch not set by then counts with the horizon. */
export type RestrictedMean = { horizon: number; mean: number; standardError: number };

/**
 * How long batches take on average when one waits no longer than `horizon`.
 *
 * Formula: the area under the survival curve up to the horizon; its variance the sum over times of
 * (area after the time)^2 x d / (n (n - d)). Source: J. P. Klein and M. L. Moeschberger, "Survival
 * Analysis" (2003), section 4.5. Beyond the last step the curve stays as it is.
 *
 * Works for finite horizons above 0. Throws RangeError for others.
 */
export function restrictedMean({ steps }: SurvivalCurve, horizon: number): RestrictedMean {
  if (!(Number.isFinite(horizon) && horizon > 0)) {
    throw new RangeError(`horizon must be a number above 0, got ${horizon}`);
  }
  let mean = 0;
  let variance = 0;
  let end = horizon;
  for (const { time, atRisk, setCount, survival } of steps.toReversed()) {
    if (time >= horizon) continue;
    mean += survival * (end - time);
    const staying = atRisk - setCount;
    if (staying > 0) variance += (mean * mean * setCount) / (atRisk * staying);
    end = time;
  }
  return { horizon, mean: mean + end, standardError: Math.sqrt(variance) };
}
