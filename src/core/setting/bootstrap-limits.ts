import type { RandomSource } from '../random';
import { bootstrapStatistic, percentile } from './bootstrap';
import type { SettingObservation } from './observation';
import { quantileDays, quantileInterval } from './quantile-interval';
import type { TurnbullFit } from './turnbull';

/** 95 % limits of a number of days; `upperDays` null: not reached. */
export type DaysLimits = { lowerDays: number; upperDays: number | null };

/** 95 % limits of the share that has not set by some day. */
export type ShareLimits = { lower: number; upper: number };

export type BootstrapLimits = {
  /** One for each of the shares asked for, in their order. */
  quantiles: DaysLimits[];
  /** One for each of the times asked for, in their order. */
  survival: ShareLimits[];
};

const LOWER = 0.025;
const UPPER = 0.975;

/**
 * 95 % limits of by when given shares of batches have set, and of the share not yet set at given times,
 * from the same `replicates` resamples of the batches (see bootstrapStatistic).
 *
 * What a resample leaves open stays in: limits are the 2.5th percentile of the earliest and the 97.5th
 * of the latest that a quantile may be, and likewise of the least and the greatest that a share may be.
 * Limits hold at each point by itself, not for the curve as a whole.
 *
 * Works for shares above 0 and below 1, times from 0 days in rising order, at least one observation and
 * one replicate. Throws RangeError otherwise. Source: B. Efron and R. J. Tibshirani, "An Introduction to
 * the Bootstrap" (1993), chapter 13.
 */
export function bootstrapLimits(
  observations: readonly SettingObservation[],
  asked: { setFractions: readonly number[]; timesDays: readonly number[] },
  { replicates, random }: { replicates: number; random: RandomSource },
): BootstrapLimits {
  const { setFractions, timesDays } = asked;
  timesDays.forEach((time, index) => {
    if (!Number.isFinite(time) || time < (timesDays[index - 1] ?? 0)) {
      throw new RangeError(`timesDays must be days from 0 up in rising order, got ${time}`);
    }
  });
  const resamples = bootstrapStatistic(observations, replicates, random, (fit) => ({
    days: setFractions.map((fraction) => quantileDays(quantileInterval(fit, fraction))),
    shares: sharesNotSet(fit, timesDays),
  }));
  return {
    quantiles: setFractions.map((_, index) => {
      const days = resamples.map((resample) => resample.days[index]);
      const upperDays = percentile(
        days.map((one) => one?.latest ?? Infinity),
        UPPER,
      );
      return {
        lowerDays: percentile(
          days.map((one) => one?.earliest ?? Infinity),
          LOWER,
        ),
        upperDays: Number.isFinite(upperDays) ? upperDays : null,
      };
    }),
    survival: timesDays.map((_, index) => ({
      lower: percentile(
        resamples.map(({ shares }) => shares.least[index] ?? NaN),
        LOWER,
      ),
      upper: percentile(
        resamples.map(({ shares }) => shares.greatest[index] ?? NaN),
        UPPER,
      ),
    })),
  };
}

/** The bounds of survivalAt at each of a rising row of times, in one walk. */
function sharesNotSet({ intervals }: TurnbullFit, timesDays: readonly number[]) {
  const least = new Float64Array(timesDays.length);
  const greatest = new Float64Array(timesDays.length);
  let perhaps = 0;
  let perhapsSet = 0;
  let surely = 0;
  let surelySet = 0;
  timesDays.forEach((time, index) => {
    for (; surely < intervals.length; surely += 1) {
      const interval = intervals[surely];
      if (interval === undefined || interval.right === null || interval.right > time) break;
      surelySet += interval.mass;
    }
    for (; perhaps < intervals.length; perhaps += 1) {
      const interval = intervals[perhaps];
      const isExactlyNow = interval?.left === time && interval.right === time;
      if (interval === undefined || (interval.left >= time && !isExactlyNow)) break;
      perhapsSet += interval.mass;
    }
    least[index] = Math.max(0, 1 - perhapsSet);
    greatest[index] = Math.max(0, 1 - surelySet);
  });
  return { least, greatest };
}
