import { seededRandom } from '../../../src/core/random';
import { bootstrapStatistic, percentile } from '../../../src/core/setting/bootstrap';
import { survivalAt } from '../../../src/core/setting/survival-at';
import { observationsOf, resultsOfKind, tolerance } from './reference-cases';

const groups = resultsOfKind('turnbull-bootstrap').flatMap(({ reference, result }) =>
  result.expected.groups.map((expected) => ({
    name: `${reference.id}: ${expected.group}`,
    observations: observationsOf(reference, result.groupColumn, expected.group),
    result,
    expected,
  })),
);

// Source: test/references/survival, npsurv on resamples in R; both sides vary by chance.
test.each(groups)('resampling spreads the curve as far as in $name', (group) => {
  const { observations, result, expected } = group;

  const curves = bootstrapStatistic(observations, 600, seededRandom(20241001), (fit) =>
    expected.time.map((time) => survivalAt(fit, time).upper),
  );

  expected.time.forEach((_, i) => {
    const values = curves.map((curve) => curve[i]!);
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    const standardError = Math.sqrt(squares / (values.length - 1));
    expect(Math.abs(standardError - expected.bootstrapSe[i]!)).toBeLessThan(
      tolerance(result, 'seAbs') + tolerance(result, 'seRel') * expected.bootstrapSe[i]!,
    );
    const limitTolerance = tolerance(result, 'limitAbs');
    expect(Math.abs(percentile(values, 0.025) - expected.lower95[i]!)).toBeLessThan(limitTolerance);
    expect(Math.abs(percentile(values, 0.975) - expected.upper95[i]!)).toBeLessThan(limitTolerance);
  });
});

test('every resample has as many batches as were observed, weights counted', () => {
  const sizes = bootstrapStatistic(
    [
      { lower: 3, upper: 5, weight: 4 },
      { lower: 4, upper: null },
    ],
    50,
    seededRandom(7),
    (fit) => fit.n,
  );

  expect(new Set(sizes)).toEqual(new Set([5]));
});

test('resampling needs a batch, a replicate and numbers below one', () => {
  const one = [{ lower: 3, upper: 5 }];
  const count = () => 0;

  expect(() => bootstrapStatistic([], 10, seededRandom(1), count)).toThrow(RangeError);
  expect(() => bootstrapStatistic(one, 0, seededRandom(1), count)).toThrow(RangeError);
  expect(() => bootstrapStatistic(one, 10, () => 1, count)).toThrow(RangeError);
});

// By hand from the definition of type 7.
test.each([
  [[10], 0.5, 10],
  [[1, 2, 3, 4], 0.5, 2.5],
  [[4, 1, 3, 2], 0.1, 1.3],
  [[1, 2, 3, 4, 5], 0.25, 2],
  [[1, 2, Infinity], 0.5, 2],
  [[1, 2, Infinity], 0.6, Infinity],
  [[1, Infinity, Infinity], 0.9, Infinity],
])('of %j the percentile %d is %d', (values, fraction, expected) => {
  const value = percentile(values, fraction);

  expect(value === expected || Math.abs(value - expected) < 1e-12).toBe(true);
});

test('there is no percentile of nothing, of NaN, or outside 0 to 1', () => {
  expect(() => percentile([], 0.5)).toThrow(RangeError);
  expect(() => percentile([1, NaN], 0.5)).toThrow(RangeError);
  expect(() => percentile([1], 1.5)).toThrow(RangeError);
});
