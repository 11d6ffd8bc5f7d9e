import fc from 'fast-check';
import { checkLedger, shareOut } from '../../../src/core/lineage/mass-balance';

describe('the ledger of a lot', () => {
  const ledger = {
    initialMassG: 20_000,
    remainingMassG: 4_500,
    usedMassG: 9_000,
    lentMassG: 1_000,
    pottedMassG: 5_250,
    lostMassG: 250,
  };

  test('closes when every gram is somewhere', () => {
    expect(checkLedger(ledger)).toEqual({ closes: true, unaccountedG: 0 });
  });

  test.each([
    ['a gram is missing', { remainingMassG: 4_499 }, 1],
    ['a gram too many was potted', { pottedMassG: 5_251 }, -1],
    ['the lot was lighter than thought', { initialMassG: 19_000 }, -1_000],
  ])('does not close when %s', (_what, change, unaccountedG) => {
    expect(checkLedger({ ...ledger, ...change })).toEqual({ closes: false, unaccountedG });
  });

  test.each([
    ['lostMassG', -1],
    ['usedMassG', 0.5],
    ['lentMassG', NaN],
    ['initialMassG', Infinity],
  ])('refuses %s of %p', (name, massG) => {
    expect(() => checkLedger({ ...ledger, [name]: massG })).toThrow(new RegExp(`^${name} must be`));
  });

  test('refuses a sum that plain numbers cannot hold exactly', () => {
    const vast = { ...ledger, usedMassG: Number.MAX_SAFE_INTEGER };

    expect(() => checkLedger(vast)).toThrow(/^sum of all masses must be/);
  });
});

describe('sharing out whole grams', () => {
  test.each([
    ['the gram over goes to the first of equals', 100, [1, 1, 1], [34, 33, 33]],
    ['two grams over go to the first two of equals', 101, [1, 1, 1], [34, 34, 33]],
    // Quotas 4.5, 3.15, 1.35: the gram over goes to the remainder 0.5.
    ['the largest remainder gets the gram over', 9, [50, 35, 15], [5, 3, 1]],
    // Quotas 1.4, 1.4, 7.2: one gram over, and of the equal remainders 0.4 the earlier wins.
    ['the earlier of two largest remainders gets it', 10, [7, 7, 36], [2, 1, 7]],
    ['a weight of nothing gets nothing', 5, [0, 1, 0, 1], [0, 3, 0, 2]],
    ['nothing is shared out as nothing', 0, [3, 4], [0, 0]],
    ['one weight takes all', 12_345, [7], [12_345]],
  ])('%s', (_what, totalG, weights, parts) => {
    expect(shareOut(totalG, weights)).toEqual(parts);
  });

  test('the sum is exact and no part is a gram or more from its quota, however large the numbers', () => {
    const amount = fc.oneof(fc.nat(30), fc.nat(100_000), fc.maxSafeNat());
    fc.assert(
      fc.property(
        amount,
        fc.array(amount, { minLength: 1, maxLength: 12 }).filter((list) => list.some((w) => w > 0)),
        (totalG, weights) => {
          const parts = shareOut(totalG, weights);
          const weightSum = weights.reduce((sum, weight) => sum + BigInt(weight), 0n);
          expect(parts.reduce((sum, part) => sum + BigInt(part), 0n)).toBe(BigInt(totalG));
          parts.forEach((part, index) => {
            const off = BigInt(part) * weightSum - BigInt(totalG) * BigInt(weights[index]!);
            expect(off < weightSum && off > -weightSum).toBe(true);
          });
        },
      ),
      { numRuns: 2_000 },
    );
  });

  test.each([
    ['no weights', 10, [], /at least one weight above 0/],
    ['weights of nothing', 10, [0, 0], /at least one weight above 0/],
    ['half a gram', 0.5, [1], /^totalG must be/],
    ['a negative total', -1, [1], /^totalG must be/],
    ['a negative weight', 1, [2, -1], /^weights must be/],
    ['a weight that is no number', 1, [NaN], /^weights must be/],
  ])('%s is refused', (_what, totalG, weights, message) => {
    expect(() => shareOut(totalG, weights)).toThrow(message);
  });
});
