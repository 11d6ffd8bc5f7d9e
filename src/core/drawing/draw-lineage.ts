import { writtenLotCode } from '../marks/lot-code';
import { chooseLots, type ChosenLots } from './choose-lots';
import { drawEdge, drawEdgeLabel } from './draw-edge';
import { drawLot } from './draw-lot';
import type { DrawnEdge, DrawnLot } from './drawn-lot';
import { drawLegend, LEGEND_HEIGHT } from './legend';
import { placeLots } from './place-lots';
import { escapeXml, shortened } from './svg-text';

const MARGIN = 16;
const LEAST_WIDTH = 760;

/**
 * The lineage of a lot as a drawing (SVG 2): what is in it on the left, where it went on the right, lines as wide as their part of
 * what they go into. Up to 60 lots are cards with names and shares, up to 300 small marks with codes; of more the farthest are left
 * out, and it says so. Each lot leads to its address. Without scripts and style sheets; all words are text.
 *
 * `lots` must hold the lot asked about, and `edges` name no others.
 */
export function drawLineage(
  lots: readonly DrawnLot[],
  edges: readonly DrawnEdge[],
  addressOf: (lot: DrawnLot) => string,
): string {
  return drawChosen(chooseLots(lots, edges), addressOf);
}

/** The same of what was chosen to be drawn: that alone takes long. */
export function drawChosen(chosen: ChosenLots, addressOf: (lot: DrawnLot) => string): string {
  const asked = chosen.lots.find(({ relation }) => relation === 'asked');
  if (asked === undefined) throw new RangeError('lots must hold the lot asked about');
  const placed = placeLots(chosen);
  const width = Math.ceil(Math.max(placed.width + 2 * MARGIN, LEAST_WIDTH));
  const height = Math.ceil(LEGEND_HEIGHT + placed.height + 3 * MARGIN);
  const left = Math.round((width - placed.width) / 2);

  const title = `Lineage of ${writtenLotCode(asked.code)}, ${shortened(asked.name, 48)}`;
  const description = describe(chosen);
  const named = new Map(chosen.lots.map((lot) => [lot.id, lot]));
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" ` +
      `role="graphics-document" aria-labelledby="lineage-title lineage-desc" font-family="system-ui, sans-serif">`,
    `<title id="lineage-title">${escapeXml(title)}</title>`,
    `<desc id="lineage-desc">${escapeXml(description)}</desc>`,
    `<g transform="translate(${MARGIN} ${MARGIN})">${drawLegend(title, description, width - 2 * MARGIN)}</g>`,
    `<g transform="translate(${left} ${LEGEND_HEIGHT + 2 * MARGIN})">`,
    ...placed.edges.map((edge) => drawEdge(edge, named)),
    ...placed.edges.map(drawEdgeLabel),
    ...placed.lots.map((lot) => drawLot(lot, chosen.detail, addressOf(lot.lot))),
    '</g></svg>',
  ].join('\n');
}

function describe({ ancestors: within, descendants: into, leftOut }: ChosenLots): string {
  const one =
    within === 0 ? 'It was brought in: no other lot is in it' : `${lotsInWords(within)} in it`;
  const other =
    into === 0 ? 'it is in no other lot' : `it is in ${into} ${into === 1 ? 'other' : 'others'}`;
  const missing =
    leftOut === 0
      ? ''
      : ` The ${leftOut} farthest are not drawn; the table (lineage.csv) has all of them.`;
  return `${one}; ${other}. From left to right; a line is as wide as its part of what it goes into.${missing}`;
}

function lotsInWords(count: number): string {
  return count === 1 ? '1 lot is' : `${count} lots are`;
}
