import type { ChosenLots, Detail } from './choose-lots';
import type { DrawnEdge, DrawnLot } from './drawn-lot';
import type { Point } from './layered-graph';
import { layRow, LOT_SIZES, type LaidRow } from './lay-row';
import { splitRows } from './split-rows';

export type PlacedLot = { readonly lot: DrawnLot; readonly x: number; readonly y: number };

export type PlacedEdge = {
  readonly edge: DrawnEdge;
  /** From the right side of the parent to the left side of the child. */
  readonly points: readonly Point[];
  /** The middle of its words, where there are any. */
  readonly label: Point | null;
  /** Leads from one row around to another. */
  readonly isAround: boolean;
};

export type PlacedLineage = {
  /** `x` and `y` are the middle of each lot. */
  readonly lots: readonly PlacedLot[];
  readonly edges: readonly PlacedEdge[];
  readonly width: number;
  readonly height: number;
};

/** As many as go side by side on a screen of 1500 pixels. */
const COLUMNS_PER_ROW: Readonly<Record<Detail, number>> = { cards: 6, marks: 11 };
const ROW_GAP = 24;
const LANE = 7;
const MOST_LANES = 12;

type PlacedRow = LaidRow & { readonly top: number; readonly leaving: readonly DrawnEdge[] };

/**
 * Places the lots from left to right, each behind all that went into it; long lineages go on in a row below, as words do in a text.
 * The same lots in the same order are placed the same.
 */
export function placeLots({ detail, lots, edges }: ChosenLots): PlacedLineage {
  const size = LOT_SIZES[detail];
  const laid = splitRows(lots, edges, COLUMNS_PER_ROW[detail]).map((row) =>
    layRow(row, edges, detail),
  );
  const around = edges.filter((edge) => !laid.some(({ lines }) => lines.has(edge)));
  const margin = around.length === 0 ? 0 : 14 + LANE * Math.min(around.length, MOST_LANES);
  const { rows, height } = stacked(laid, around);
  const width = Math.max(...rows.map((row) => row.width)) + 2 * margin;

  const rowOf = (id: string): PlacedRow => {
    const row = rows.find(({ middles }) => middles.has(id));
    if (row === undefined) throw new RangeError(`edges must join lots that are drawn, not ${id}`);
    return row;
  };
  const moved = (row: PlacedRow, { x, y }: Point): Point => ({ x: x + margin, y: y + row.top });
  const middle = (id: string): Point => {
    const row = rowOf(id);
    return moved(row, row.middles.get(id) ?? { x: 0, y: 0 });
  };

  const placed = edges.map((edge): PlacedEdge => {
    const [parent, child] = [middle(edge.parentId), middle(edge.childId)];
    const start = { x: parent.x + size.width / 2, y: parent.y };
    const end = { x: child.x - size.width / 2, y: child.y };
    const row = rowOf(edge.parentId);
    const line = row.lines.get(edge);
    if (line !== undefined) {
      const points = [start, ...line.bends.map((bend) => moved(row, bend)), end];
      const label = line.label && moved(row, line.label);
      return { edge, points, label, isAround: false };
    }
    const below = rowOf(edge.childId);
    const exit = (row.exits.get(edge.parentId) ?? []).map((bend) => moved(row, bend));
    const entry = (below.entries.get(edge.childId) ?? []).map((bend) => moved(below, bend));
    const lane = LANE * (row.leaving.indexOf(edge) % MOST_LANES);
    const corners = cornersAround(exit.at(-1) ?? start, entry[0] ?? end, {
      rightX: width - margin + 10 + lane,
      leftX: margin - 10 - LANE * (around.indexOf(edge) % MOST_LANES),
      belowY: row.top + row.height + 12 + lane,
    });
    const points = [start, ...exit, ...corners, ...entry, end];
    return { edge, points, label: null, isAround: true };
  });
  return { lots: lots.map((lot) => ({ lot, ...middle(lot.id) })), edges: placed, width, height };
}

/** The rows below each other, with room between them for the lines that leave each. */
function stacked(
  laid: readonly LaidRow[],
  around: readonly DrawnEdge[],
): { rows: PlacedRow[]; height: number } {
  const rows: PlacedRow[] = [];
  let top = 0;
  let height = 0;
  for (const row of laid) {
    const leaving = around.filter(({ parentId }) => row.middles.has(parentId));
    rows.push({ ...row, top, leaving });
    height = top + row.height;
    top = height + ROW_GAP + LANE * Math.min(leaving.length, MOST_LANES);
  }
  return { rows, height };
}

/** Out to the right, down between the rows, back to the left, down to the child. */
function cornersAround(
  from: Point,
  to: Point,
  { rightX, leftX, belowY }: { rightX: number; leftX: number; belowY: number },
): Point[] {
  return [
    { x: rightX, y: from.y },
    { x: rightX, y: belowY },
    { x: leftX, y: belowY },
    { x: leftX, y: to.y },
  ];
}
