import { checkObservation, observationKind, type SettingObservation } from '../observation';

/** The curve from `time` on, in the observations' unit. */
export type SurvivalStep = {
  time: number;
  /** Batches still setting just before, those that leave at this time included. */
  atRisk: number;
  setCount: number;
  /** Batches last looked at, still setting, at this time. */
  censoredCount: number;
  /** Share not yet set. */
  survival: number;
  /** Greenwood's, of survival; null once survival is 0. */
  standardError: number | null;
  /** Greenwood's, of the logarithm of survival; null once survival is 0. */
  logStandardError: number | null;
  /** Nelson and Aalen's sum of the shares of those at risk that set. */
  cumulativeHazard: number;
};

export type SurvivalCurve = {
  method: 'Kaplan-Meier estimate';
  /** Batches, weights counted. */
  n: number;
  setCount: number;
  /** One for each distinct time, also where batches were only last looked at. */
  steps: SurvivalStep[];
};

/** Times this close, as a share of the mean of the distinct times, are one time written twice. */
const SAME_TIME = Math.sqrt(Number.EPSILON);

/**
 * The share of batches not yet set over time, where times are exact or right-censored.
 *
 * Formula: the product over times of 1 - set / at risk. A batch last looked at when another sets is
 * still at risk. Standard errors by Greenwood: survival^2 x sum of d / (n (n - d)). Times closer
 * than 1.5e-8 of their mean are one time, the earliest of them. Where looks leave intervals, use
 * fitTurnbull: its answer is this one when there are none.
 *
 * Sources: E. L. Kaplan and P. Meier, J. Amer. Statist. Assoc. 53 (1958); M. Greenwood, Reports on
 * Public Health and Medical Subjects 33 (1926); W. Nelson, Technometrics 14 (1972).
 * Works without observations too (no steps). Throws RangeError for an observation that cannot be
 * true, and for one known only to an interval.
 */
export function kaplanMeier(observations: readonly SettingObservation[]): SurvivalCurve {
  const tallies = tallyTimes(observations, mergedTimes([observations]));
  let atRisk = tallies.reduce(
    (sum, { setCount, censoredCount }) => sum + setCount + censoredCount,
    0,
  );
  const curve: SurvivalCurve = {
    method: 'Kaplan-Meier estimate',
    n: atRisk,
    setCount: tallies.reduce((sum, { setCount }) => sum + setCount, 0),
    steps: [],
  };
  let survival = 1;
  let logVariance = 0;
  let cumulativeHazard = 0;
  for (const { time, setCount, censoredCount } of tallies) {
    const staying = atRisk - setCount;
    survival *= staying / atRisk;
    logVariance += setCount / (atRisk * staying);
    cumulativeHazard += setCount / atRisk;
    const logStandardError = survival > 0 ? Math.sqrt(logVariance) : null;
    const standardError = logStandardError === null ? null : survival * logStandardError;
    curve.steps.push({
      time,
      atRisk,
      setCount,
      censoredCount,
      survival,
      standardError,
      logStandardError,
      cumulativeHazard,
    });
    atRisk = staying - censoredCount;
  }
  return curve;
}

export type Tally = { time: number; setCount: number; censoredCount: number };

/** How many batches set, and how many were last looked at, at each of their times. */
export function tallyTimes(
  observations: readonly SettingObservation[],
  oneTime: (time: number) => number,
): Tally[] {
  const tallies = new Map<number, Tally>();
  for (const { lower, upper, weight = 1 } of observations) {
    const time = oneTime(lower);
    const tally = tallies.get(time) ?? { time, setCount: 0, censoredCount: 0 };
    if (upper === null) tally.censoredCount += weight;
    else tally.setCount += weight;
    tallies.set(time, tally);
  }
  return [...tallies.values()].sort((a, b) => a.time - b.time);
}

/**
 * Gives for each time the one that stands for it and those within rounding of it, over all groups.
 * Throws RangeError for an observation that is neither exact nor right-censored.
 */
export function mergedTimes(
  groups: readonly (readonly SettingObservation[])[],
): (time: number) => number {
  const distinct = new Set<number>();
  for (const observation of groups.flat()) {
    checkObservation(observation);
    const kind = observationKind(observation);
    if (kind !== 'exact' && kind !== 'right-censored') {
      throw new RangeError(
        `observations must be exact or right-censored, got one in (${observation.lower}, ${observation.upper}]`,
      );
    }
    distinct.add(observation.lower);
  }
  const times = [...distinct].sort((a, b) => a - b);
  const mean = times.reduce((sum, time) => sum + time, 0) / times.length;
  const standsFor = new Map<number, number>();
  times.forEach((time, i) => {
    const before = times[i - 1];
    const tied = before !== undefined && time - before <= SAME_TIME * mean;
    standsFor.set(time, tied ? (standsFor.get(before) ?? time) : time);
  });
  return (time) => standsFor.get(time) ?? time;
}
