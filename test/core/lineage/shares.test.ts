import fc from 'fast-check';
import type { LotEdge } from '../../../src/core/lineage/lot-graph';
import {
  addFractions,
  compareFractions,
  fraction,
  fractionToString,
  type Fraction,
} from '../../../src/core/lineage/rational';
import { shareToNumber, shareToString } from '../../../src/core/lineage/share';
import {
  ancestorShares,
  descendantShares,
  MOST_EXACT_LOTS,
  type LotShare,
} from '../../../src/core/lineage/shares';
import { enumeratePaths } from './path-enumeration';
import { randomLots } from './random-lots';

const edge = (parentId: string, massG: number, childId: string): LotEdge => ({
  childId,
  parentId,
  massG,
});

const writtenOut = (shares: ReadonlyMap<string, LotShare>) =>
  Object.fromEntries(
    [...shares].map(([id, { share, nearest, farthest }]) => [
      id,
      { share: fractionToString(share), nearest, farthest },
    ]),
  );

describe('two batches from one seed, worked by hand', () => {
  // First: 9 kg lime honey + 1 kg seed. Second: 6 kg lime honey + 10 kg rape honey + 4 kg of the first.
  // Lime in the second: 6/20 directly + 4/20 of 9/10 by way of the first = 30/100 + 18/100 = 12/25.
  const edges = [
    edge('lime', 9_000, 'first'),
    edge('seed', 1_000, 'first'),
    edge('lime', 6_000, 'second'),
    edge('rape', 10_000, 'second'),
    edge('first', 4_000, 'second'),
  ];

  test('the second batch holds lime by both ways, the first batch, and a fiftieth of the seed', () => {
    expect(writtenOut(ancestorShares(edges, 'second'))).toEqual({
      lime: { share: '12/25', nearest: 1, farthest: 2 },
      rape: { share: '1/2', nearest: 1, farthest: 1 },
      first: { share: '1/5', nearest: 1, farthest: 1 },
      seed: { share: '1/50', nearest: 2, farthest: 2 },
    });
  });

  test('seen from the lime honey, it makes up nine tenths of the first batch and 12/25 of the second', () => {
    expect(writtenOut(descendantShares(edges, 'lime'))).toEqual({
      first: { share: '9/10', nearest: 1, farthest: 1 },
      second: { share: '12/25', nearest: 1, farthest: 2 },
    });
  });

  test('honey as brought in has no ancestors, and a lot never used has no descendants', () => {
    expect(ancestorShares(edges, 'lime').size).toBe(0);
    expect(descendantShares(edges, 'second').size).toBe(0);
    expect(ancestorShares([], 'unknown').size).toBe(0);
  });

  test('a trace that may not enter the first batch finds only what came without it', () => {
    const shares = ancestorShares(edges, 'second', (id) => id !== 'first');

    expect(writtenOut(shares)).toEqual({
      lime: { share: '3/10', nearest: 1, farthest: 1 },
      rape: { share: '1/2', nearest: 1, farthest: 1 },
    });
  });

  test('the same honey poured in twice counts twice', () => {
    const twice = [edge('a', 100, 'mix'), edge('b', 100, 'mix'), edge('a', 200, 'mix')];

    expect(writtenOut(ancestorShares(twice, 'mix'))['a']).toEqual({
      share: '3/4',
      nearest: 1,
      farthest: 1,
    });
  });
});

describe('against the walk along every single path', () => {
  test('ancestors, their exact shares and their distances agree on random graphs', () => {
    let shared = 0;
    fc.assert(
      fc.property(randomLots, ({ lotIds, edges }) => {
        for (const lotId of lotIds) {
          const walked = enumeratePaths(edges, lotId);
          const expected: Record<string, object> = {};
          for (const [id, { paths, ...rest }] of walked) {
            expected[id] = rest;
            if (paths > 1) shared += 1;
          }
          expect(writtenOut(ancestorShares(edges, lotId))).toEqual(expected);
        }
      }),
      { numRuns: 1_000 },
    );
    expect(shared).toBeGreaterThan(1_000);
  });

  test('x is an ancestor of y exactly when y is a descendant of x, with the same share and distances', () => {
    fc.assert(
      fc.property(randomLots, ({ lotIds, edges }) => {
        const down = new Map(lotIds.map((id) => [id, writtenOut(descendantShares(edges, id))]));
        const up = new Map(lotIds.map((id) => [id, writtenOut(ancestorShares(edges, id))]));
        for (const x of lotIds) {
          for (const y of lotIds) expect(down.get(x)![y]).toEqual(up.get(y)![x]);
        }
      }),
      { numRuns: 1_000 },
    );
  });
});

describe('graphs with more paths than could ever be walked', () => {
  // Each level is made from both lots of the level before: 2^59 paths from the top to one founding lot.
  const ladder = Array.from({ length: 60 }, (_, level) => [
    edge(`a${level}`, 2_000, `a${level + 1}`),
    edge(`b${level}`, 1_000, `a${level + 1}`),
    edge(`a${level}`, 1_000, `b${level + 1}`),
    edge(`b${level}`, 2_000, `b${level + 1}`),
  ]).flat();

  test('sixty levels of two lots, each in both of the next, come out as the power of the matrix', () => {
    // The matrix (2 1; 1 2) / 3 has eigenvalues 1 and 1/3, so its power n is (1 ± 3^-n) / 2.
    const power = 3n ** 60n;
    const shares = ancestorShares(ladder, 'a60');

    expect(shares.size).toBe(120);
    const a = shares.get('a0')!;
    const b = shares.get('b0')!;
    expect(compareFractions(a.share, fraction(power + 1n, 2n * power))).toBe(0);
    expect(compareFractions(b.share, fraction(power - 1n, 2n * power))).toBe(0);
    expect([a.nearest, a.farthest]).toEqual([60, 60]);
    expect(compareFractions(descendantShares(ladder, 'a0').get('a60')!.share, a.share)).toBe(0);
  });

  test('a line of ten thousand put-by lots is traced to its beginning', () => {
    const line = Array.from({ length: 10_000 }, (_, step) => edge(`${step}`, 1, `${step + 1}`));

    const first = ancestorShares(line, '10000').get('0')!;

    expect(fractionToString(first.share)).toBe('1/1');
    expect(first.farthest).toBe(10_000);
  });

  test('a trace of more lots than anybody reads is rounded, and each share is the nearest double all the same', () => {
    // A fan: each lot is a third of the seed and two thirds of another honey.
    const fan = Array.from({ length: MOST_EXACT_LOTS }, (_, index) => [
      edge('seed', 1_000, `lot${index}`),
      edge(`honey${index}`, 2_000, `lot${index}`),
    ]).flat();
    const last = [edge('lot0', 700, 'last'), edge('honey0', 300, 'last')];

    const shares = descendantShares([...fan, ...last], 'seed');

    expect(shares.size).toBe(MOST_EXACT_LOTS + 1);
    expect(shareToString(shares.get('lot7')!.share, 400)).toBeNull();
    expect(shareToNumber(shares.get('lot7')!.share)).toBe(1 / 3);
    expect(shareToNumber(shares.get('last')!.share)).toBe(7 / 30);
    expect(
      shareToString(
        descendantShares([...last, ...fan.slice(0, 2)], 'seed').get('last')!.share,
        400,
      ),
    ).toBe('7/30');
  });

  test('founding lots of a seed line of three hundred batches sum to 1, but for less than any scale or double can tell', () => {
    const line = Array.from({ length: 300 }, (_, batch) => [
      edge(`honey${batch}`, 11_003 + ((batch * 7_919) % 9_001), `batch${batch}`),
      edge(`honey${Math.max(batch - 3, 0)}`, 6_007 + ((batch * 104_729) % 997), `batch${batch}`),
      edge(batch < 3 ? 'seed' : `batch${batch - 3}`, 1_201 + (batch % 89), `batch${batch}`),
      edge(batch < 1 ? 'seed' : `batch${batch - 1}`, 403 + (batch % 13), `batch${batch}`),
    ]).flat();

    const founding = [...ancestorShares(line, 'batch299')].filter(
      ([id]) => !id.startsWith('batch'),
    );

    const sum = founding.reduce<Fraction>((total, [, { share }]) => addFractions(total, share), {
      numerator: 0n,
      denominator: 1n,
    });
    expect(founding).toHaveLength(301);
    const missing = addFractions(fraction(1n, 1n), fraction(-sum.numerator, sum.denominator));
    expect(missing.numerator).toBeGreaterThanOrEqual(0n);
    expect(compareFractions(missing, fraction(1n, 1n << 170n))).toBeLessThan(0);
  });
});

describe('what cannot be a lineage is refused', () => {
  const cycle = [edge('a', 1, 'b'), edge('b', 1, 'c'), edge('c', 1, 'a'), edge('c', 1, 'd')];

  test.each(['a', 'b', 'c', 'd'])('a lot that is its own ancestor, met from %s', (lotId) => {
    expect(() => ancestorShares(cycle, lotId)).toThrow(/cycle: lot [abc] /);
  });

  test('a lot that is its own descendant', () => {
    expect(() => descendantShares(cycle, 'a')).toThrow(/cycle/);
    expect(() => descendantShares([edge('a', 1, 'a')], 'a')).toThrow(/cycle/);
  });

  test.each([0, -1, 0.5, NaN, Infinity, 2 ** 53])('a mass of %p grams', (massG) => {
    expect(() => ancestorShares([edge('a', massG, 'b')], 'b')).toThrow(/^massG must be a whole/);
  });
});
