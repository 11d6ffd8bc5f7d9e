import fc from 'fast-check';
import { chooseSeed } from '../../../src/core/planning/choose-seed';
import { partInCommon, type SeedLot } from '../../../src/core/planning/rank-seed';

const lime = new Map([['lime', 1]]);
const mixed = new Map([
  ['lime', 0.5],
  ['rape', 0.5],
]);

const lot = (lotId: string, different: Partial<SeedLot> = {}): SeedLot => ({
  lotId,
  freeMassG: 3000,
  grain: 'fine',
  floralParts: lime,
  madeAt: 0,
  ...different,
});

const wish = { massG: 2500, honeyGrain: 'medium' as const, floralParts: lime };

const order = (lots: SeedLot[]) => chooseSeed(lots, wish).fitting.map(({ lotId }) => lotId);

test('nearer in floral source goes before finer, finer before fresher, and an unknown grain last', () => {
  expect(
    order([
      lot('unknown', { grain: null }),
      lot('far', { floralParts: new Map([['rape', 1]]) }),
      lot('half', { floralParts: mixed }),
      lot('old'),
      lot('medium', { grain: 'medium', madeAt: 10 }),
      lot('fresh', { madeAt: 9 }),
    ]),
  ).toEqual(['fresh', 'old', 'medium', 'half', 'far', 'unknown']);
});

test('too little and too coarse do not fit; a gram decides', () => {
  const lots = [
    lot('enough', { freeMassG: 2500 }),
    lot('short', { freeMassG: 2499 }),
    lot('coarse', { grain: 'coarse' }),
  ];

  const { fitting, unfit } = chooseSeed(lots, wish);

  expect(fitting.map(({ lotId }) => lotId)).toEqual(['enough']);
  expect(unfit.map(({ lot: { lotId }, because }) => [lotId, because])).toEqual([
    ['coarse', 'too-coarse'],
    ['short', 'too-little'],
  ]);
});

test('of a honey whose grain is not known no seed is too coarse', () => {
  const { fitting } = chooseSeed([lot('coarse', { grain: 'coarse' })], {
    ...wish,
    honeyGrain: null,
  });
  expect(fitting).toHaveLength(1);
});

test('what two honeys have in common is the sum of the smaller parts', () => {
  expect(partInCommon(lime, mixed)).toBe(0.5);
  expect(partInCommon(mixed, mixed)).toBe(1);
  expect(partInCommon(lime, new Map())).toBe(0);
});

test('the order of the lots given does not matter, and every lot is told of once', () => {
  const someLot = fc.record({
    lotId: fc.uuid(),
    freeMassG: fc.integer({ min: 2000, max: 3000 }),
    grain: fc.constantFrom('fine' as const, 'medium' as const, 'coarse' as const, null),
    floralParts: fc.constantFrom(lime, mixed, new Map<string, number>()),
    madeAt: fc.integer({ min: 0, max: 3 }),
  });
  const lots = fc.uniqueArray(someLot, { selector: ({ lotId }) => lotId, maxLength: 8 });
  fc.assert(
    fc.property(lots, (given) => {
      const found = chooseSeed(given, wish);
      expect(chooseSeed(given.toReversed(), wish).fitting).toEqual(found.fitting);
      expect(found.fitting.length + found.unfit.length).toBe(given.length);
    }),
  );
});
