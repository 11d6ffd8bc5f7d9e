import type { RegressionData } from '../../../../src/core/setting/regression/covariate';
import { buildDesign } from '../../../../src/core/setting/regression/design';
import { logGrowth } from '../../../../src/core/setting/regression/error-law';
import { errorLaw } from '../../../../src/core/setting/regression/error-laws';
import { evaluateLikelihood } from '../../../../src/core/setting/regression/likelihood';
import { startingPoint } from '../../../../src/core/setting/regression/starting-point';

const data: RegressionData = {
  observations: [
    { lower: 9, upper: null },
    { lower: 4, upper: 8, weight: 2 },
    { lower: 0, upper: 3 },
    { lower: 5, upper: 5 },
    { lower: 0, upper: null },
    { lower: 7, upper: 7 },
  ],
  covariates: [
    {
      kind: 'factor',
      name: 'source',
      levels: ['rape', 'clover', 'lime'],
      values: ['clover', 'lime', 'clover', 'lime', 'clover', 'lime'],
    },
    { kind: 'numeric', name: 'seedPercent', values: [4, 6, 8, 10, 99, 5] },
  ],
};
const all = [0, 1, 2, 3, 4, 5];

test('rows stand kind after kind, without those that tell nothing', () => {
  const { rows, centre, terms } = buildDesign(data, all);

  expect(rows.ends).toEqual({
    exact: 2,
    interval: 3,
    'right-censored': 4,
    'left-censored': 5,
  });
  // In order: exact 5 and 7, the interval from 4, still setting at 9, set before 3.
  const logs = [5, 7, 4, 9, 3].map(Math.log);
  expect(centre).toBeCloseTo((logs[0]! + logs[1]! + 2 * logs[2]! + logs[3]! + logs[4]!) / 6, 12);
  rows.place.forEach((place, i) => expect(place).toBeCloseTo(logs[i]! - centre, 12));
  expect([...rows.span]).toEqual([0, 0, expect.closeTo(Math.LN2, 12), 0, 0]);
  expect([...rows.weight]).toEqual([1, 1, 2, 1, 1]);
  expect(terms).toEqual([
    { kind: 'intercept' },
    { kind: 'level', covariate: 'source', level: 'lime', reference: 'clover' },
    { kind: 'numeric', covariate: 'seedPercent' },
  ]);
});

test('numbers are standardised over the batches that tell something, weights counted', () => {
  const { rows, location, spread } = buildDesign(data, all);

  // By hand: 10, 5, 6 twice, 4, 8 have mean 6.5 and squares about it that average 23.5 / 6.
  expect([...location]).toEqual([0, 0, 6.5]);
  expect(spread[2]).toBeCloseTo(Math.sqrt(23.5 / 6), 12);
  const column = [10, 5, 6, 4, 8].map((value) => (value - 6.5) / spread[2]!);
  expect([...rows.columns]).toEqual(
    [1, 1, 1, 0, 0].flatMap((lime, i) => [1, lime, expect.closeTo(column[i]!, 12)]),
  );
  expect(rows.width).toBe(3);
});

test('a number that varies by rounding only is a column of noughts', () => {
  const values = [14, 14, 14 + 1e-14, 14, 14, 14];
  const { rows } = buildDesign(
    { ...data, covariates: [{ kind: 'numeric', name: 'roomC', values }] },
    all,
  );

  expect([1, 3, 5, 7, 9].map((cell) => Math.abs(rows.columns[cell]!))).toEqual([0, 0, 0, 0, 0]);
});

test('a pooled factor has a column for every level, also those without batches', () => {
  const { terms } = buildDesign(data, all, 'source');

  expect(terms.flatMap((term) => (term.kind === 'level' ? [term.level] : []))).toEqual([
    'rape',
    'clover',
    'lime',
  ]);
});

test('only the rows asked for are there', () => {
  expect(buildDesign(data, [3, 5]).rows.ends['left-censored']).toBe(2);
  expect(buildDesign(data, [3, 5]).terms).toHaveLength(2);
});

test('the start is the least-squares line through the logarithms of what is known', () => {
  // By hand for one column: the mean of log 5, log 7, twice log 6 (middle of 4 to 8), log 9, log 3.
  const design = buildDesign({ ...data, covariates: [] }, all);
  const law = errorLaw('weibull');
  const logs = [5, 7, 6, 6, 9, 3].map(Math.log);
  const mean = logs.reduce((sum, log) => sum + log, 0) / 6;
  const deviation = Math.sqrt(logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / 6);

  const start = startingPoint(law, design.rows, new Float64Array(1));

  if ('collinear' in start) throw new Error('expected a start');
  const scale = deviation / law.standardDeviation;
  expect(start[1]).toBeCloseTo(1 / scale, 10);
  expect(start[0]).toBeCloseTo((mean - design.centre) / scale - law.mean, 10);
});

test('with exact times the start of a log-normal fit is already its maximum', () => {
  const exact: RegressionData = {
    observations: [3, 5, 8, 13, 6, 9].map((time) => ({ lower: time, upper: time })),
    covariates: data.covariates,
  };
  const { rows } = buildDesign(exact, all);
  const law = errorLaw('lognormal');
  const free = new Float64Array(3);

  const start = startingPoint(law, rows, free);

  if ('collinear' in start) throw new Error('expected a start');
  const { gradient } = evaluateLikelihood(law, rows, free, start);
  gradient.forEach((slope) => expect(Math.abs(slope)).toBeLessThan(1e-10));
});

test.each(['weibull', 'lognormal', 'loglogistic'] as const)(
  'gradient and information of the %s likelihood are its differences',
  (distribution) => {
    const { rows } = buildDesign(data, all);
    const law = errorLaw(distribution);
    const penalty = Float64Array.of(0, 0.7, 0);
    const point = Float64Array.of(0.4, -0.3, 0.2, 1.7);
    const valueAt = (moved: Float64Array) => evaluateLikelihood(law, rows, penalty, moved).value;
    const moved = (...steps: [number, number][]) => {
      const copy = Float64Array.from(point);
      for (const [j, step] of steps) copy[j] = copy[j]! + step;
      return copy;
    };

    const { gradient, information } = evaluateLikelihood(law, rows, penalty, point);

    for (let j = 0; j < 4; j += 1) {
      const slope = (valueAt(moved([j, 1e-5])) - valueAt(moved([j, -1e-5]))) / 2e-5;
      expect(gradient[j]).toBeCloseTo(slope, 7);
      for (let k = 0; k <= j; k += 1) {
        const h = 1e-4;
        const bend =
          (valueAt(moved([j, h], [k, h])) -
            valueAt(moved([j, h], [k, -h])) -
            valueAt(moved([j, -h], [k, h])) +
            valueAt(moved([j, -h], [k, -h]))) /
          (4 * h * h);
        expect(Math.abs(information[j * 4 + k]! + bend)).toBeLessThan(1e-5);
      }
    }
  },
);

test('growth less one keeps its digits when short and does not overflow when long', () => {
  // By hand: exp(x) - 1 is x (1 + x / 2 + ...); for long x it is exp(x).
  expect(logGrowth(1e-9)).toBeCloseTo(Math.log(1e-9) + 5e-10, 14);
  expect(logGrowth(1)).toBeCloseTo(Math.log(Math.E - 1), 14);
  expect(logGrowth(2)).toBeCloseTo(Math.log(Math.exp(2) - 1), 14);
  expect(logGrowth(1000)).toBe(1000);
});
