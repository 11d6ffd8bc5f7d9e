import { seededRandom, type RandomSource } from '../../../../src/core/random';
import type {
  BatchTraits,
  ForecastBatch,
  ForecastProfile,
  SeedGrain,
} from '../../../../src/core/setting/forecast/forecast-batch';
import { normalQuantile } from '../../../../src/core/setting/numerics/normal';
import type { Distribution } from '../../../../src/core/setting/regression/error-law';
import { errorLaw } from '../../../../src/core/setting/regression/error-laws';
import { lookedAt } from '../regression/simulated-batches';

export type SimulatedBatch = {
  profile: ForecastProfile;
  /** When such a share of the batches like it has set. */
  daysAt: (share: number) => number;
};

/** A club whose batches are as they might be, and a source of further batches of the same club. */
export type SimulatedClub = {
  batches: ForecastBatch[];
  draw: () => SimulatedBatch;
  random: RandomSource;
};

const DISTRIBUTIONS: readonly Distribution[] = ['weibull', 'lognormal', 'loglogistic'];
const GRAINS: readonly SeedGrain[] = ['fine', 'medium', 'coarse'];

/**
 * A club drawn by chance: any of the three laws; half of its batches set within 8 to 26 days; batches
 * that are alike spread by 15 to 50 %; one to five floral sources, some seldom worked, of which half of the clubs' hardly differ;
 * warmth, seed, grain, moisture and age with or without an effect, on record or not. One batch in ten is given up
 * before it has set, one in ten still stands.
 */
export function drawnClub(seed: number, size: number): SimulatedClub {
  const random = seededRandom(seed);
  const between = (from: number, to: number) => from + (to - from) * random();
  const normal = (deviation: number) => deviation * normalQuantile(random());
  const pick = <Of>(of: readonly Of[]) => of[Math.floor(random() * of.length)] as Of;

  const distribution = pick(DISTRIBUTIONS);
  const law = errorLaw(distribution);
  const scale = between(0.15, 0.5) / law.standardDeviation;
  const logMedian = between(Math.log(8), Math.log(26));
  const betweenSources = between(0, 0.5);
  const sources = Array.from({ length: 1 + Math.floor(5 * random()) }, (_, i) => ({
    name: i === 4 ? null : `source ${i}`,
    effect: normal(betweenSources),
    share: random() ** 2 + 0.05,
  }));
  const shares = sources.reduce((sum, { share }) => sum + share, 0);
  const effects = {
    temperatureC: random() < 0.5 ? 0 : between(-0.06, 0.06),
    seedPercent: random() < 0.3 ? 0 : between(-0.5, 0),
    coarser: random() < 0.5 ? 0 : between(0, 0.3),
    moisturePercent: random() < 0.5 ? 0 : between(-0.05, 0.15),
  };
  // What a club writes down at all it writes down of most batches.
  const [warmth, share, grain, water, age] = [0, 0, 0, 0, 0].map(() => random() < 0.6);
  const noted = <Value>(kept: boolean | undefined, value: Value) =>
    kept === true && random() < 0.9 ? value : null;

  const draw = (): SimulatedBatch => {
    let left = random() * shares;
    const source = sources.find(({ share }) => (left -= share) < 0) ?? sources[0]!;
    const traits = {
      temperatureC: 14 + normal(2),
      seedPercent: between(4, 15),
      seedGrain: pick(GRAINS),
      moisturePercent: 17 + normal(0.8),
      honeyAgeDays: between(5, 200),
    };
    const linear =
      logMedian +
      source.effect +
      effects.temperatureC * (traits.temperatureC - 14) +
      effects.seedPercent * Math.log(traits.seedPercent / 9) +
      effects.coarser * (GRAINS.indexOf(traits.seedGrain) - 1) +
      effects.moisturePercent * (traits.moisturePercent - 17);
    const seen: BatchTraits = {
      temperatureC: noted(warmth, traits.temperatureC),
      seedPercent: noted(share, traits.seedPercent),
      seedGrain: noted(grain, traits.seedGrain),
      moisturePercent: noted(water, traits.moisturePercent),
      honeyAgeDays: noted(age, traits.honeyAgeDays),
    };
    return {
      profile: { ...seen, floralSource: { known: true, name: source.name } },
      daysAt: (share) => Math.exp(linear + scale * (law.quantile(share) - law.quantile(0.5))),
    };
  };

  const batches: ForecastBatch[] = [];
  while (batches.length < size) {
    const { daysAt, profile } = draw();
    const time = daysAt(random());
    const lastDay = random() < 0.2 ? between(2, 20) : 60;
    const observation = lookedAt(random, time, lastDay);
    const { floralSource, ...traits } = profile;
    if (observation.lower === 0 && observation.upper === null) continue;
    batches.push({
      ...traits,
      observation,
      floralSource: floralSource.known ? floralSource.name : null,
    });
  }
  return { batches, draw, random };
}
