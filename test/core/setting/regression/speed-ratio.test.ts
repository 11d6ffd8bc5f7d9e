import type { Covariate, RegressionData } from '../../../../src/core/setting/regression/covariate';
import type { Distribution } from '../../../../src/core/setting/regression/error-law';
import { setAsideBound } from '../../../../src/core/setting/regression/set-aside-bound';
import { speedInWords } from '../../../../src/core/setting/regression/speed-in-words';
import { speedRatio } from '../../../../src/core/setting/regression/speed-ratio';
import { estimateOf } from './regression-cases';

const exact = (time: number) => ({ lower: time, upper: time });
const clover = [8, 10, 11, 13, 14, 16, 18];
const lime = [4, 6, 7, 8, 9, 11];
const heather = [5, 9, 21];
const source: Covariate = {
  kind: 'factor',
  name: 'source',
  levels: ['clover', 'lime', 'heather'],
  values: [
    ...clover.map(() => 'clover'),
    ...lime.map(() => 'lime'),
    ...heather.map(() => 'heather'),
  ],
};
const seedPercent: Covariate = {
  kind: 'numeric',
  name: 'seedPercent',
  values: [9, 7, 8, 6, 10, 5, 4, 12, 11, 9, 8, 7, 6, 10, 8, 5],
};
const three: RegressionData = {
  observations: [...clover, ...lime, ...heather].map(exact),
  covariates: [source],
};

const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

test('with exact log-normal times the ratio is that of the geometric means', () => {
  // By hand: least squares on the logarithm; standard error scale x sqrt(1/n + 1/m).
  const fit = estimateOf(three, 'lognormal');
  const log = mean(clover.map(Math.log)) - mean(lime.map(Math.log));
  const reach = 1.959964 * fit.scale * Math.sqrt(1 / 7 + 1 / 6);

  const found = speedRatio(fit, { covariate: 'source', value: 'lime', against: 'clover' });

  if (found.kind !== 'estimate') throw new Error('expected an estimate');
  expect(found.ratio).toBeCloseTo(Math.exp(log), 9);
  expect(found.lower).toBeCloseTo(Math.exp(log - reach), 5);
  expect(found.upper).toBeCloseTo(Math.exp(log + reach), 5);
  expect(found.confidenceLevel).toBe(0.95);
});

test('the other way round the ratio is turned over, and between two others neither is the reference', () => {
  const fit = estimateOf(three, 'weibull');
  const of = (value: string, against: string) => {
    const found = speedRatio(fit, { covariate: 'source', value, against }, 0.9);
    if (found.kind !== 'estimate') throw new Error('expected an estimate');
    return found;
  };

  const there = of('lime', 'heather');
  const back = of('heather', 'lime');
  expect(there.ratio * back.ratio).toBeCloseTo(1, 12);
  expect(there.lower * back.upper).toBeCloseTo(1, 12);
  expect(there.ratio).toBeCloseTo(of('lime', 'clover').ratio / of('heather', 'clover').ratio, 10);
  expect(of('lime', 'lime')).toMatchObject({ ratio: 1, lower: 1, upper: 1 });
});

test('the ratio of a number is that of its difference', () => {
  const fit = estimateOf({ ...three, covariates: [source, seedPercent] }, 'loglogistic');

  const found = speedRatio(fit, { covariate: 'seedPercent', value: 10, against: 5 });

  const at = fit.terms.findIndex((term) => term.kind === 'numeric');
  const log = -5 * fit.coefficients[at]!;
  expect(found).toMatchObject({ kind: 'estimate', ratio: expect.closeTo(Math.exp(log), 10) });
  if (found.kind === 'estimate') {
    const reach = 1.959964 * 5 * fit.standardErrors[at]!;
    expect(found.upper).toBeCloseTo(Math.exp(log + reach), 5);
  }
});

test('what the regression does not know is refused', () => {
  const fit = estimateOf({ ...three, covariates: [source, seedPercent] }, 'weibull');
  const of = (covariate: string, value: string | number, against: string | number, level = 0.95) =>
    speedRatio(fit, { covariate, value, against }, level);

  expect(() => of('source', 'rape', 'clover')).toThrow(/source in the regression, got rape/);
  expect(() => of('source', 'clover', 'rape')).toThrow(RangeError);
  expect(() => of('room', 'north', 'south')).toThrow(RangeError);
  expect(() => of('room', 'clover', 'lime')).toThrow(RangeError);
  expect(() => of('seedPercent', 'clover', 'lime')).toThrow(RangeError);
  expect(() => of('seedPercent', 'much', 5)).toThrow(RangeError);
  expect(() => of('seedPercent', NaN, 5)).toThrow(RangeError);
  expect(() => of('source', 'lime', 'clover', 1)).toThrow(/confidenceLevel/);
  expect(() => of('source', 'lime', 'clover', 0)).toThrow(/confidenceLevel/);
});

test.each([
  [1.6, 1.2, 2.1, 'lime sets 1.6 times as fast as clover, 95 % 1.2 to 2.1'],
  [1.3, 1.03, 1.64, 'lime sets 1.3 times as fast as clover, 95 % 1.03 to 1.6'],
  [0.5, 0.25, 0.8, 'lime takes 2.0 times as long as clover, 95 % 1.3 to 4.0'],
  [12.3, 9.94, 15, 'lime sets 12 times as fast as clover, 95 % 9.9 to 15'],
  [
    1.1,
    0.8,
    1.5,
    'lime and clover cannot be told apart: 95 % from 1.5 times as fast to 1.3 times as long',
  ],
])('a ratio of %d (%d to %d) reads: %s', (ratio, lower, upper, words) => {
  const speed = { ratio, lower, upper, confidenceLevel: 0.95 };

  expect(speedInWords('lime', 'clover', speed)).toBe(words);
});

test('another confidence level is said', () => {
  const speed = { ratio: 1.6, lower: 1.4, upper: 1.8, confidenceLevel: 0.8 };

  expect(speedInWords('lime', 'clover', speed)).toContain('80 % 1.4 to 1.8');
  expect(speedInWords('a', 'b', { ...speed, confidenceLevel: 0.999 })).toContain('99.9 %');
});

const stillSetting = {
  ...three,
  observations: three.observations.map((seen, row) =>
    row < 13 ? seen : { lower: seen.lower * 4, upper: null, weight: 2 },
  ),
};
const early = {
  ...three,
  observations: three.observations.map((seen, row) =>
    row < 13 ? seen : { lower: 0, upper: seen.lower / 2, weight: 2 },
  ),
};

test.each<Distribution>(['weibull', 'lognormal', 'loglogistic'])(
  'of a level of which none has set only a pace that it stays below is known (%s)',
  (distribution) => {
    const fit = estimateOf(stillSetting, distribution);
    const [aside] = fit.setAside;

    const bound = setAsideBound(fit, stillSetting, aside!, 'clover');

    expect(speedRatio(fit, { covariate: 'source', value: 'lime', against: 'heather' })).toEqual({
      kind: 'no-estimate',
      level: aside,
    });
    expect(speedRatio(fit, { covariate: 'source', value: 'heather', against: 'lime' }).kind).toBe(
      'no-estimate',
    );
    if (bound.kind !== 'at most') throw new Error(bound.kind);
    expect(bound.ratio).toBeLessThan(0.6);
    expect(bound.confidenceLevel).toBe(0.95);
    // Against a faster level the same batches are slower still.
    expect(setAsideBound(fit, stillSetting, aside!, 'lime')).toMatchObject({
      ratio: expect.closeTo(bound.ratio * Math.exp(fit.coefficients[1]!), 6),
    });
    // More certain, less said.
    expect(setAsideBound(fit, stillSetting, aside!, 'clover', 0.99)).toMatchObject({
      kind: 'at most',
    });
  },
);

test('under a Weibull law the bound is the one found by hand', () => {
  // By hand: the sum of weight x (time / typical time)^shape is 1.3528 (half of 1.645 squared)
  // where typical times are exp(intercept) / ratio.
  const fit = estimateOf(stillSetting, 'weibull');
  const shape = 1 / fit.scale;
  const total = heather.reduce(
    (sum, time) => sum + 2 * ((4 * time) / Math.exp(fit.coefficients[0]!)) ** shape,
    0,
  );

  const bound = setAsideBound(fit, stillSetting, fit.setAside[0]!, 'clover');

  if (bound.kind === 'unknown') throw new Error('expected a bound');
  expect(bound.ratio).toBeCloseTo((1.352772 / total) ** (1 / shape), 6);
});

test('of a level that had always set before the first look only a pace that it keeps is known', () => {
  const fit = estimateOf(early, 'weibull');

  const bound = setAsideBound(fit, early, fit.setAside[0]!, 'clover');
  const surer = setAsideBound(fit, early, fit.setAside[0]!, 'clover', 0.99);

  if (bound.kind !== 'at least' || surer.kind !== 'at least') throw new Error('expected a bound');
  // By hand: the sum of weight x log(1 - exp(-(time x ratio / typical)^shape)) is -1.3528.
  const logLik = heather.reduce((sum, time) => {
    const hazard = (((time / 2) * bound.ratio) / Math.exp(fit.coefficients[0]!)) ** (1 / fit.scale);
    return sum + 2 * Math.log(1 - Math.exp(-hazard));
  }, 0);
  expect(logLik).toBeCloseTo(-1.352772, 5);
  expect(surer.ratio).toBeLessThan(bound.ratio);
});

test('without batches, or with none that the regression can place, nothing is known', () => {
  const withRape = {
    ...three,
    covariates: [{ ...source, levels: [...source.levels, 'rape'] } as Covariate],
  };
  const fit = estimateOf(withRape, 'weibull');

  expect(setAsideBound(fit, withRape, fit.setAside[0]!, 'clover')).toEqual({ kind: 'unknown' });
  expect(() => setAsideBound(fit, withRape, fit.setAside[0]!, 'clover', 0.5)).toThrow(RangeError);
  expect(() => setAsideBound(fit, withRape, fit.setAside[0]!, 'clover', 1)).toThrow(RangeError);
  const other = estimateOf(stillSetting, 'weibull');
  expect(() => setAsideBound(other, stillSetting, other.setAside[0]!, 'rape')).toThrow(RangeError);
});
