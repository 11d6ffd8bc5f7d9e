import fc from 'fast-check';
import { honeyGrain } from '../../../src/core/planning/honey-grain';
import { partInCommon, rankSeed, type SeedLot } from '../../../src/core/planning/rank-seed';

const lime = new Map([['lime', 1]]);
const rape = new Map([['rape', 1]]);
const wish = { massG: 2500, honeyGrain: 'medium' as const, floralParts: lime };

const lot = (lotId: string, different: Partial<SeedLot> = {}): SeedLot => ({
  lotId,
  freeMassG: 3000,
  grain: 'fine',
  floralParts: lime,
  madeAt: 0,
  textureScore: 0.5,
  isOwn: true,
  onHold: false,
  ...different,
});

const ids = (lots: SeedLot[]) => rankSeed(lots, wish).map(({ lot: { lotId } }) => lotId);

test('each thing that is looked at decides only what those before it leave open', () => {
  const inOrder = [
    lot('smoother', { grain: 'medium', isOwn: false, textureScore: 0.9 }),
    lot('fresher', { madeAt: 9 }),
    lot('a'),
    lot('b'),
    lot('borrowed', { isOwn: false, madeAt: 99 }),
    lot('medium', { grain: 'medium', madeAt: 99 }),
    lot('less smooth', { textureScore: 0.3, madeAt: 99 }),
    lot('far', { floralParts: rape, textureScore: 1, madeAt: 99 }),
    lot('grain not known', { grain: null, textureScore: 1, madeAt: 99 }),
    lot('too coarse', { grain: 'coarse', textureScore: 1, madeAt: 99 }),
    lot('too little', { freeMassG: 2499, textureScore: 1, madeAt: 99 }),
    lot('on hold', { onHold: true, textureScore: 1, madeAt: 99 }),
  ];
  expect(ids(inOrder.toReversed())).toEqual(inOrder.map(({ lotId }) => lotId));
});

test('all that speaks against a lot is told, the gravest first', () => {
  const bad = lot('bad', { onHold: true, freeMassG: 0, grain: 'coarse' });
  expect(rankSeed([bad], wish)[0]?.obstacles).toEqual(['on-hold', 'too-little', 'too-coarse']);
});

test('a hair’s breadth of floral source or texture does not decide', () => {
  const nearly = new Map([
    ['lime', 0.999],
    ['rape', 0.001],
  ]);
  expect(
    ids([
      lot('nearly', { floralParts: nearly, textureScore: 0.53, madeAt: 9 }),
      lot('all', { textureScore: 0.54 }),
    ]),
  ).toEqual(['nearly', 'all']);
});

const someGrain = fc.constantFrom('fine' as const, 'medium' as const, 'coarse' as const, null);
const someLot = fc.record({
  lotId: fc.uuid(),
  freeMassG: fc.integer({ min: 2400, max: 2600 }),
  grain: someGrain,
  floralParts: fc.constantFrom(lime, rape, new Map<string, number>()),
  madeAt: fc.integer({ min: 0, max: 3 }),
  textureScore: fc.constantFrom(0, 0.52, 0.54, 0.9, null),
  isOwn: fc.boolean(),
  onHold: fc.boolean(),
});
const someLots = fc.uniqueArray(someLot, { selector: ({ lotId }) => lotId, maxLength: 12 });
const someWish = fc.record({
  massG: fc.integer({ min: 2400, max: 2600 }),
  honeyGrain: someGrain,
  floralParts: fc.constantFrom(lime, rape, new Map<string, number>()),
});

test('the order is total: it does not hang on the order given, and every two lots stand as they do among all', () => {
  fc.assert(
    fc.property(someLots, someWish, (lots, some) => {
      const ranked = rankSeed(lots, some);
      expect(rankSeed(lots.toReversed(), some)).toEqual(ranked);
      expect(new Set(ranked.map((one) => one.lot))).toEqual(new Set(lots));
      for (const [index, one] of ranked.entries()) {
        for (const later of ranked.slice(index + 1)) {
          expect(rankSeed([later.lot, one.lot], some)).toEqual([one, later]);
        }
      }
    }),
  );
});

test('too little, too coarse or held back is never given as fitting, and nothing that fits stands behind it', () => {
  const grains = ['fine', 'medium', 'coarse'];
  fc.assert(
    fc.property(someLots, someWish, (lots, some) => {
      const ranked = rankSeed(lots, some);
      for (const { lot: one, obstacles, percentInCommon } of ranked) {
        const isTooCoarse =
          one.grain !== null &&
          some.honeyGrain !== null &&
          grains.indexOf(one.grain) > grains.indexOf(some.honeyGrain);
        expect(obstacles.includes('too-coarse')).toBe(isTooCoarse);
        expect(obstacles.includes('too-little')).toBe(one.freeMassG < some.massG);
        expect(obstacles.includes('on-hold')).toBe(one.onHold);
        expect(percentInCommon / 100).toBeCloseTo(
          partInCommon(one.floralParts, some.floralParts),
          2,
        );
      }
      const fitting = ranked.map(({ obstacles }) => obstacles.length === 0);
      expect(fitting).toEqual(fitting.toSorted((a, b) => Number(b) - Number(a)));
    }),
  );
});

test('a honey sets in the grain of most of it', () => {
  const sources = [
    { id: 'lime', grain: 'medium' as const },
    { id: 'rape', grain: 'fine' as const },
  ];
  const parts = (limePart: number) =>
    new Map([
      ['lime', limePart],
      ['rape', 1 - limePart],
    ]);
  expect(honeyGrain(parts(0.6), sources)).toBe('medium');
  expect(honeyGrain(parts(0.5), sources)).toBe('fine');
  expect(honeyGrain(new Map(), sources)).toBeNull();
});
