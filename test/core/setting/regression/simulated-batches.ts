import { seededRandom, type RandomSource } from '../../../../src/core/random';
import type { SettingObservation } from '../../../../src/core/setting/observation';
import type { Distribution } from '../../../../src/core/setting/regression/error-law';
import { errorLaw } from '../../../../src/core/setting/regression/error-laws';

/** A time drawn from a regression's law. */
export function drawnTime(
  random: RandomSource,
  distribution: Distribution,
  linearPredictor: number,
  scale: number,
): number {
  return Math.exp(linearPredictor + scale * errorLaw(distribution).quantile(random()));
}

/**
 * What looks every one to four days, from a day of their own on and given up at `lastDay`, tell of
 * a batch that sets at `time`.
 */
export function lookedAt(random: RandomSource, time: number, lastDay: number): SettingObservation {
  const gap = 1 + Math.floor(4 * random());
  let lower = 0;
  for (let day = 1 + Math.floor(gap * random()); day <= lastDay; day += gap) {
    if (day >= time) return { lower, upper: day };
    lower = day;
  }
  return { lower, upper: null };
}

/** Batches of some sources, in turn, with a seed share of 3 to 15 %, looked at as a club does. */
export function simulatedClub(options: {
  seed: number;
  batches: number;
  distribution: Distribution;
  scale: number;
  sources: Readonly<Record<string, number>>;
  perPercentSeed: number;
  lastDay: number;
}) {
  const { seed, batches, distribution, scale, sources, perPercentSeed, lastDay } = options;
  const random = seededRandom(seed);
  const names = Object.keys(sources);
  const rows = Array.from({ length: batches }, (_, i) => {
    const source = names[i % names.length]!;
    const seedPercent = 3 + 12 * random();
    const linear = Math.log(sources[source]!) + perPercentSeed * (seedPercent - 8);
    const time = drawnTime(random, distribution, linear, scale);
    return { source, seedPercent, time, seen: lookedAt(random, time, lastDay) };
  });
  return {
    rows,
    data: {
      observations: rows.map(({ seen }) => seen),
      covariates: [
        {
          kind: 'factor' as const,
          name: 'source',
          levels: names,
          values: rows.map(({ source }) => source),
        },
        {
          kind: 'numeric' as const,
          name: 'seedPercent',
          values: rows.map(({ seedPercent }) => seedPercent),
        },
      ],
    },
  };
}
