import fc from 'fast-check';
import { fractionToString } from '../../../src/core/lineage/rational';
import { shortFraction } from '../../../src/core/lineage/short-fraction';

describe('a share written as a short fraction', () => {
  test('is in lowest terms', () => {
    expect(shortFraction({ numerator: 6n, denominator: 8n }, 10)).toBe('3/4');
    expect(shortFraction({ numerator: 0n, denominator: 8n }, 10)).toBe('0/1');
    expect(shortFraction({ numerator: 8n, denominator: 8n }, 10)).toBe('1/1');
  });

  test('is not written when it is longer than asked for', () => {
    expect(shortFraction({ numerator: 1n, denominator: 1_000_000n }, 9)).toBe('1/1000000');
    expect(shortFraction({ numerator: 1n, denominator: 1_000_000n }, 8)).toBeNull();
  });

  test('lies from 0 to 1', () => {
    expect(() => shortFraction({ numerator: 3n, denominator: 2n }, 10)).toThrow(RangeError);
    expect(() => shortFraction({ numerator: -1n, denominator: 2n }, 10)).toThrow(RangeError);
  });

  // The independent calculation: Euclid's algorithm on all digits.
  test('is the same as by reducing all the digits', () => {
    const share = fc.tuple(fc.bigInt(0n, 10n ** 12n), fc.bigInt(1n, 10n ** 12n));
    const common = fc.tuple(fc.bigInt(1n, 10n ** 9n), fc.integer({ min: 1, max: 40 }));
    fc.assert(
      fc.property(share, common, fc.boolean(), ([a, b], [factor, power], isOff) => {
        const [part, whole] = a < b ? [a, b] : [b, a + 1n];
        const times = factor ** BigInt(power);
        const nudge = isOff && part > 0n ? 1n : 0n;
        const value = { numerator: part * times - nudge, denominator: whole * times };

        const exact = fractionToString(value);

        expect(shortFraction(value, 25)).toBe(exact.length <= 25 ? exact : null);
      }),
    );
  });
});
