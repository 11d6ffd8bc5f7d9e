import type { Detail } from './choose-lots';
import type { DrawnEdge, DrawnLot } from './drawn-lot';
import {
  layeredGraph,
  layInLayers,
  type LayeredGraph,
  type Point,
  type Size,
} from './layered-graph';

export const LOT_SIZES: Readonly<Record<Detail, Size>> = {
  cards: { width: 186, height: 66 },
  marks: { width: 96, height: 24 },
};

const LABEL: Size = { width: 50, height: 16 };
const GAPS: Readonly<Record<Detail, { nodesep: number; edgesep: number; ranksep: number }>> = {
  cards: { nodesep: 18, edgesep: 14, ranksep: 34 },
  marks: { nodesep: 9, edgesep: 7, ranksep: 44 },
};

/** One row, from (0, 0) on. */
export type LaidRow = Size & {
  /** The middle of each lot. */
  readonly middles: ReadonlyMap<string, Point>;
  /** Of the lines within the row: where they bend, and where their words go. */
  readonly lines: ReadonlyMap<DrawnEdge, { bends: readonly Point[]; label: Point | null }>;
  /** By lot: where lines to rows below leave the row, past what stands to its right. */
  readonly exits: ReadonlyMap<string, readonly Point[]>;
  /** By lot: where lines from rows above come in. */
  readonly entries: ReadonlyMap<string, readonly Point[]>;
};

/**
 * Places the lots of one row and the lines between them so that they cross little. Lots that are used in rows below stand to the
 * right, those made of lots above to the left.
 */
export function layRow(
  lots: readonly DrawnLot[],
  edges: readonly DrawnEdge[],
  detail: Detail,
): LaidRow {
  const ids = new Set(lots.map(({ id }) => id));
  const within = edges.filter(({ parentId, childId }) => ids.has(parentId) && ids.has(childId));
  const graph = layeredGraph();
  graph.setGraph({ rankdir: 'LR', ranker: 'tight-tree', ...GAPS[detail] });
  for (const { id } of lots) graph.setNode(id, { ...LOT_SIZES[detail] });
  const words = detail === 'cards' ? LABEL : { width: 0, height: 0 };
  for (const { parentId, childId } of within) {
    graph.setEdge(parentId, childId, { ...words, labelpos: 'c', weight: 2 });
  }
  const { leaving, coming } = pull(graph, edges, ids);
  layInLayers(graph);

  const size = LOT_SIZES[detail];
  const middles = lots.map(({ id }) => ({ id, ...graph.node(id) }));
  const left = Math.min(...middles.map(({ x }) => x)) - size.width / 2;
  const right = Math.max(...middles.map(({ x }) => x)) + size.width / 2;
  const bends = (parentId: string, childId: string): Point[] =>
    graph
      .edge(parentId, childId)
      .points.slice(1, -1)
      .filter(({ x }) => x > left && x < right);
  const ways = [
    ...within.map(({ parentId, childId }) => bends(parentId, childId)),
    ...[...leaving].map((id) => bends(id, AFTER)),
    ...[...coming].map((id) => bends(BEFORE, id)),
  ].flat();
  const top = Math.min(...middles.map(({ y }) => y - size.height / 2), ...ways.map(({ y }) => y));
  const bottom = Math.max(
    ...middles.map(({ y }) => y + size.height / 2),
    ...ways.map(({ y }) => y),
  );

  const moved = ({ x, y }: Point): Point => ({ x: x - left, y: y - top });
  const way = (parentId: string, childId: string) => bends(parentId, childId).map(moved);
  return {
    middles: new Map(middles.map(({ id, x, y }) => [id, moved({ x, y })])),
    lines: new Map(
      within.map((edge) => {
        const { parentId, childId } = edge;
        const label = detail === 'cards' ? moved(graph.edge(parentId, childId)) : null;
        return [edge, { bends: way(parentId, childId), label }];
      }),
    ),
    exits: new Map([...leaving].map((id) => [id, way(id, AFTER)])),
    entries: new Map([...coming].map((id) => [id, way(BEFORE, id)])),
    width: right - left,
    height: bottom - top,
  };
}

const BEFORE = 'rows above';
const AFTER = 'rows below';

/** Lines to and from other rows draw their lots to the sides, and have a way there kept free. */
function pull(
  graph: LayeredGraph,
  edges: readonly DrawnEdge[],
  ids: ReadonlySet<string>,
): { leaving: ReadonlySet<string>; coming: ReadonlySet<string> } {
  const across = edges.filter(({ parentId, childId }) => ids.has(parentId) !== ids.has(childId));
  const leaving = across.map(({ parentId }) => parentId).filter((id) => ids.has(id));
  const coming = across.map(({ childId }) => childId).filter((id) => ids.has(id));
  const point = { width: 0, height: 0 };
  if (leaving.length > 0) graph.setNode(AFTER, { ...point });
  if (coming.length > 0) graph.setNode(BEFORE, { ...point });
  for (const id of leaving) graph.setEdge(id, AFTER, { ...point, weight: 1 });
  for (const id of coming) graph.setEdge(BEFORE, id, { ...point, weight: 1 });
  return { leaving: new Set(leaving), coming: new Set(coming) };
}
