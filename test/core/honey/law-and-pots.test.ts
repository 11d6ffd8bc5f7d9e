import fc from 'fast-check';
import { compositionFindings, type HoneyKind } from '../../../src/core/honey/composition-law';
import { checkPots, potsFromBatch } from '../../../src/core/honey/pot-check';
import { tolerableDeficiencyG } from '../../../src/core/honey/tolerable-deficiency';

const blossom: HoneyKind = { honeydew: false, calluna: false, sucroseClass: 'general' };
const limitOf = (analysis: object, kind: Partial<HoneyKind> = {}) =>
  compositionFindings(analysis, { ...blossom, ...kind })[0]!.limitPercent;

describe('the law on composition', () => {
  // Directive 2001/110/EC, Annex II.
  test('water 20 %, ling heather 23 %', () => {
    expect(limitOf({ waterPercent: 18 })).toBe(20);
    expect(limitOf({ waterPercent: 18 }, { calluna: true })).toBe(23);
  });

  test('fructose and glucose at least 60 g per 100 g, honeydew and its blends 45', () => {
    expect(limitOf({ sugarsPercent: 70 })).toBe(60);
    expect(limitOf({ sugarsPercent: 70 }, { honeydew: true })).toBe(45);
  });

  test('sucrose at most 5, false acacia and citrus 10, lavender and borage 15', () => {
    expect(limitOf({ sucrosePercent: 1 })).toBe(5);
    expect(limitOf({ sucrosePercent: 1 }, { sucroseClass: 'raised' })).toBe(10);
    expect(limitOf({ sucrosePercent: 1 }, { sucroseClass: 'highest' })).toBe(15);
  });

  test('a value at its limit is within, one beyond is not, one not measured is not judged', () => {
    const at = { waterPercent: 20, sugarsPercent: 60, sucrosePercent: 5 };
    const beyond = { waterPercent: 20.5, sugarsPercent: 59.5, sucrosePercent: 5.5 };

    const kept = compositionFindings(at, blossom);
    const broken = compositionFindings(beyond, blossom);

    expect(kept.map(({ what }) => what)).toEqual(['water', 'fructose and glucose', 'sucrose']);
    expect(kept.map(({ within }) => within)).toEqual([true, true, true]);
    expect(kept.map(({ leftPercent }) => leftPercent)).toEqual([0, 0, 0]);
    expect(broken.map(({ within }) => within)).toEqual([false, false, false]);
    expect(broken.map(({ leftPercent }) => leftPercent)).toEqual([-0.5, -0.5, -0.5]);
    expect(compositionFindings({}, blossom)).toEqual([]);
  });

  test.each(['waterPercent', 'sugarsPercent', 'sucrosePercent'])('%s is a percentage', (name) => {
    for (const value of [-0.1, 100.1, NaN]) {
      expect(() => compositionFindings({ [name]: value }, blossom)).toThrow(
        `${name} must be a number from 0 to 100`,
      );
    }
  });
});

describe('net quantity', () => {
  // OIML R 87, Table 1 (also Directive 76/211/EEC and GB); percentages rounded up to 0.1 g.
  test.each([
    [30, 2.7],
    [50, 4.5],
    [50.9, 4.5],
    [75, 4.5],
    [100, 4.5],
    [100.9, 4.6],
    [113, 5.1],
    [200, 9],
    [200.9, 9],
    [227, 9],
    [250, 9],
    [300.9, 9.1],
    [340, 10.2],
    [350, 10.5],
    [454, 13.7],
    [500, 15],
    [500.9, 15],
    [1000, 15],
    [1000.9, 15.1],
    [1360, 20.4],
    [3000, 45],
    [10_000, 150],
    [10_000.9, 150],
    [12_500, 150],
    [15_000, 150],
    [15_000.9, 150.1],
    [25_000, 250],
  ])('a pot of %d g may fall short by %d g', (nominalG, toleranceG) => {
    expect(tolerableDeficiencyG(nominalG)).toBe(toleranceG);
  });

  test('the steps join without a jump, and never fall', () => {
    for (const boundaryG of [50, 100, 200, 300, 500, 1000, 10_000, 15_000]) {
      const jump = tolerableDeficiencyG(boundaryG + 0.001) - tolerableDeficiencyG(boundaryG);
      expect(jump).toBeGreaterThanOrEqual(0);
      expect(jump).toBeLessThan(0.11);
    }
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 24_999 }), (nominalG) => {
        expect(tolerableDeficiencyG(nominalG + 1)).toBeGreaterThanOrEqual(
          tolerableDeficiencyG(nominalG),
        );
      }),
      { numRuns: 1000 },
    );
  });

  test.each([4.9, 25_001, NaN])('a label of %d g is outside the rules', (nominalG) => {
    expect(() => tolerableDeficiencyG(nominalG)).toThrow(
      /nominalG must be a number from 5 to 25000/,
    );
  });

  const pots = (count: number, massG: number, ...others: number[]) => [
    ...Array.from({ length: count }, () => massG),
    ...others,
  ];

  // OIML R 87: mean at the label, at most 2.5 % short by more than T, none by more than 2T.
  test('forty pots may hold one that is short by more than T, thirty-nine none', () => {
    expect(checkPots(454, pots(39, 456, 440))).toMatchObject({
      kind: 'checked',
      pots: 40,
      tolerableDeficiencyG: 13.7,
      inadequate: 1,
      inadequateAllowed: 1,
      forbidden: 0,
      meanIsEnough: true,
      passes: true,
    });
    expect(checkPots(454, pots(38, 456, 440))).toMatchObject({
      inadequate: 1,
      inadequateAllowed: 0,
      passes: false,
    });
  });

  test('short by exactly T is not yet inadequate, by exactly 2T not yet forbidden', () => {
    expect(checkPots(454, pots(10, 460, 440.3))).toMatchObject({ inadequate: 0, passes: true });
    expect(checkPots(454, pots(100, 456, 426.6))).toMatchObject({ forbidden: 0, passes: true });
    expect(checkPots(454, pots(100, 456, 426.5))).toMatchObject({
      inadequate: 1,
      forbidden: 1,
      passes: false,
    });
  });

  test('a mean below the label fails, at the label it passes', () => {
    expect(checkPots(250, [250, 249, 251])).toMatchObject({ meanG: 250, passes: true });
    expect(checkPots(250, [250, 249, 250.9])).toMatchObject({
      meanIsEnough: false,
      passes: false,
    });
    expect(checkPots(250, [250.1, 250.2, 249.7])).toMatchObject({ meanIsEnough: true });
  });

  test('no pots weighed is no result', () => {
    expect(checkPots(250, [])).toEqual({ kind: 'no-pots' });
    expect(() => checkPots(250, [-1])).toThrow(/netMassesG must be a number from 0 to 100000/);
  });

  // By hand: 27,500 − 2750 − 250 = 24,500 = 53 · 456 + 332.
  test('a batch fills so many pots and leaves the rest', () => {
    const batch = { batchMassG: 27_500, putByMassG: 2750, lostMassG: 250, filledMassG: 456 };

    expect(potsFromBatch(batch)).toEqual({ pots: 53, leftMassG: 332 });
    expect(potsFromBatch({ ...batch, filledMassG: 24_500 })).toEqual({ pots: 1, leftMassG: 0 });
    expect(potsFromBatch({ ...batch, lostMassG: 24_750 })).toEqual({ pots: 0, leftMassG: 0 });
  });

  test('pots and rest always add up to the gram', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 500_000 }),
        fc.integer({ min: 0, max: 1000 }),
        fc.integer({ min: 1, max: 5000 }),
        (spareG, lostMassG, filledMassG) => {
          const batchMassG = spareG + lostMassG + 100;
          const found = potsFromBatch({ batchMassG, putByMassG: 100, lostMassG, filledMassG });

          expect(found.pots * filledMassG + found.leftMassG + lostMassG + 100).toBe(batchMassG);
          expect(found.leftMassG).toBeLessThan(filledMassG);
        },
      ),
      { numRuns: 1000 },
    );
  });

  test('masses that are not whole grams, or more than there is, are refused', () => {
    const batch = { batchMassG: 1000, putByMassG: 100, lostMassG: 10, filledMassG: 454 };

    expect(() => potsFromBatch({ ...batch, filledMassG: 0 })).toThrow(
      /filledMassG must be.*above 0/,
    );
    expect(() => potsFromBatch({ ...batch, lostMassG: 0.5 })).toThrow(
      'lostMassG must be whole grams',
    );
    expect(() => potsFromBatch({ ...batch, lostMassG: -1 })).toThrow(/lostMassG must be a number/);
    expect(() => potsFromBatch({ ...batch, putByMassG: 991 })).toThrow(
      /must not exceed batchMassG/,
    );
  });
});
