import { writtenLotCode } from '../marks/lot-code';
import type { DrawnLot } from './drawn-lot';
import { LINE, PLATE } from './palette';
import type { PlacedEdge } from './place-lots';
import { escapeXml, percentInWords } from './svg-text';

const THINNEST = 1.2;
const WIDEST = 11;
/** Of lines that run side by side around rows. */
const WIDEST_AROUND = 4;

/** A line from the parent to the child, as wide as its part of the child. */
export function drawEdge(
  { edge, points, isAround }: PlacedEdge,
  lots: ReadonlyMap<string, Pick<DrawnLot, 'code'>>,
): string {
  const code = (id: string) => writtenLotCode(lots.get(id)?.code ?? '');
  const words = `${edge.massG / 1000} kg of ${code(edge.parentId)} in ${code(edge.childId)}: ${percentInWords(edge.part)} of it`;
  const widest = isAround ? WIDEST_AROUND : WIDEST;
  const width = Math.round((THINNEST + edge.part * (widest - THINNEST)) * 10) / 10;
  return (
    `<path d="${wayThrough(points)}" fill="none" stroke="${LINE}" stroke-width="${width}" stroke-linejoin="round">` +
    `<title>${escapeXml(words)}</title></path>`
  );
}

/** The part of the child in percent, on a plate over the line. */
export function drawEdgeLabel({ edge, label }: PlacedEdge): string {
  if (label === null) return '';
  const [x, y] = [Math.round(label.x), Math.round(label.y)];
  const words = percentInWords(edge.part);
  const width = 9 + 6.4 * words.length;
  return (
    `<rect x="${x - width / 2}" y="${y - 8}" width="${width}" height="16" rx="4" fill="${PLATE.ground}" stroke="${PLATE.edge}"/>` +
    `<text x="${x}" y="${y + 4}" font-size="11" text-anchor="middle" fill="${PLATE.words}">${escapeXml(words)}</text>`
  );
}

/** Level where it leaves and arrives, and soft in between; straight where it goes around rows. */
function wayThrough(points: PlacedEdge['points']): string {
  const [first, ...rest] = points.map(({ x, y }) => ({ x: round(x), y: round(y) }));
  if (first === undefined) return '';
  let way = `M${first.x} ${first.y}`;
  let before = first;
  for (const point of rest) {
    const middle = round((before.x + point.x) / 2);
    way +=
      point.x > before.x && point.y !== before.y
        ? `C${middle} ${before.y} ${middle} ${point.y} ${point.x} ${point.y}`
        : `L${point.x} ${point.y}`;
    before = point;
  }
  return way;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
