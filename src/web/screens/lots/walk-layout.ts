import type { components } from '../../api/schema';

export type NearLineage = components['schemas']['NearLineageResponse'];
export type WalkLot = NearLineage['lots'][number];
type WalkLine = NearLineage['lines'][number];

export interface Point {
  x: number;
  y: number;
}

export interface LaidOut {
  width: number;
  height: number;
  /** By lot: the upper left corner. */
  corners: ReadonlyMap<string, Point>;
  lines: { line: WalkLine; points: Point[] }[];
}

export const cardSize = { width: 190, height: 78 };
const margin = 12;

/** Places the lots from left to right, each behind all that went into it, so that lines cross little. */
export async function layOut({ lots, lines }: NearLineage): Promise<LaidOut> {
  // Fetched where something is drawn only.
  const { Graph, layout } = await import('@dagrejs/dagre');
  const graph = new Graph();
  graph.setGraph({
    rankdir: 'LR',
    ranker: 'tight-tree',
    nodesep: 16,
    edgesep: 12,
    ranksep: 56,
    marginx: margin,
    marginy: margin,
  });
  for (const { lotId } of lots) graph.setNode(lotId, { ...cardSize });
  for (const { parentId, childId } of lines) graph.setEdge(parentId, childId, { weight: 2 });
  layout(graph);

  const { width, height } = graph.graph() as { width: number; height: number };
  return {
    width: Math.ceil(width),
    height: Math.ceil(height),
    corners: new Map(
      lots.map(({ lotId }) => {
        const { x, y } = graph.node(lotId) as Point;
        return [lotId, { x: x - cardSize.width / 2, y: y - cardSize.height / 2 }];
      }),
    ),
    lines: lines.map((line) => {
      const { points } = graph.edge(line.parentId, line.childId) as { points: Point[] };
      const from = graph.node(line.parentId) as Point;
      const to = graph.node(line.childId) as Point;
      const half = cardSize.width / 2;
      return {
        line,
        points: [
          { x: from.x + half, y: from.y },
          ...points.slice(1, -1),
          { x: to.x - half, y: to.y },
        ],
      };
    }),
  };
}

/** From the right side of the parent to the left side of the child: level at both ends, soft in between. */
export function wayThrough(points: readonly Point[]): string {
  const [first, ...rest] = points;
  if (first === undefined) return '';
  let way = `M${round(first.x)} ${round(first.y)}`;
  let before = first;
  for (const point of rest) {
    const middle = round((before.x + point.x) / 2);
    way += `C${middle} ${round(before.y)} ${middle} ${round(point.y)} ${round(point.x)} ${round(point.y)}`;
    before = point;
  }
  return way;
}

function round(value: number): string {
  return value.toFixed(1);
}
