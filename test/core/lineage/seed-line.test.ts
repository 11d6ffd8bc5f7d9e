import { fractionToString } from '../../../src/core/lineage/rational';
import { seedLine, type LotKind } from '../../../src/core/lineage/seed-line';
import type { LotEdge } from '../../../src/core/lineage/lot-graph';
import { written } from './path-enumeration';

const made = (childId: string, inputs: Record<string, number>): LotEdge[] =>
  Object.entries(inputs).map(([parentId, massG]) => ({ childId, parentId, massG }));

/** Kinds by the first word of the id. */
const kindsOf = (edges: readonly LotEdge[]): Map<string, LotKind> =>
  new Map(
    edges
      .flatMap(({ childId, parentId }) => [childId, parentId])
      .map((id) => [id, id.split(' ')[0] as LotKind]),
  );

const lineOf = (edges: readonly LotEdge[], lotId: string) => seedLine(edges, lotId, kindsOf(edges));

describe('a line from bought seed, a tenth of seed to each batch', () => {
  const edges = [
    ...made('creamed 1', { 'honey a': 9_000, 'seed bought': 1_000 }),
    ...made('seed 1', { 'creamed 1': 2_000 }),
    ...made('creamed 2', { 'honey b': 18_000, 'seed 1': 2_000 }),
    ...made('creamed 3', { 'honey c': 9_000, 'creamed 2': 1_000 }),
  ];

  test('bought seed is of generation 0 and wholly itself', () => {
    const line = lineOf(edges, 'seed bought');

    expect(line.generation).toBe(0);
    expect(written(line.firstSeeds)).toEqual({ 'seed bought': '1/1' });
    expect(fractionToString(line.firstSeedShare)).toBe('1/1');
  });

  test('putting seed by is no batch: the seed is of the generation of what it was taken from', () => {
    expect(lineOf(edges, 'creamed 1').generation).toBe(1);
    expect(lineOf(edges, 'seed 1').generation).toBe(1);
  });

  test('three batches on, a thousandth of the bought seed is left', () => {
    const line = lineOf(edges, 'creamed 3');

    expect(line.generation).toBe(3);
    expect(written(line.firstSeeds)).toEqual({ 'seed bought': '1/1000' });
    expect(fractionToString(line.firstSeedShare)).toBe('1/1000');
  });

  test('honey is in no line', () => {
    const line = lineOf(edges, 'honey a');

    expect(line).toEqual({
      generation: null,
      firstSeeds: new Map(),
      firstSeedShare: { numerator: 0n, denominator: 1n, roundedBits: null },
    });
  });
});

test('of two seeds the longer line counts, and each first seed keeps its own share', () => {
  const edges = [
    ...made('creamed old', { 'honey a': 9, 'seed first': 1 }),
    ...made('creamed older', { 'honey b': 9, 'creamed old': 1 }),
    ...made('creamed new', { 'honey c': 8, 'creamed older': 1, 'seed fresh': 1 }),
  ];

  const line = lineOf(edges, 'creamed new');

  expect(line.generation).toBe(3);
  expect(written(line.firstSeeds)).toEqual({ 'seed first': '1/1000', 'seed fresh': '1/10' });
  expect(fractionToString(line.firstSeedShare)).toBe('101/1000');
});

test('seed put together from two batches is of the later generation', () => {
  const edges = [
    ...made('creamed 1', { 'honey a': 9, 'seed bought': 1 }),
    ...made('creamed 2', { 'honey a': 9, 'creamed 1': 1 }),
    ...made('seed both', { 'creamed 1': 500, 'creamed 2': 500 }),
  ];

  const line = lineOf(edges, 'seed both');

  expect(line.generation).toBe(2);
  expect(written(line.firstSeeds)).toEqual({ 'seed bought': '11/200' });
});

test('a batch that set fine without seed begins a line, and so does seed put by from fine honey', () => {
  const edges = [
    ...made('creamed own', { 'honey a': 9_000 }),
    ...made('seed own', { 'honey b': 1_000 }),
    ...made('creamed next', { 'honey a': 8_000, 'creamed own': 1_000, 'seed own': 1_000 }),
  ];

  expect(lineOf(edges, 'creamed own').generation).toBe(0);
  expect(lineOf(edges, 'seed own').generation).toBe(0);
  const next = lineOf(edges, 'creamed next');
  expect(next.generation).toBe(1);
  expect(written(next.firstSeeds)).toEqual({ 'creamed own': '1/10', 'seed own': '1/10' });
});

test('melted down to honey, creamed honey leaves its line behind', () => {
  const edges = [
    ...made('creamed 1', { 'honey a': 9, 'seed bought': 1 }),
    ...made('honey melted', { 'creamed 1': 10 }),
    ...made('creamed 2', { 'honey melted': 9, 'seed bought': 1 }),
  ];

  const line = lineOf(edges, 'creamed 2');

  expect(line.generation).toBe(1);
  expect(written(line.firstSeeds)).toEqual({ 'seed bought': '1/10' });
});

describe('what cannot be answered is refused', () => {
  const edges = made('creamed 1', { 'honey a': 9, 'seed bought': 1 });

  test('a lot without a kind', () => {
    const kinds = kindsOf(edges);
    kinds.delete('honey a');

    expect(() => seedLine(edges, 'creamed 1', kinds)).toThrow('kinds must name lot honey a');
  });

  test('seed that descends from itself', () => {
    const cycle = [...edges, ...made('seed bought', { 'creamed 1': 5 })];

    expect(() => lineOf(cycle, 'creamed 1')).toThrow(/cycle/);
  });
});
