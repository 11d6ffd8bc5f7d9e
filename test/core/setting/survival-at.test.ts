import { survivalAt } from '../../../src/core/setting/survival-at';
import { fitTurnbull } from '../../../src/core/setting/turnbull';

// By hand: four batches, a quarter each, none overlapping.
const fit = fitTurnbull([
  { lower: 2, upper: 4 },
  { lower: 5, upper: 5 },
  { lower: 6, upper: 8 },
  { lower: 9, upper: null },
]);

test.each([
  [0, 1, 1],
  [2, 1, 1],
  [3, 0.75, 1],
  [4, 0.75, 0.75],
  [4.9, 0.75, 0.75],
  [5, 0.5, 0.5],
  [7, 0.25, 0.5],
  [8, 0.25, 0.25],
  [9, 0.25, 0.25],
  [10, 0, 0.25],
])('just after day %d, between %d and %d of the batches have not set', (days, lower, upper) => {
  const bounds = survivalAt(fit, days);

  expect(bounds.lower).toBeCloseTo(lower, 10);
  expect(bounds.upper).toBeCloseTo(upper, 10);
});

test('a time before seeding is refused', () => {
  expect(() => survivalAt(fit, -1)).toThrow(RangeError);
  expect(() => survivalAt(fit, NaN)).toThrow(RangeError);
});
