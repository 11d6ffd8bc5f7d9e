import { kaplanMeier } from '../../../../src/core/setting/comparison/kaplan-meier';
import { logRank } from '../../../../src/core/setting/comparison/log-rank';
import { restrictedMean } from '../../../../src/core/setting/comparison/restricted-mean';
import { survivalLimits } from '../../../../src/core/setting/comparison/survival-limits';
import { survivalQuantile } from '../../../../src/core/setting/comparison/survival-quantile';

const exact = (time: number, weight = 1) => ({ lower: time, upper: time, weight });
const after = (lower: number) => ({ lower, upper: null });
const limits = { confidenceLevel: 0.95, scale: 'log-log' } as const;

test('times that differ by rounding alone are one time, also across groups', () => {
  const curve = kaplanMeier([exact(0.1 + 0.2), exact(0.3), exact(0.3 + 4e-9), exact(0.3001)]);

  expect(curve.steps.map(({ time, setCount }) => [time, setCount])).toEqual([
    [0.3, 3],
    [0.3001, 1],
  ]);
  const inSeconds = kaplanMeier([exact(259_200), exact(259_201), exact(259_200.0001)]);
  expect(inSeconds.steps.map(({ setCount }) => setCount)).toEqual([2, 1]);
  const apart = logRank(
    [
      { name: 'a', observations: [exact(0.3), exact(0.9)] },
      { name: 'b', observations: [exact(0.1 + 0.2), exact(0.9)] },
    ],
    'log-rank',
  );
  expect(apart.test).toMatchObject({ kind: 'test', chiSquare: 0, p: 1 });
});

test('rounding noise chains on: each time is tied to the one before it', () => {
  const curve = kaplanMeier([exact(1), exact(1 + 1e-8), exact(1 + 2e-8), exact(2)]);

  expect(curve.steps.map(({ time, setCount }) => [time, setCount])).toEqual([
    [1, 3],
    [2, 1],
  ]);
});

test('of no batches there is a curve without steps, and no quantile', () => {
  const curve = kaplanMeier([]);

  expect(curve).toEqual({ method: 'Kaplan-Meier estimate', n: 0, setCount: 0, steps: [] });
  expect(survivalQuantile(curve, 0.5, limits)).toEqual({ time: null, lower: null, upper: null });
  expect(restrictedMean(curve, 7)).toEqual({ horizon: 7, mean: 7, standardError: 0 });
});

test('a share reached exactly and to the end is quoted from when it is reached', () => {
  // Our own rule: R is not of one mind here (test/references/survival/README.md).
  const curve = kaplanMeier([exact(3), exact(5), after(9), after(12)]);

  expect(survivalQuantile(curve, 0.5, limits).time).toBe(5);
  expect(survivalQuantile(curve, 0.25, limits).time).toBe(4);
  expect(survivalQuantile(curve, 0.6, limits).time).toBeNull();
});

test('the mean within a horizon is the area found by hand, before, at and beyond the last step', () => {
  // By hand: half set at 4, the rest last seen at 10.
  const curve = kaplanMeier([exact(4), after(10)]);

  expect(restrictedMean(curve, 3)).toEqual({ horizon: 3, mean: 3, standardError: 0 });
  expect(restrictedMean(curve, 4).mean).toBe(4);
  expect(restrictedMean(curve, 10).mean).toBe(7);
  expect(restrictedMean(curve, 20).mean).toBe(12);
  // Area after 4 is 3; d / (n (n - d)) is 1 / 2.
  expect(restrictedMean(curve, 10).standardError).toBeCloseTo(Math.sqrt(9 / 2), 12);
});

test('weights count as batches', () => {
  const [first] = kaplanMeier([exact(2, 3), after(7)]).steps;

  expect(first).toMatchObject({ atRisk: 4, setCount: 3, survival: 0.25 });
});

test('batches known only to an interval, shares and levels that are none, are refused', () => {
  const curve = kaplanMeier([exact(2), exact(4)]);

  expect(() => kaplanMeier([{ lower: 3, upper: 5 }])).toThrow(/\(3, 5\]/);
  expect(() => kaplanMeier([{ lower: 0, upper: 5 }])).toThrow(RangeError);
  expect(() => kaplanMeier([exact(-2)])).toThrow(RangeError);
  for (const wrong of [0, 1, NaN]) {
    expect(() => survivalQuantile(curve, wrong, limits)).toThrow(/setFraction/);
    expect(() => survivalLimits(curve, { confidenceLevel: wrong, scale: 'log' })).toThrow(
      /confidenceLevel/,
    );
  }
  for (const horizon of [0, -1, Infinity, NaN]) {
    expect(() => restrictedMean(curve, horizon)).toThrow(RangeError);
  }
});

test('with fewer than two groups that could have set there is nothing to compare', () => {
  const groups = [
    { name: 'a', observations: [exact(5), exact(7)] },
    { name: 'b', observations: [after(2)] },
  ];

  expect(logRank(groups, 'log-rank')).toMatchObject({
    method: 'log-rank',
    groups: [
      { name: 'a', n: 2, observed: 2, expected: 2 },
      { name: 'b', n: 1, observed: 0, expected: 0 },
    ],
    test: { kind: 'too-few', reason: 'fewer than two groups could have set' },
  });
  expect(logRank([], 'Peto-Peto').test.kind).toBe('too-few');
});

test('batches that all set at one time do not vary', () => {
  const groups = ['a', 'b'].map((name) => ({ name, observations: [exact(5, 3)] }));

  expect(logRank(groups, 'Peto-Peto').test).toEqual({ kind: 'too-few', reason: 'no variation' });
});
