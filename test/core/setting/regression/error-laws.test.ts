import fc from 'fast-check';
import { emptyKernel, type Distribution } from '../../../../src/core/setting/regression/error-law';
import { errorLaw } from '../../../../src/core/setting/regression/error-laws';
import { kernelValues } from './kernel-values';

const laws: Distribution[] = ['weibull', 'lognormal', 'loglogistic'];

/** Near to 1e-11 of the value, or to 1e-14 where values of size 1 cancel. */
function expectNear(value: number, expected: number, size = 1) {
  expect(Math.abs(value - expected)).toBeLessThan(1e-11 * Math.abs(expected) + 1e-14 * size);
}

test.each(kernelValues)(
  'what the $law law says of $kind at $z, $length is what 80 digits say',
  ({ law, kind, z, length, expected }) => {
    const kernel = emptyKernel();
    if (kind === 'interval') errorLaw(law).interval(z, length, kernel);
    else errorLaw(law)[kind](z, kernel);

    expectNear(kernel.value, expected[0]!);
    expectNear(kernel.byPlace, expected[1]!, Math.max(1, Math.abs(z)));
    expectNear(kernel.byPlaceTwice, expected[2]!, Math.max(1, z * z));
    if (kind === 'interval') {
      expectNear(kernel.byLength, expected[3]!);
      expectNear(kernel.byPlaceAndLength, expected[4]!, 1 + Math.abs(z * expected[3]!));
      expectNear(kernel.byLengthTwice, expected[5]!);
    }
  },
);

test.each(laws)('the quantile of the %s law has that share up to it', (distribution) => {
  const law = errorLaw(distribution);
  const kernel = emptyKernel();
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), (fraction) => {
      law.left(law.quantile(fraction), kernel);
      expect(Math.exp(kernel.value) / fraction).toBeCloseTo(1, 12);
    }),
  );
  expect(law.distribution).toBe(distribution);
});

test.each(laws)('the mean and spread of the %s law are those of its quantiles', (distribution) => {
  const law = errorLaw(distribution);
  const shares = Array.from({ length: 200_000 }, (_, i) => (i + 0.5) / 200_000);
  const values = shares.map((share) => law.quantile(share));
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;

  expect(mean).toBeCloseTo(law.mean, 4);
  expect(Math.sqrt(square)).toBeCloseTo(law.standardDeviation, 3);
});

test.each(laws)('under the %s law, parts of an interval add up to the whole', (distribution) => {
  const law = errorLaw(distribution);
  const kernel = emptyKernel();
  const chance = (z: number, length: number) => {
    law.interval(z, length, kernel);
    return Math.exp(kernel.value);
  };
  const place = fc.double({ min: -6, max: 3, noNaN: true });
  const length = fc.double({ min: 1e-4, max: 3, noNaN: true });
  fc.assert(
    fc.property(place, length, length, (z, first, second) => {
      const whole = chance(z, first + second);
      expect((chance(z, first) + chance(z + first, second)) / whole).toBeCloseTo(1, 9);
      law.left(z, kernel);
      const before = Math.exp(kernel.value);
      law.right(z + first + second, kernel);
      expect(before + whole + Math.exp(kernel.value)).toBeCloseTo(1, 12);
    }),
  );
});

test.each(laws)('the %s law stays finite far beyond what honey can do', (distribution) => {
  const law = errorLaw(distribution);
  const kernel = emptyKernel();
  for (const z of [-5000, -800, -60, -38]) {
    for (const length of [1e-9, 1, 700, 2000]) {
      law.interval(z, length, kernel);
      expect(Object.values(kernel).every(Number.isFinite)).toBe(true);
      expect(kernel.byPlaceTwice).toBeLessThanOrEqual(0);
    }
    law.left(z, kernel);
    expect([kernel.value, kernel.byPlace, kernel.byPlaceTwice].every(Number.isFinite)).toBe(true);
    law.right(z, kernel);
    expect([kernel.value, kernel.byPlace, kernel.byPlaceTwice].every(Number.isFinite)).toBe(true);
  }
});
