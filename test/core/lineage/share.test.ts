import fc from 'fast-check';
import {
  addFractions,
  compareFractions,
  fraction,
  fractionToNumber,
  fractionToString,
  multiplyFractions,
  type Fraction,
} from '../../../src/core/lineage/rational';
import {
  addShares,
  ALL,
  NONE,
  partOf,
  ROUNDED_ALL,
  shareToNumber,
  shareToString,
  type Share,
} from '../../../src/core/lineage/share';

/** A part of a whole, as a step of a trace takes it. */
const steps = fc
  .tuple(fc.integer({ min: 1, max: 30_000 }), fc.integer({ min: 0, max: 30_000 }))
  .map(([part, more]): [bigint, bigint] => [BigInt(part), BigInt(part + more)]);

const plain = ({ numerator, denominator }: Fraction): Fraction => ({ numerator, denominator });

/** How much of the exact value is missing, as a fraction of it. */
function missing(share: Share, exact: Fraction): Fraction {
  const difference = addFractions(exact, fraction(-share.numerator, share.denominator));
  return fraction(
    difference.numerator * exact.denominator,
    difference.denominator * exact.numerator,
  );
}

test('short ones are exact and in lowest terms, whatever is multiplied and added', () => {
  fc.assert(
    fc.property(fc.array(steps, { minLength: 1, maxLength: 12 }), steps, (taken, [part, whole]) => {
      let share = ALL;
      let exact = fraction(1n, 1n);
      for (const [one, of] of taken) {
        share = partOf(share, one, of);
        exact = multiplyFractions(exact, fraction(one, of));
      }
      const sum = addShares(share, partOf(ALL, part, whole));
      const exactSum = addFractions(exact, fraction(part, whole));

      expect(shareToString(share, 1000)).toBe(fractionToString(exact));
      expect(plain(share)).toEqual(fraction(exact.numerator, exact.denominator));
      expect(shareToString(sum, 1000)).toBe(fractionToString(exactSum));
      expect(shareToNumber(sum)).toBe(fractionToNumber(exactSum));
    }),
    { numRuns: 300 },
  );
});

test.each([
  ['exact at first', ALL],
  ['rounded from the start', ROUNDED_ALL],
])('long ones, %s, miss less than any double tells', (_, start) => {
  fc.assert(
    fc.property(fc.array(steps, { minLength: 200, maxLength: 260 }), (taken) => {
      let share = start;
      let sum = NONE;
      let exact = fraction(1n, 1n);
      let exactSum = fraction(0n, 1n);
      for (const [one, of] of taken) {
        share = partOf(share, one, of);
        exact = multiplyFractions(exact, { numerator: one, denominator: of });
        sum = addShares(sum, partOf(share, 1n, 1_000n));
        exactSum = addFractions(exactSum, fraction(exact.numerator, exact.denominator * 1_000n));
      }
      for (const [rounded, wanted] of [
        [share, exact],
        [sum, exactSum],
      ] as const) {
        const gap = missing(rounded, wanted);
        expect(gap.numerator >= 0n).toBe(true);
        expect(compareFractions(gap, fraction(1n, 1n << 170n))).toBeLessThan(0);
        expect(shareToNumber(rounded)).toBe(fractionToNumber(wanted));
      }
    }),
    { numRuns: 20 },
  );
});

test('what was rounded is never written out as if it were exact', () => {
  let share = ALL;
  for (let step = 0; step < 300; step++) share = partOf(share, 19n, 1_009n);

  expect(share.roundedBits).not.toBeNull();
  expect(shareToString(share, 10_000)).toBeNull();
  expect(shareToString(partOf(ALL, 1n, 3n), 2)).toBeNull();
});

test('all of a rounded share is the share', () => {
  expect(shareToNumber(partOf(ROUNDED_ALL, 22_003n, 22_003n))).toBe(1);
});

test('a whole of nothing has no parts', () => {
  expect(() => partOf(ALL, 1n, 0n)).toThrow(RangeError);
});
