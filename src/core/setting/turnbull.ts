import { candidateIntervals } from './candidate-intervals';
import { gatherCovers } from './covers';
import { distinctObservations, type DistinctObservation } from './distinct-observations';
import { maximizeMasses } from './maximize-masses';
import type { SettingObservation } from './observation';
import { productLimitMasses } from './product-limit-masses';

/**
 * A share of batches that set somewhere in (left, right] days after seeding, or exactly at left
 * where right equals left; right null means after left, nobody knows when.
 */
export type MassInterval = { left: number; right: number | null; mass: number };

export type TurnbullFit = {
  method: 'Turnbull maximum-likelihood estimate';
  /** Batches, weights counted. */
  n: number;
  distinctRows: number;
  /** Intervals that could hold mass, whether or not they do. */
  candidateIntervals: number;
  /** Those that do, in order of time. Masses sum to 1; where inside an interval is not determined. */
  intervals: MassInterval[];
  /** Natural logarithm of the likelihood; exact times count as points of mass. */
  logLik: number;
  /** Distance from the maximum (see maximumViolation): 0 but for rounding. */
  kktMaxViolation: number;
};

/**
 * How setting times are distributed, from observations of which most are only intervals, without
 * supposing any shape: the non-parametric maximum-likelihood estimate. Where all times are exact or
 * right-censored it is the Kaplan-Meier estimate.
 *
 * Times in days (any unit works, the answer has the same). Without observations all mass lies in
 * (0, infinity): nothing is known. Times are compared exactly, so times meant to be equal must be
 * equal numbers. Time and memory grow with the square of the number of places that hold mass, so a
 * few thousand distinct exact times mixed with intervals are the practical end. Throws RangeError for an observation that cannot be true.
 *
 * Source: B. W. Turnbull, J. R. Statist. Soc. B 38 (1976); the algorithm: see maximizeMasses.
 */
export function fitTurnbull(observations: readonly SettingObservation[]): TurnbullFit {
  return fitDistinct(distinctObservations(observations));
}

/** As fitTurnbull, for observations already checked and gathered. */
export function fitDistinct(rows: readonly DistinctObservation[]): TurnbullFit {
  if (rows.length === 0) {
    const fit = fitDistinct([{ lower: 0, upper: Infinity, weight: 1 }]);
    return { ...fit, n: 0, distinctRows: 0 };
  }
  const { left, right, first, last } = candidateIntervals(rows);
  const covers = gatherCovers(
    left.length,
    { first, last },
    rows.map((row) => row.weight),
  );

  const maximum = maximizeMasses(covers, productLimitMasses(covers));

  const intervals: MassInterval[] = [];
  maximum.masses.forEach((mass, j) => {
    const [start, end] = [left[j], right[j]];
    if (mass > 0 && start !== undefined && end !== undefined) {
      intervals.push({ left: start, right: end === Infinity ? null : end, mass });
    }
  });
  return {
    method: 'Turnbull maximum-likelihood estimate',
    n: covers.totalWeight,
    distinctRows: rows.length,
    candidateIntervals: left.length,
    intervals,
    logLik: maximum.logLik,
    kktMaxViolation: maximum.kktMaxViolation,
  };
}
