import type { LotKind } from '../lineage/seed-line';
import { signOf, WORDS_OF_KIND } from './draw-lot';
import { PLATE } from './palette';
import { escapeXml } from './svg-text';

export const LEGEND_HEIGHT = 84;

/** Above the drawing: what it shows, and how to read it. */
export function drawLegend(title: string, description: string, width: number): string {
  const kinds: LotKind[] = ['honey', 'seed', 'creamed'];
  const signs = kinds.map((kind, index) => {
    const x = 20 + 96 * index;
    return `${signOf(kind, x, 66)}${line(x + 12, 70, 12, WORDS_OF_KIND[kind])}`;
  });
  return [
    `<rect width="${width}" height="${LEGEND_HEIGHT}" rx="9" fill="${PLATE.ground}" stroke="${PLATE.edge}"/>`,
    line(14, 25, 16, title, 'bold'),
    line(14, 46, 12, description),
    ...signs,
    line(308, 70, 12, 'the bar at its foot: its share of the lot, or the lot’s of it'),
  ].join('');
}

function line(x: number, y: number, size: number, text: string, weight = 'normal'): string {
  return `<text x="${x}" y="${y}" font-size="${size}" font-weight="${weight}" fill="${PLATE.words}">${escapeXml(text)}</text>`;
}
