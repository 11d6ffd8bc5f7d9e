import fc from 'fast-check';
import {
  composition,
  foundingShares,
  type MakeupPart,
} from '../../../src/core/lineage/composition';
import { addFractions, fractionToString, ZERO } from '../../../src/core/lineage/rational';
import { enumeratePaths, written } from './path-enumeration';
import { randomLots } from './random-lots';

const whole = (key: string): MakeupPart[] => [{ key, hundredthsOfPercent: 10_000 }];

describe('a creamed lot of two honeys and seed, worked by hand', () => {
  // 12 kg spring honey (70 % rape, 30 % fruit blossom) + 6 kg lime honey + 2 kg seed (all rape).
  const edges = [
    { childId: 'creamed', parentId: 'spring', massG: 12_000 },
    { childId: 'creamed', parentId: 'lime', massG: 6_000 },
    { childId: 'creamed', parentId: 'seed', massG: 2_000 },
  ];
  const floral = new Map([
    [
      'spring',
      [
        { key: 'rape', hundredthsOfPercent: 7_000 },
        { key: 'fruit blossom', hundredthsOfPercent: 3_000 },
      ],
    ],
    ['lime', whole('lime')],
    ['seed', whole('rape')],
  ]);

  test('it is 52 % rape, 30 % lime and 18 % fruit blossom, the greatest first', () => {
    expect(
      [...composition(edges, 'creamed', floral)].map(([key, w]) => [key, fractionToString(w)]),
    ).toEqual([
      ['rape', '13/25'],
      ['lime', '3/10'],
      ['fruit blossom', '9/50'],
    ]);
  });

  test('by origin it is whatever the founding lots say of their origin', () => {
    const origin = new Map([
      ['spring', whole('home apiary')],
      ['lime', whole('town apiary')],
      ['seed', whole('home apiary')],
    ]);

    expect(written(composition(edges, 'creamed', origin))).toEqual({
      'home apiary': '7/10',
      'town apiary': '3/10',
    });
  });

  test('honey as brought in is composed as its own makeup says', () => {
    expect(written(composition(edges, 'spring', floral))).toEqual({
      rape: '7/10',
      'fruit blossom': '3/10',
    });
  });

  test('a key with no part in the lot is not listed, and equal weights stand by key', () => {
    const makeup = new Map([
      [
        'x',
        [
          { key: 'lime', hundredthsOfPercent: 5_000 },
          { key: 'heather', hundredthsOfPercent: 0 },
          { key: 'clover', hundredthsOfPercent: 5_000 },
        ],
      ],
    ]);

    expect([...composition([], 'x', makeup).keys()]).toEqual(['clover', 'lime']);
  });

  test('a founding lot without makeup is refused by name, not left out', () => {
    const makeups = new Map(floral);
    makeups.delete('seed');

    expect(() => composition(edges, 'creamed', makeups)).toThrow(/must list founding lot seed/);
  });

  test.each([
    [
      'parts that do not sum to the whole',
      [{ key: 'rape', hundredthsOfPercent: 9_999 }],
      /sum to 10000, got 9999/,
    ],
    ['no parts', [], /sum to 10000, got 0/],
    ['a broken part', [{ key: 'rape', hundredthsOfPercent: 0.5 }], /whole number from 0 to 10000/],
    ['a negative part', [{ key: 'rape', hundredthsOfPercent: -1 }], /whole number from 0 to 10000/],
    ['a part that is no number', [{ key: 'rape', hundredthsOfPercent: NaN }], /whole number/],
  ])('%s is refused', (_what, parts, message) => {
    expect(() => composition([], 'x', new Map([['x', parts]]))).toThrow(message);
  });
});

test('the founding lots of any lot sum to exactly 1 and are what the walk along all paths finds', () => {
  fc.assert(
    fc.property(randomLots, ({ lotIds, edges }) => {
      for (const lotId of lotIds) {
        const founding = foundingShares(edges, lotId);
        expect(fractionToString([...founding.values()].reduce(addFractions, ZERO))).toBe('1/1');

        const walked = [...enumeratePaths(edges, lotId)]
          .filter(([id]) => !edges.some((edge) => edge.childId === id))
          .map(([id, { share }]) => [id, share]);
        const itself = [[lotId, '1/1']];
        expect(written(founding)).toEqual(Object.fromEntries(walked.length > 0 ? walked : itself));
      }
    }),
    { numRuns: 1_000 },
  );
});

test('the weights of any composition sum to exactly 1', () => {
  fc.assert(
    fc.property(
      randomLots,
      fc.array(fc.nat(10_000), { maxLength: 4 }),
      ({ lotIds, edges }, cuts) => {
        const makeups = new Map(lotIds.map((id) => [id, partsFrom(cuts, Number(id))]));
        const weights = composition(edges, lotIds[lotIds.length - 1]!, makeups);
        expect(fractionToString([...weights.values()].reduce(addFractions, ZERO))).toBe('1/1');
      },
    ),
  );
});

/** Cuts the whole at the given marks and names the pieces, differently for each lot. */
function partsFrom(cuts: readonly number[], offset: number): MakeupPart[] {
  const marks = [0, ...cuts, 10_000].sort((a, b) => a - b);
  return marks.slice(1).map((mark, index) => ({
    key: `source ${(index + offset) % 3}`,
    hundredthsOfPercent: mark - marks[index]!,
  }));
}
