import fc from 'fast-check';
import { anyObservations } from '../any-observations';
import { seededRandom } from '../../../../src/core/random';
import type { SettingObservation } from '../../../../src/core/setting/observation';
import {
  bestDistribution,
  likelihoodRatioTest,
  waldTest,
} from '../../../../src/core/setting/regression/compare-regressions';
import type { Covariate, RegressionData } from '../../../../src/core/setting/regression/covariate';
import type { Distribution } from '../../../../src/core/setting/regression/error-law';
import { fitRegression } from '../../../../src/core/setting/regression/fit-regression';
import { predictQuantiles } from '../../../../src/core/setting/regression/predict-quantiles';
import { estimateOf } from './regression-cases';
import { simulatedClub } from './simulated-batches';

const anyDistribution = fc.constantFrom<Distribution>('weibull', 'lognormal', 'loglogistic');

const anyClub = fc
  .record({
    seed: fc.integer({ min: 1, max: 1_000_000 }),
    distribution: anyDistribution,
    scale: fc.double({ min: 0.2, max: 0.6, noNaN: true }),
  })
  .map(({ seed, distribution, scale }) => ({
    distribution,
    data: simulatedClub({
      seed,
      batches: 60,
      distribution,
      scale,
      sources: { clover: 14, lime: 20, heather: 9 },
      perPercentSeed: -0.05,
      lastDay: 30,
    }).data,
  }));

function rowsOf({ observations, covariates }: RegressionData, rows: number[]): RegressionData {
  return {
    observations: rows.map((row) => observations[row]!),
    covariates: covariates.map((covariate): Covariate => {
      return covariate.kind === 'numeric'
        ? { ...covariate, values: rows.map((row) => covariate.values[row]!) }
        : { ...covariate, values: rows.map((row) => covariate.values[row]!) };
    }),
  };
}

function expectSame(values: readonly number[], expected: readonly number[], digits = 7) {
  expect(values).toHaveLength(expected.length);
  values.forEach((value, i) => expect(value).toBeCloseTo(expected[i]!, digits));
}

test('the order of the batches does not matter', () => {
  fc.assert(
    fc.property(anyClub, fc.integer({ min: 1, max: 1000 }), ({ data, distribution }, seed) => {
      const random = seededRandom(seed);
      const mixed = data.observations
        .map((_, row) => ({ row, key: random() }))
        .sort((a, b) => a.key - b.key)
        .map(({ row }) => row);

      const fit = estimateOf(data, distribution);
      const other = estimateOf(rowsOf(data, mixed), distribution);

      expectSame(other.coefficients, fit.coefficients);
      expect(other.logLik).toBeCloseTo(fit.logLik, 9);
    }),
    { numRuns: 25 },
  );
});

test('in hours only the intercept changes, by log 24', () => {
  fc.assert(
    fc.property(anyClub, ({ data, distribution }) => {
      const inHours = data.observations.map(({ lower, upper }) => ({
        lower: lower * 24,
        upper: upper === null ? null : upper * 24,
      }));

      const fit = estimateOf(data, distribution);
      const [intercept, ...others] = estimateOf(
        { ...data, observations: inHours },
        distribution,
      ).coefficients;

      expect(intercept).toBeCloseTo(fit.coefficients[0]! + Math.log(24), 8);
      expectSame(others, fit.coefficients.slice(1));
    }),
    { numRuns: 25 },
  );
});

test('a number in another unit changes its coefficient alone; with another nought the intercept too', () => {
  fc.assert(
    fc.property(anyClub, ({ data, distribution }) => {
      const [source, seed] = data.covariates;
      const fahrenheitLike = seed!.values.map((value) => 1000 + 1.8 * Number(value));
      const covariates = [source!, { ...seed!, values: fahrenheitLike } as Covariate];

      const fit = estimateOf(data, distribution);
      const other = estimateOf({ ...data, covariates }, distribution);

      const perUnit = fit.coefficients[3]! / 1.8;
      expect(other.coefficients[3]).toBeCloseTo(perUnit, 8);
      expect(other.coefficients[0]).toBeCloseTo(fit.coefficients[0]! - 1000 * perUnit, 5);
      expect(other.standardErrors[3]).toBeCloseTo(fit.standardErrors[3]! / 1.8, 7);
      expect(other.logLik).toBeCloseTo(fit.logLik, 9);
    }),
    { numRuns: 25 },
  );
});

test('every batch twice gives the same estimates, and errors smaller by the root of two', () => {
  fc.assert(
    fc.property(anyClub, ({ data, distribution }) => {
      const rows = data.observations.map((_, row) => row);
      const twiceWeighed = data.observations.map((seen) => ({ ...seen, weight: 2 }));

      const fit = estimateOf(data, distribution);
      const twice = estimateOf(rowsOf(data, [...rows, ...rows]), distribution);
      const weighed = estimateOf({ ...data, observations: twiceWeighed }, distribution);

      for (const other of [twice, weighed]) {
        expectSame(other.coefficients, fit.coefficients);
        expectSame(
          other.standardErrors.map((error) => error * Math.SQRT2),
          fit.standardErrors,
        );
        expect(other.logLik).toBeCloseTo(2 * fit.logLik, 8);
        expect([other.n, other.setCount]).toEqual([2 * fit.n, 2 * fit.setCount]);
      }
    }),
    { numRuns: 25 },
  );
});

test('a source split at random shows no more difference than chance allows', () => {
  // Half of the doubled batches in each half: both halves are the same data.
  fc.assert(
    fc.property(anyClub, ({ data, distribution }) => {
      const rows = data.observations.map((_, row) => row);
      const doubled = rowsOf(data, [...rows, ...rows]);
      const values = [...rows.map(() => 'first'), ...rows.map(() => 'second')];
      const half: Covariate = { kind: 'factor', name: 'half', levels: ['first', 'second'], values };

      const reduced = estimateOf(doubled, distribution);
      const full = estimateOf(
        { ...doubled, covariates: [...doubled.covariates, half] },
        distribution,
      );

      expect(full.coefficients.at(-1)).toBeCloseTo(0, 8);
      expect(likelihoodRatioTest(full, reduced).chiSquare).toBeCloseTo(0, 7);
      expect(waldTest(full, 'half').p).toBeCloseTo(1, 4);
    }),
    { numRuns: 25 },
  );
});

test('which level is the reference changes no prediction', () => {
  fc.assert(
    fc.property(anyClub, ({ data, distribution }) => {
      const [source, seed] = data.covariates;
      const turned = { ...source!, levels: ['heather', 'clover', 'lime'] } as Covariate;
      const other = { ...data, covariates: [turned, seed!] };

      for (const level of ['clover', 'lime', 'heather']) {
        const [one, two] = [data, other].map((each) =>
          predictQuantiles(
            estimateOf(each, distribution),
            { source: level, seedPercent: 7 },
            [0.5, 0.8],
            0.9,
          ),
        );
        if (one?.kind !== 'estimate' || two?.kind !== 'estimate') throw new Error('none');
        one.quantiles.forEach(({ time, limits }, i) => {
          expect(two.quantiles[i]!.time / time).toBeCloseTo(1, 7);
          expect(two.quantiles[i]!.limits.upper / limits.upper).toBeCloseTo(1, 6);
        });
      }
    }),
    { numRuns: 15 },
  );
});

test('whatever was seen, there is an estimate that no neighbour betters, or a reason', () => {
  fc.assert(
    fc.property(anyObservations, anyDistribution, (observations, distribution) => {
      const fit = fitRegression({ observations, covariates: [] }, distribution);
      if (fit.kind === 'no-estimate') return;

      const [intercept] = fit.coefficients;
      expect(fit.standardErrors.every((error) => error > 0 && error < 1e6)).toBe(true);
      const here = logLikOf(observations, distribution, intercept!, fit.scale);
      expect(here).toBeCloseTo(fit.logLik, 7);
      for (const step of [-1e-3, 1e-3]) {
        const away = step * fit.standardErrors[0]!;
        expect(
          logLikOf(observations, distribution, intercept! + away, fit.scale),
        ).toBeLessThanOrEqual(here + 1e-12);
        expect(
          logLikOf(observations, distribution, intercept!, fit.scale * Math.exp(step)),
        ).toBeLessThanOrEqual(here + 1e-12);
      }
    }),
    { numRuns: 300 },
  );
});

/** By the plain formulas. */
function logLikOf(
  observations: readonly SettingObservation[],
  distribution: Distribution,
  intercept: number,
  scale: number,
): number {
  const upper = (time: number) => {
    const z = (Math.log(time) - intercept) / scale;
    if (distribution === 'weibull') return Math.exp(-Math.exp(z));
    return distribution === 'loglogistic' ? 1 / (1 + Math.exp(z)) : normalAbove(z);
  };
  return observations.reduce((sum, { lower, upper: end, weight = 1 }) => {
    const chance =
      end === lower
        ? density(distribution, (Math.log(lower) - intercept) / scale) / (scale * lower)
        : upper(lower) - (end === null ? 0 : upper(end));
    return sum + weight * Math.log(chance);
  }, 0);
}

function density(distribution: Distribution, z: number): number {
  if (distribution === 'weibull') return Math.exp(z - Math.exp(z));
  if (distribution === 'lognormal') return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  return Math.exp(z) / (1 + Math.exp(z)) ** 2;
}

/** The normal tail by Simpson's rule, independent of the code under test. */
function normalAbove(z: number): number {
  if (z > 9) return 0;
  const start = Math.max(z, -9);
  const steps = 2000;
  const width = (9 - start) / steps;
  let sum = 0;
  for (let k = 0; k <= steps; k += 1) {
    const factor = k === 0 || k === steps ? 1 : k % 2 === 1 ? 4 : 2;
    sum += factor * density('lognormal', start + k * width);
  }
  return (sum * width) / 3;
}

test('a club of 4000 batches gives back what its batches were drawn with', () => {
  const { data } = simulatedClub({
    seed: 8,
    batches: 4000,
    distribution: 'weibull',
    scale: 0.4,
    sources: { clover: 14, lime: 21 },
    perPercentSeed: -0.04,
    lastDay: 30,
  });

  const fit = estimateOf(data, 'weibull');

  const truth = [Math.log(14) + 0.32, Math.log(1.5), -0.04, Math.log(0.4)];
  [...fit.coefficients, Math.log(fit.scale)].forEach((value, j) => {
    expect(Math.abs(value - truth[j]!) / fit.standardErrors[j]!).toBeLessThan(3.5);
  });
  const regressions = (['lognormal', 'weibull', 'loglogistic'] as const).map((distribution) =>
    estimateOf(data, distribution),
  );
  expect(bestDistribution(regressions)).toBe('weibull');
  expect(fit.method).toBe('accelerated failure time, maximum likelihood');
});

const five = [3, 5, 6, 8, 9].map((time) => ({ lower: time, upper: time }));
const seedPercent: Covariate = { kind: 'numeric', name: 'seedPercent', values: [1, 5, 2, 4, 3] };
const source: Covariate = {
  kind: 'factor',
  name: 'source',
  levels: ['clover', 'lime'],
  values: ['clover', 'lime', 'clover', 'lime', 'clover'],
};

test.each<[string, Covariate[], RegExp]>([
  ['too few values', [{ ...seedPercent, values: [1] }], /as many as observations \(5\)/],
  ['a number that is none', [{ ...seedPercent, values: [1, 2, NaN, 4, 5] }], /finite/],
  ['an unknown level', [{ ...source, levels: ['clover'] }], /levels, got lime/],
  ['a level twice', [{ ...source, levels: ['clover', 'lime', 'lime'] }], /lime twice/],
  ['a name twice', [seedPercent, seedPercent], /seedPercent twice/],
])('%s is refused', (_, covariates, message) => {
  const fit = () => fitRegression({ observations: five, covariates }, 'weibull');

  expect(fit).toThrow(RangeError);
  expect(fit).toThrow(message);
});

test('an observation that cannot be true is refused', () => {
  const observations = [...five, { lower: -1, upper: 4 }];

  expect(() => fitRegression({ observations, covariates: [] }, 'weibull')).toThrow(RangeError);
});

test('tests of fits that do not belong together are refused', () => {
  const full = estimateOf({ observations: five, covariates: [source] }, 'weibull');
  const reduced = estimateOf({ observations: five, covariates: [] }, 'weibull');
  const fewer = estimateOf({ observations: five.slice(1), covariates: [] }, 'weibull');
  const otherLaw = estimateOf({ observations: five, covariates: [] }, 'lognormal');

  expect(() => likelihoodRatioTest(reduced, full)).toThrow(RangeError);
  expect(() => likelihoodRatioTest(full, full)).toThrow(RangeError);
  expect(() => likelihoodRatioTest(full, fewer)).toThrow(RangeError);
  expect(() => likelihoodRatioTest(full, otherLaw)).toThrow(RangeError);
  expect(() => waldTest(full, 'seedPercent')).toThrow(RangeError);
  expect(() => waldTest(reduced, 'intercept')).toThrow(RangeError);
  expect(() => bestDistribution([reduced, fewer])).toThrow(RangeError);
  expect(() => bestDistribution([])).toThrow(RangeError);
  expect(bestDistribution([reduced, { ...otherLaw, aic: reduced.aic }])).toBe('weibull');
});

test('a level set aside counts in the likelihood ratio test with the limit it has', () => {
  const observations = [...five, { lower: 30, upper: null }];
  const values = ['clover', 'clover', 'clover', 'clover', 'clover', 'lime'];
  const covariates = [{ ...source, values } as Covariate];
  const full = estimateOf({ observations, covariates }, 'weibull');
  const reduced = estimateOf({ observations, covariates: [] }, 'weibull');

  const { chiSquare, degreesOfFreedom, p, logP } = likelihoodRatioTest(full, reduced);

  const alone = estimateOf({ observations: five, covariates: [] }, 'weibull');
  expect(chiSquare).toBeCloseTo(2 * (alone.logLik - reduced.logLik), 9);
  expect(degreesOfFreedom).toBe(1);
  expect(Math.exp(logP)).toBe(p);
});

test('a profile must hold what the regression knows, and shares lie between nothing and all', () => {
  const fit = estimateOf({ observations: five, covariates: [source, seedPercent] }, 'weibull');
  const profile = { source: 'lime', seedPercent: 3, room: 'north' };

  expect(predictQuantiles(fit, profile, [0.5])).toMatchObject({
    kind: 'estimate',
    confidenceLevel: 0.95,
  });
  expect(() => predictQuantiles(fit, { source: 'lime' }, [0.5])).toThrow(/seedPercent/);
  expect(() => predictQuantiles(fit, { ...profile, seedPercent: NaN }, [0.5])).toThrow(RangeError);
  expect(() => predictQuantiles(fit, { ...profile, source: 'rape' }, [0.5])).toThrow(
    /clover, lime, got rape/,
  );
  expect(() => predictQuantiles(fit, { seedPercent: 3 }, [0.5])).toThrow(RangeError);
  for (const wrong of [0, 1, NaN]) {
    expect(() => predictQuantiles(fit, profile, [wrong])).toThrow(RangeError);
    expect(() => predictQuantiles(fit, profile, [0.5], wrong)).toThrow(RangeError);
  }
});
