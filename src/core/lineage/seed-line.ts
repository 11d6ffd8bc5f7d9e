import { lotGraph, orderFrom, type LotEdge } from './lot-graph';
import { addShares, ALL, NONE, type Share } from './share';
import { ancestorShares } from './shares';

export type LotKind = 'honey' | 'seed' | 'creamed';

/** Where a lot stands in its seed line. */
export type SeedLine = {
  /** Batches since the first seed along the longest line of seed; null for honey, which is in no line. */
  readonly generation: number | null;
  /** The lots that began the line, and the share of each still in the lot. */
  readonly firstSeeds: ReadonlyMap<string, Share>;
  /** The share of all first seeds together; 0 for honey, 1 for a lot that begins a line. */
  readonly firstSeedShare: Share;
};

/**
 * How many batches lie between this lot and the seed its line began with, and how much of that seed is
 * still in it.
 *
 * Seed and creamed lots carry grain and are in a line; honey is in none, not even honey that was melted
 * down from creamed. A lot in the line none of whose inputs is in a line begins one: seed bought or
 * brought in, or a batch that set fine without seed. Its generation is 0. Any other creamed lot has 1
 * more than the greatest generation among its inputs in the line; any other seed lot, which was only put
 * by or put together, has that greatest generation itself: generations count batches, not pails.
 * Shares are summed over the paths within the line.
 *
 * `kinds` must name the lot, its ancestors in the line and all their inputs; `edges` as for
 * `ancestorShares`. RangeError for a lot without a kind, a cycle, or a mass that is not whole grams.
 */
export function seedLine(
  edges: readonly LotEdge[],
  lotId: string,
  kinds: ReadonlyMap<string, LotKind>,
): SeedLine {
  const kindOf = (id: string): LotKind => {
    const kind = kinds.get(id);
    if (!kind) throw new RangeError(`kinds must name lot ${id}`);
    return kind;
  };
  const inLine = (id: string): boolean => kindOf(id) !== 'honey';
  if (!inLine(lotId)) return { generation: null, firstSeeds: new Map(), firstSeedShare: NONE };

  const { inputs } = lotGraph(edges);
  const seedsOf = (id: string): string[] =>
    (inputs.get(id) ?? []).map((edge) => edge.parentId).filter(inLine);
  const lineFromFirst = orderFrom(lotId, seedsOf).reverse();

  const generations = new Map<string, number>();
  for (const id of lineFromFirst) {
    const seeds = seedsOf(id);
    const greatest = seeds.reduce((most, seed) => Math.max(most, generations.get(seed) ?? 0), 0);
    const batches = seeds.length > 0 && kindOf(id) === 'creamed' ? 1 : 0;
    generations.set(id, greatest + batches);
  }

  const shares = ancestorShares(edges, lotId, inLine);
  const firstSeeds = new Map<string, Share>();
  for (const id of lineFromFirst) {
    if (seedsOf(id).length === 0) firstSeeds.set(id, shares.get(id)?.share ?? ALL);
  }
  return {
    generation: generations.get(lotId) ?? 0,
    firstSeeds,
    firstSeedShare: [...firstSeeds.values()].reduce(addShares, NONE),
  };
}
