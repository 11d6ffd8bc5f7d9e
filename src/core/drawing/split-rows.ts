import type { DrawnEdge, DrawnLot } from './drawn-lot';

/** A row is cut where the fewest lines cross the cut, among its last columns from this part of it on. */
const EARLIEST_CUT = 0.6;

/**
 * The lots in rows of at most `columnsPerRow` columns, as words are set in lines: the column of a lot is its most steps from the lot
 * asked about, so everything that went into it stands before it. Each row holds at least one lot; all lots are in one.
 */
export function splitRows(
  lots: readonly DrawnLot[],
  edges: readonly DrawnEdge[],
  columnsPerRow: number,
): DrawnLot[][] {
  const columns = new Map(lots.map((lot) => [lot.id, columnOf(lot)]));
  const column = (id: string): number => columns.get(id) ?? 0;
  const crossing = (cut: number): number =>
    edges.filter(({ parentId, childId }) => column(parentId) <= cut && column(childId) > cut)
      .length;

  const last = Math.max(...columns.values());
  const rows: DrawnLot[][] = [];
  for (let first = Math.min(...columns.values()); first <= last;) {
    const cut = bestCut(first, Math.min(first + columnsPerRow - 1, last), last, crossing);
    rows.push(lots.filter(({ id }) => column(id) >= first && column(id) <= cut));
    first = cut + 1;
  }
  return rows.filter((row) => row.length > 0);
}

function bestCut(
  first: number,
  farthest: number,
  last: number,
  crossing: (cut: number) => number,
): number {
  if (farthest === last) return last;
  const earliest = first + Math.floor((farthest - first) * EARLIEST_CUT);
  let best = farthest;
  let fewest = crossing(farthest);
  for (let cut = farthest - 1; cut >= earliest; cut--) {
    const count = crossing(cut);
    if (count < fewest) [best, fewest] = [cut, count];
  }
  return best;
}

function columnOf({ relation, farthest }: DrawnLot): number {
  return relation === 'ancestor' ? -farthest : farthest;
}
