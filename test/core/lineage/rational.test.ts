import fc from 'fast-check';
import {
  addFractions,
  compareFractions,
  fraction,
  fractionToNumber,
  fractionToString,
  multiplyFractions,
  reduceFraction,
} from '../../../src/core/lineage/rational';

const anyBigInt = fc.oneof(fc.bigInt({ min: -50n, max: 50n }), fc.bigInt());
const anyFraction = fc
  .tuple(
    anyBigInt,
    anyBigInt.filter((value) => value !== 0n),
  )
  .map(([numerator, denominator]) => fraction(numerator, denominator));

describe('exact arithmetic, worked by hand', () => {
  test.each([
    [6n, 4n, '3/2'],
    [6n, -4n, '-3/2'],
    [-6n, -4n, '3/2'],
    [0n, -7n, '0/1'],
    [2n ** 80n, 2n ** 79n, '2/1'],
    [3n * (2n ** 61n - 1n), 5n * (2n ** 61n - 1n), '3/5'],
  ])('%p over %p is written %s', (numerator, denominator, text) => {
    expect(fractionToString(fraction(numerator, denominator))).toBe(text);
  });

  test('a third and a sixth make a half, and a third of a sixth is an eighteenth', () => {
    expect(fractionToString(addFractions(fraction(1n, 3n), fraction(1n, 6n)))).toBe('1/2');
    expect(fractionToString(multiplyFractions(fraction(1n, 3n), fraction(1n, 6n)))).toBe('1/18');
  });

  test('a sum over one common denominator is still written in lowest terms', () => {
    const sum = addFractions(
      { numerator: 2n, denominator: 8n },
      { numerator: 4n, denominator: 8n },
    );

    expect(fractionToString(sum)).toBe('3/4');
    expect(reduceFraction(sum)).toEqual({ numerator: 3n, denominator: 4n });
  });

  test('a hundred-digit difference still decides which is greater', () => {
    const tiny = fraction(1n, 10n ** 100n);
    const third = fraction(1n, 3n);

    expect(compareFractions(addFractions(third, tiny), third)).toBeGreaterThan(0);
    expect(compareFractions(third, addFractions(third, tiny))).toBeLessThan(0);
    expect(compareFractions(third, { numerator: 2n, denominator: 6n })).toBe(0);
  });

  test('nothing is divided by zero', () => {
    expect(() => fraction(1n, 0n)).toThrow(new RangeError('denominator must not be 0'));
  });
});

test('sums and products keep the laws of fractions', () => {
  fc.assert(
    fc.property(anyFraction, anyFraction, anyFraction, (a, b, c) => {
      const left = multiplyFractions(a, addFractions(b, c));
      const right = addFractions(multiplyFractions(a, b), multiplyFractions(a, c));
      expect(compareFractions(left, right)).toBe(0);
      expect(fractionToString(left)).toBe(fractionToString(right));
      expect(compareFractions(addFractions(a, b), a)).toBe(
        Number(b.numerator > 0n) - Number(b.numerator < 0n),
      );
    }),
  );
});

describe('the nearest double', () => {
  test('dividing two whole numbers that are doubles themselves rounds as the processor does', () => {
    // IEEE 754 division of two exact operands is correctly rounded: an independent answer.
    const exact = fc.oneof(fc.maxSafeInteger(), fc.integer({ min: -99, max: 99 }));
    fc.assert(
      fc.property(
        exact,
        exact.filter((value) => value !== 0),
        (n, d) => {
          expect(fractionToNumber(fraction(BigInt(n), BigInt(d)))).toBe(n === 0 ? 0 : n / d);
        },
      ),
      { numRuns: 5_000 },
    );
  });

  test('every double, written out exactly as a fraction, comes back', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: 0 }), (value) => {
        expect(fractionToNumber(exactly(value))).toBe(value);
      }),
      { numRuns: 5_000 },
    );
  });

  test('whatever lies nearer to one double than to its neighbour becomes that double', () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, min: 0, max: 1e300 }),
        fc.bigInt({ min: 1n, max: 10n ** 40n }),
        (value, part) => {
          const above = nextDouble(value);
          const half = multiplyFractions(
            addFractions(exactly(value), exactly(above)),
            fraction(1n, 2n),
          );
          const gap = addFractions(
            exactly(above),
            multiplyFractions(exactly(value), fraction(-1n, 1n)),
          );
          const nudge = multiplyFractions(gap, fraction(part, 10n ** 41n));
          const down = multiplyFractions(nudge, fraction(-1n, 1n));
          expect(fractionToNumber(addFractions(half, nudge))).toBe(above);
          expect(fractionToNumber(addFractions(half, down))).toBe(value);
          // Halfway goes to the even last bit.
          expect(fractionToNumber(half)).toBe(lastBit(value) === 0n ? value : above);
        },
      ),
      { numRuns: 2_000 },
    );
  });

  test.each([
    ['a third of thousands of digits', fraction(10n ** 5_000n, 3n * 10n ** 5_000n + 1n), 1 / 3],
    ['two, from numbers beyond every double', fraction(2n ** 4_001n + 1n, 2n ** 4_000n), 2],
    ['the smallest double', fraction(1n, 2n ** 1_074n), Number.MIN_VALUE],
    ['half the smallest double, a tie that goes to nought', fraction(1n, 2n ** 1_075n), 0],
    [
      'just above half the smallest double',
      fraction(2n ** 99n + 1n, 2n ** 1_174n),
      Number.MIN_VALUE,
    ],
    ['a share too small for a double', fraction(1n, 10n ** 400n), 0],
    ['the greatest double', fraction(2n ** 1_024n - 2n ** 971n, 1n), Number.MAX_VALUE],
    ['too large for a double', fraction(2n ** 1_024n, 1n), Infinity],
    ['a negative fraction', fraction(-1n, 4n), -0.25],
    ['one tenth', fraction(1n, 10n), 0.1],
  ])('%s', (_what, value, expected) => {
    expect(fractionToNumber(value)).toBe(expected);
  });
});

function bits(value: number): bigint {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  return view.getBigUint64(0);
}

function lastBit(value: number): bigint {
  return bits(value) & 1n;
}

function nextDouble(value: number): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setBigUint64(0, bits(value) + 1n);
  return view.getFloat64(0);
}

/** From the bits of IEEE 754 binary64: 11 bits of exponent, 52 of mantissa. */
function exactly(value: number) {
  const exponent = (bits(value) >> 52n) & 2_047n;
  const mantissa = bits(value) & (2n ** 52n - 1n);
  const whole = exponent === 0n ? mantissa : mantissa + 2n ** 52n;
  const power = (exponent === 0n ? 1n : exponent) - 1_075n;
  return power < 0n ? fraction(whole, 2n ** -power) : fraction(whole * 2n ** power, 1n);
}
