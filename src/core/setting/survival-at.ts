import type { TurnbullFit } from './turnbull';

/** The share of batches not yet set: the data leave it open between lower and upper. */
export type SurvivalBounds = { lower: number; upper: number };

/**
 * The share of batches that have not set just after `timeDays`.
 *
 * Formula: 1 less the mass that lies at or before the time; mass in an interval that the time cuts
 * in two may lie on either side, so it is in `upper` and not in `lower`. Equal bounds: determined.
 * Works for times from 0 days. Throws RangeError for others.
 */
export function survivalAt(fit: TurnbullFit, timeDays: number): SurvivalBounds {
  if (!Number.isFinite(timeDays) || timeDays < 0) {
    throw new RangeError(`timeDays must be a number of days from 0 up, got ${timeDays}`);
  }
  let surelySet = 0;
  let perhapsSet = 0;
  for (const { left, right, mass } of fit.intervals) {
    const allBefore = right !== null && right <= timeDays;
    if (allBefore) surelySet += mass;
    if (allBefore || left < timeDays) perhapsSet += mass;
  }
  return { lower: Math.max(0, 1 - perhapsSet), upper: Math.max(0, 1 - surelySet) };
}
