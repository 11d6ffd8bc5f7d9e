import { logChiSquareUpperTail } from '../../../../src/core/setting/numerics/chi-square';

// Source: regularised incomplete gamma function to 40 digits in mpmath 1.3.0 (Python).
test.each([
  [1e-6, 1, -0.0007982029070198693],
  [0.3, 1, -0.5380556507217004],
  [3.84, 1, -2.994862227180027],
  [30, 1, -16.95731815812879],
  [2000, 1, -1004.0267419589519],
  [0.01, 2, -0.005],
  [5.99, 2, -2.995],
  [900, 2, -450.0],
  [0.5, 3, -0.08458732285189934],
  [7.8, 3, -2.9891321452020225],
  [1500, 3, -746.5685151578195],
  [9.5, 4, -3.000800145190741],
  [11.07, 5, -2.995539919607088],
  [0.2, 5, -0.0008865316418876733],
  [26, 5, -9.324226198994221],
  [800, 5, -391.2937383993712],
  [15, 10, -2.024484857918011],
  [40, 7, -13.585359308128414],
  [100, 101, -0.6744736139975613],
  [100, 100, -0.7314895757292705],
  [3000, 1500, -234.37135342298927],
])('chi-square %d with %d degrees of freedom has log p %d', (chiSquare, df, logP) => {
  expect(Math.abs(logChiSquareUpperTail(chiSquare, df) - logP)).toBeLessThan(
    1e-13 * Math.max(Math.abs(logP), 1e-2),
  );
});

test('the customary limits of 5 percent are those of any table', () => {
  // Source: any table of the chi-square distribution, to three decimals.
  const limits = [3.841, 5.991, 7.815, 9.488, 11.07];

  limits.forEach((limit, i) => {
    expect(Math.exp(logChiSquareUpperTail(limit, i + 1))).toBeCloseTo(0.05, 4);
  });
});

test('no distance is certain to be exceeded, an endless one never', () => {
  expect(logChiSquareUpperTail(0, 3)).toBe(0);
  expect(logChiSquareUpperTail(1e-320, 40)).toBe(0);
  expect(logChiSquareUpperTail(Infinity, 3)).toBe(-Infinity);
});

test.each([
  [-1, 1],
  [NaN, 1],
  [1, 0],
  [1, 1.5],
])('chi-square %d with %d degrees of freedom is refused', (chiSquare, df) => {
  expect(() => logChiSquareUpperTail(chiSquare, df)).toThrow(RangeError);
});
