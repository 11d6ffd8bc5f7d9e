import { seededRandom } from '../../../src/core/random';
import { medianSettingTime } from '../../../src/core/setting/median-setting-time';
import type { SettingObservation } from '../../../src/core/setting/observation';
import {
  settingTimeQuantile,
  type SettingTimeQuantile,
} from '../../../src/core/setting/setting-time-quantile';

type Estimate = Extract<SettingTimeQuantile, { kind: 'estimate' }>;

function estimate(observations: SettingObservation[], setFraction = 0.5): Estimate {
  const options = { setFraction, replicates: 2000, random: seededRandom(11) };
  const result = settingTimeQuantile(observations, options);
  if (result.kind !== 'estimate') throw new Error(result.reason);
  return result;
}

test('nothing observed, none seen set, or two seen set are too few, and it is said which', () => {
  const random = seededRandom(1);
  const stillSetting = { lower: 9, upper: null, weight: 4 };

  expect(medianSettingTime([], random)).toEqual({
    kind: 'too-few',
    reason: 'nothing observed',
    n: 0,
    setCount: 0,
    stillSettingCount: 0,
  });
  expect(medianSettingTime([stillSetting], random)).toMatchObject({
    kind: 'too-few',
    reason: 'none seen set',
    n: 4,
    stillSettingCount: 4,
  });
  expect(
    medianSettingTime([stillSetting, { lower: 3, upper: 5, weight: 2 }], random),
  ).toMatchObject({ kind: 'too-few', reason: 'fewer than 3 seen set', n: 6, setCount: 2 });
});

test('twelve batches all seen liquid on day 7 and set on day 14 do not tell more than that', () => {
  const result = estimate([{ lower: 7, upper: 14, weight: 12 }]);

  expect(result.days).toBe(10.5);
  expect(result.interval).toEqual({ leftDays: 7, rightDays: 14 });
  expect(result.confidence).toEqual({ level: 0.95, lowerDays: 7, upperDays: 14 });
});

test('a median that fewer than half of the batches have reached is not quoted, nor its upper limit', () => {
  const result = estimate([
    { lower: 5, upper: 6, weight: 3 },
    { lower: 20, upper: null, weight: 9 },
  ]);

  expect(result.days).toBeNull();
  expect(result.interval).toEqual({ leftDays: 20, rightDays: null });
  expect(result.confidence.upperDays).toBeNull();
  expect(result).toMatchObject({ n: 12, setCount: 3, stillSettingCount: 9 });
});

/** The chance of at least `successes` in `trials`, each with chance `chance`. */
function chanceOfAtLeast(successes: number, trials: number, chance: number): number {
  let total = 0;
  for (let k = successes; k <= trials; k += 1) {
    let term = 1;
    for (let i = 0; i < k; i += 1) term *= ((trials - i) / (i + 1)) * chance;
    total += term * (1 - chance) ** (trials - k);
  }
  return total;
}

test('for exact times the limits are those that the binomial distribution gives without chance', () => {
  // The middle of 21 resampled times is at most the k-th smallest if at least 11 are:
  // a binomial chance. Source of the argument, from memory: B. Efron, "The Jackknife, the Bootstrap
  // and Other Resampling Plans" (1982).
  const times = Array.from({ length: 21 }, (_, i) => 4 + i + i * i * 0.01);
  const chances = times.map((_, i) => chanceOfAtLeast(11, 21, (i + 1) / 21));
  const lower = times[chances.findIndex((chance) => chance >= 0.025)];
  const upper = times[chances.findIndex((chance) => chance >= 0.975)];

  const result = estimate(times.map((time) => ({ lower: time, upper: time })));

  expect(result.days).toBe(times[10]);
  expect(result.confidence).toEqual({ level: 0.95, lowerDays: lower, upperDays: upper });
});

test('the limits hold the estimate, and the 80th percentile is no earlier than the median', () => {
  const observations = Array.from({ length: 30 }, (_, i) => ({
    lower: 4 + (i % 10),
    upper: i % 7 === 0 ? null : 6 + (i % 10) + (i % 3),
  }));

  const median = estimate(observations);
  const eightieth = estimate(observations, 0.8);

  expect(median.confidence.lowerDays).toBeLessThanOrEqual(median.interval.leftDays);
  expect(median.confidence.upperDays).toBeGreaterThanOrEqual(median.interval.rightDays!);
  expect(eightieth.interval.leftDays).toBeGreaterThanOrEqual(median.interval.leftDays);
});

test('the same seed gives the same limits, and the method is named', () => {
  const observations = Array.from({ length: 12 }, (_, i) => ({ lower: i + 2, upper: i + 5 }));

  const first = medianSettingTime(observations, seededRandom(5));

  expect(medianSettingTime(observations, seededRandom(5))).toEqual(first);
  expect(first).toMatchObject({
    kind: 'estimate',
    replicates: 999,
    method: 'Turnbull maximum-likelihood estimate, bootstrap percentile limits',
  });
});

test('fewer than a hundred replicates or a share outside 0 to 1 are refused', () => {
  const observations = [{ lower: 3, upper: 5, weight: 9 }];
  const random = seededRandom(1);

  expect(() =>
    settingTimeQuantile(observations, { setFraction: 0.5, replicates: 99, random }),
  ).toThrow(RangeError);
  expect(() =>
    settingTimeQuantile(observations, { setFraction: 1, replicates: 100, random }),
  ).toThrow(RangeError);
});
