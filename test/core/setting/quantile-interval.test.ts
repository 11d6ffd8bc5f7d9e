import { quantileDays, quantileInterval } from '../../../src/core/setting/quantile-interval';
import { fitTurnbull } from '../../../src/core/setting/turnbull';

// By hand: four batches, a quarter each, none overlapping.
const fit = fitTurnbull([
  { lower: 2, upper: 4 },
  { lower: 5, upper: 5 },
  { lower: 6, upper: 8 },
  { lower: 9, upper: null },
]);

test('a share reached inside an interval is quoted at its middle', () => {
  const interval = quantileInterval(fit, 0.1);

  expect(interval).toEqual({ left: 2, right: 4, tie: false });
  expect(quantileDays(interval)).toEqual({ earliest: 2, latest: 4, quoted: 3 });
});

test('a share that holds exactly for a while is quoted at the middle of that while', () => {
  const interval = quantileInterval(fit, 0.5);

  expect(interval).toEqual({ left: 5, right: 5, tie: true, nextLeft: 6, nextRight: 8 });
  expect(quantileDays(interval)).toEqual({ earliest: 5.5, latest: 5.5, quoted: 5.5 });
});

test('a share that holds exactly and after which none was seen to set is quoted at its start', () => {
  const interval = quantileInterval(fit, 0.75);

  expect(interval).toEqual({ left: 6, right: 8, tie: true, nextLeft: 9, nextRight: null });
  expect(quantileDays(interval).quoted).toBe(8);
});

test('a share that was not reached is later than the last look, and not quoted', () => {
  const interval = quantileInterval(fit, 0.8);

  expect(interval).toEqual({ left: 9, right: null, tie: false });
  expect(quantileDays(interval)).toEqual({ earliest: 9, latest: null, quoted: null });
});

test.each([0, 1, -0.2, NaN])('a share of %d is refused', (setFraction) => {
  expect(() => quantileInterval(fit, setFraction)).toThrow(RangeError);
});
