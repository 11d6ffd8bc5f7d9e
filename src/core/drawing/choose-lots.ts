import type { DrawnEdge, DrawnLot } from './drawn-lot';

/** `cards` tell name, kind, mass and share; `marks` tell the code, and the rest to whoever points at them. */
export type Detail = 'cards' | 'marks';

const MOST_CARDS = 60;
/** Laying out more takes seconds, and nobody reads them. */
export const MOST_LOTS_DRAWN = 300;

export type NearestLots = {
  readonly lots: readonly DrawnLot[];
  readonly edges: readonly DrawnEdge[];
  /** Lots that are not drawn: the farthest, and of those equally far the smallest shares. */
  readonly leftOut: number;
  /** Of all, drawn or not. */
  readonly ancestors: number;
  readonly descendants: number;
};

export type ChosenLots = NearestLots & { readonly detail: Detail };

/** What of a lineage is drawn, and how closely. */
export function chooseLots(lots: readonly DrawnLot[], edges: readonly DrawnEdge[]): ChosenLots {
  const nearest = nearestLots(lots, edges, MOST_LOTS_DRAWN);
  return { ...nearest, detail: nearest.lots.length <= MOST_CARDS ? 'cards' : 'marks' };
}

/** At most so many lots of a lineage, 1 or more. Every lot among them is joined to the lot asked about by lots among them. */
export function nearestLots(
  lots: readonly DrawnLot[],
  edges: readonly DrawnEdge[],
  most: number,
): NearestLots {
  const nearestFirst = [...lots].sort(
    (a, b) => a.nearest - b.nearest || b.share - a.share || (a.id < b.id ? -1 : 1),
  );
  const chosen = nearestFirst.slice(0, most);
  const ids = new Set(chosen.map(({ id }) => id));
  return {
    lots: chosen,
    edges: edges.filter(({ parentId, childId }) => ids.has(parentId) && ids.has(childId)),
    leftOut: lots.length - chosen.length,
    ancestors: lots.filter(({ relation }) => relation === 'ancestor').length,
    descendants: lots.filter(({ relation }) => relation === 'descendant').length,
  };
}
