import { writtenLotCode } from '../marks/lot-code';
import type { LotKind } from '../lineage/seed-line';
import type { Detail } from './choose-lots';
import type { DrawnLot } from './drawn-lot';
import { ASKED_EDGE, LOT_LOOKS, type LotLook } from './palette';
import { LOT_SIZES } from './lay-row';
import type { Size } from './layered-graph';
import type { PlacedLot } from './place-lots';
import { escapeXml, percentInWords, shortened } from './svg-text';

/** A lot at its place, as a link to its address, with all that is known of it for whoever points at it. */
export function drawLot({ lot, x, y }: PlacedLot, detail: Detail, address: string): string {
  const size = LOT_SIZES[detail];
  const look = LOT_LOOKS[lot.kind];
  const isAsked = lot.relation === 'asked';
  const frame =
    `<rect width="${size.width}" height="${size.height}" rx="${detail === 'cards' ? 9 : 5}" fill="${look.ground}" ` +
    `stroke="${isAsked ? ASKED_EDGE : look.edge}" stroke-width="${isAsked ? 3.5 : 1.2}"/>`;
  const inside = detail === 'cards' ? card(lot, look, size) : mark(lot, look, size);
  const words = escapeXml(inWords(lot));
  return (
    `<a href="${escapeXml(address)}" aria-label="${words}">` +
    `<g transform="translate(${Math.round(x - size.width / 2)} ${Math.round(y - size.height / 2)})">` +
    `<title>${words}</title>${frame}${inside}</g></a>`
  );
}

/** The sign of a kind: a drop, a grain, a pot; none is known by its colour alone. */
export function signOf(kind: LotKind, x: number, y: number): string {
  const { edge } = LOT_LOOKS[kind];
  switch (kind) {
    case 'honey':
      return `<circle cx="${x}" cy="${y}" r="5" fill="${edge}"/>`;
    case 'seed':
      return `<path d="M${x} ${y - 6}L${x + 6} ${y}L${x} ${y + 6}L${x - 6} ${y}Z" fill="${edge}"/>`;
    case 'creamed':
      return `<rect x="${x - 5}" y="${y - 5}" width="10" height="10" fill="${edge}"/>`;
  }
}

export const WORDS_OF_KIND: Readonly<Record<LotKind, string>> = {
  honey: 'honey',
  seed: 'seed',
  creamed: 'creamed',
};

function card(lot: DrawnLot, look: LotLook, { width, height }: Size): string {
  const line = (y: number, size: number, text: string, weight = 'normal', x = 12) =>
    `<text x="${x}" y="${y}" font-size="${size}" font-weight="${weight}" fill="${look.words}">${escapeXml(text)}</text>`;
  return [
    line(20, 13, shortened(lot.name, 20), 'bold'),
    signOf(lot.kind, 17, 35),
    line(39, 12, `${writtenLotCode(lot.code)} · ${kgInWords(lot.initialMassG)}`, 'normal', 28),
    line(56, 12, shareInWords(lot)),
    shareBar(lot, look, width, height),
  ].join('');
}

function mark(lot: DrawnLot, look: LotLook, { width, height }: Size): string {
  return (
    signOf(lot.kind, 12, height / 2 - 1) +
    `<text x="23" y="16" font-size="12" fill="${look.words}">${writtenLotCode(lot.code)}</text>` +
    shareBar(lot, look, width, height)
  );
}

/** Along the foot of a lot, as long as its share. */
function shareBar({ share }: DrawnLot, { edge }: LotLook, width: number, height: number): string {
  const length = Math.round(share * (width - 14) * 10) / 10;
  return length < 0.5
    ? ''
    : `<rect x="7" y="${height - 4.5}" width="${length}" height="3" rx="1.5" fill="${edge}"/>`;
}

function shareInWords({ relation, share }: DrawnLot): string {
  switch (relation) {
    case 'ancestor':
      return `${percentInWords(share)} of the lot`;
    case 'asked':
      return 'the lot asked about';
    case 'descendant':
      return `${percentInWords(share)} is the lot`;
  }
}

function inWords(lot: DrawnLot): string {
  const share = {
    ancestor: `it is ${percentInWords(lot.share)} of the lot asked about`,
    asked: 'the lot asked about',
    descendant: `${percentInWords(lot.share)} of it is the lot asked about`,
  }[lot.relation];
  return `${writtenLotCode(lot.code)}, ${lot.name}: ${WORDS_OF_KIND[lot.kind]}, ${kgInWords(lot.initialMassG)}, held by ${lot.holderName}; ${share}`;
}

function kgInWords(massG: number): string {
  return `${massG / 1000} kg`;
}
