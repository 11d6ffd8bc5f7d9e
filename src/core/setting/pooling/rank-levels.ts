import { normalQuantile } from '../numerics/normal';
import type { SpeedRatio } from '../regression/speed-ratio';
import { levelEffects, type PooledLevels } from './pool-levels';

export type RankedLevel = {
  level: string;
  n: number;
  setCount: number;
  /** How many times as fast as the mean of the levels. */
  speed: SpeedRatio;
};

export type LevelPair = {
  /** The one that seems the faster, and the other. */
  faster: string;
  slower: string;
  speed: SpeedRatio;
  /** Whether the limits leave out 1. */
  toldApart: boolean;
};

export type LevelRanking = {
  /** The fastest first, as far as the estimates go. */
  levels: RankedLevel[];
  pairs: LevelPair[];
  /** The levels in order where each can be told apart from the next, null where the data cannot rank. */
  order: string[] | null;
};

/**
 * How fast pooled levels set against their mean and each other, and which the data can tell apart:
 * those whose ratio's limits leave out 1. Where neighbours cannot be told apart there is no order.
 *
 * Limits are normal on the logarithm. They are not widened for the number of pairs: pooling already
 * draws chance differences together (A. Gelman, J. Hill and M. Yajima, "Why we (usually) don't have
 * to worry about multiple comparisons", J. Research on Educational Effectiveness 5 (2012)).
 *
 * Works for confidence levels above 0 and below 1. Throws RangeError for others.
 */
export function rankLevels(pooled: PooledLevels, confidenceLevel = 0.95): LevelRanking {
  if (!(confidenceLevel > 0 && confidenceLevel < 1)) {
    throw new RangeError(`confidenceLevel must be above 0 and below 1, got ${confidenceLevel}`);
  }
  const z = normalQuantile((1 + confidenceLevel) / 2);
  const { effects, covariance } = levelEffects(pooled);
  const entry = (r: number, c: number) => covariance[r]?.[c] ?? NaN;
  const speedOf = (logRatio: number, variance: number): SpeedRatio => ({
    ratio: Math.exp(logRatio),
    lower: Math.exp(logRatio - z * Math.sqrt(variance)),
    upper: Math.exp(logRatio + z * Math.sqrt(variance)),
    confidenceLevel,
  });

  const ranked = pooled.levels
    .map((level, r) => ({ ...level, r, effect: effects[r] ?? NaN }))
    .sort((a, b) => a.effect - b.effect);
  const pairs = ranked.flatMap((faster, i) =>
    ranked.slice(i + 1).map((slower): LevelPair => {
      const variance =
        entry(faster.r, faster.r) + entry(slower.r, slower.r) - 2 * entry(faster.r, slower.r);
      const speed = speedOf(slower.effect - faster.effect, variance);
      return { faster: faster.level, slower: slower.level, speed, toldApart: speed.lower > 1 };
    }),
  );
  const neighbours = ranked.slice(1).map((slower, i) => [ranked[i]?.level, slower.level]);
  const allTold = neighbours.every(([faster, slower]) =>
    pairs.some((pair) => pair.faster === faster && pair.slower === slower && pair.toldApart),
  );
  return {
    levels: ranked.map(({ level, n, setCount, r, effect }) => ({
      level,
      n,
      setCount,
      speed: speedOf(-effect, entry(r, r)),
    })),
    pairs,
    order: allTold ? ranked.map(({ level }) => level) : null,
  };
}
