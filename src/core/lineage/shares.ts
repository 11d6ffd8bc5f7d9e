import { lotGraph, orderFrom, type LotEdge, type LotGraph } from './lot-graph';
import { addShares, ALL, NONE, partOf, ROUNDED_ALL, type Share } from './share';

/** A trace that reaches more lots than that is rounded from the start (see `Share`): nobody reads so many fractions. */
export const MOST_EXACT_LOTS = 5_000;

/** How a lot is related to the lot a trace began at. */
export type LotShare = {
  /** Mass fraction of the ancestor in the descendant, above 0 and at most 1, all paths summed; exact while it is short. */
  readonly share: Share;
  /** The fewest steps between the two lots, at least 1. */
  readonly nearest: number;
  /** The most steps between the two lots, at least `nearest`. */
  readonly farthest: number;
};

/**
 * What is in this lot: for every ancestor, the mass fraction of it in the lot, and how far away it is.
 * The share of a parent in a child is its mass divided by the mass of all the child's inputs; what is
 * lost in the process is lost by all inputs alike, so the child's own mass does not enter. The share of
 * an ancestor is the sum, over all paths, of the product of the shares along the path: computed by
 * passing each lot's share on once, in an order in which nothing more can be added to it, since the
 * number of paths can double with every batch.
 *
 * `edges` must hold every input of the lot and of each of its ancestors; others do no harm. `follow`,
 * where given, says which lots the trace may enter; the shares stay fractions of the whole mass.
 * A lot without inputs has no ancestors: an empty map. The map begins near the lot and ends with
 * founding lots. Throws RangeError for a cycle among the ancestors or a mass that is not whole grams.
 */
export function ancestorShares(
  edges: readonly LotEdge[],
  lotId: string,
  follow: (ancestorId: string) => boolean = () => true,
): ReadonlyMap<string, LotShare> {
  const graph = lotGraph(edges);
  const inputsOf = (id: string): LotEdge[] =>
    (graph.inputs.get(id) ?? []).filter((edge) => follow(edge.parentId));
  return accumulate(graph, lotId, inputsOf, (edge) => edge.parentId);
}

/**
 * Where this lot went: for every descendant, the mass fraction of the lot in it, and how far away it
 * is. The same shares as in `ancestorShares`, seen from the other end.
 *
 * `edges` must hold every input of each descendant, also those that do not descend from the lot: they
 * thin it out. A lot never used has no descendants: an empty map. The map begins near the lot.
 * Throws RangeError for a cycle among the descendants or a mass that is not whole grams.
 */
export function descendantShares(
  edges: readonly LotEdge[],
  lotId: string,
): ReadonlyMap<string, LotShare> {
  const graph = lotGraph(edges);
  const usesOf = (id: string): readonly LotEdge[] => graph.uses.get(id) ?? [];
  return accumulate(graph, lotId, usesOf, (edge) => edge.childId);
}

/** Passes each lot's share on, once, to those that the next edges lead to. */
function accumulate(
  graph: LotGraph,
  lotId: string,
  edgesFrom: (lotId: string) => readonly LotEdge[],
  farEnd: (edge: LotEdge) => string,
): ReadonlyMap<string, LotShare> {
  const ends = new Map<string, string[]>();
  const endsFrom = (from: string): string[] => {
    const known = ends.get(from) ?? edgesFrom(from).map(farEnd);
    ends.set(from, known);
    return known;
  };
  const order = orderFrom(lotId, endsFrom);
  const whole = order.length > MOST_EXACT_LOTS ? ROUNDED_ALL : ALL;
  const sums = new Map<string, LotShare>([[lotId, { share: whole, nearest: 0, farthest: 0 }]]);
  const shares = new Map<string, LotShare>();
  for (const id of order) {
    const here = sums.get(id);
    if (!here) continue;
    const { share, nearest, farthest } = here;
    if (id !== lotId) shares.set(id, here);
    for (const edge of edgesFrom(id)) {
      const there = sums.get(farEnd(edge));
      const part = partOf(share, BigInt(edge.massG), graph.inputMassG.get(edge.childId) ?? 1n);
      sums.set(farEnd(edge), {
        share: addShares(there?.share ?? NONE, part),
        nearest: Math.min(there?.nearest ?? Infinity, nearest + 1),
        farthest: Math.max(there?.farthest ?? 0, farthest + 1),
      });
    }
  }
  return shares;
}
