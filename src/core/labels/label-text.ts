import { compareFractions, fractionToNumber, type Fraction } from '../lineage/rational';
import type { LotKind } from '../lineage/seed-line';
import { writtenLotCode } from '../marks/lot-code';
import type { LabelSettings } from './label-settings';

export type LabelUse = 'pail' | 'tub' | 'pot';

/** A lot as its label tells of it. Shares are exact; null stands for what is not known. */
export type LabelledLot = {
  readonly code: string;
  readonly kind: LotKind;
  readonly name: string;
  readonly holderName: string;
  readonly floral: readonly { readonly name: string | null; readonly share: Fraction }[];
  readonly origins: readonly { readonly country: string | null; readonly share: Fraction }[];
  /** The day of potting in the club's zone, YYYY-MM-DD; null before it was potted. */
  readonly pottedOn: string | null;
  /** null: left blank, to be written by hand. */
  readonly netMassG: number | null;
  /** A hold reaches it. */
  readonly isOnHold: boolean;
};

export type LabelText = {
  readonly title: string;
  /** The floral source, or that it is a blend; for pails and tubs the lot's own name. */
  readonly subtitle: string;
  /** null: a blank to write on. */
  readonly quantity: string | null;
  readonly hasEMark: boolean;
  readonly quantityHeightMm: number;
  /** Directive 2011/91/EU, articles 2 and 4: a mark of the lot, with "L" before it unless it is clearly told from other marks. */
  readonly lotMark: string;
  /** In the order in which they stand, blanks included. */
  readonly lines: readonly string[];
};

/** On what is not sold as it is. */
const FIGURES_FOR_MEMBERS_MM = 2.5;

const BLANK = '________________';

/** What stands on a label of that lot, by the club's settings. `countryName` gives a country's name in the club's language. */
export function labelText(
  lot: LabelledLot,
  use: LabelUse,
  settings: LabelSettings,
  countryName: (code: string) => string,
): LabelText {
  const { words } = settings;
  const isPot = use === 'pot';
  const title = { creamed: words.creamedHoney, honey: words.honey, seed: words.seed }[lot.kind];
  const source = floralSourceOf(lot.floral, settings.singleSourceCentiPercent) ?? words.blend;
  const origin = `${words.origin}: ${originInWords(lot, settings, countryName)}`;
  return {
    title: lot.isOnHold ? `${words.onHold}: ${title}` : title,
    subtitle: isPot ? source : lot.name,
    quantity: lot.netMassG === null ? null : quantityInWords(lot.netMassG),
    hasEMark: isPot && settings.eMark && lot.netMassG !== null && mayCarryEMark(lot.netMassG),
    quantityHeightMm: isPot ? settings.quantityHeightTenthMm / 10 : FIGURES_FOR_MEMBERS_MM,
    lotMark: `L ${writtenLotCode(lot.code)}`,
    lines: isPot
      ? [
          `${words.bestBefore}: ${bestBefore(lot.pottedOn, settings.bestBeforeMonths) ?? BLANK}`,
          origin,
          ...settings.producer.split(/\r?\n/).filter((line) => line.trim() !== ''),
          words.storage,
          words.infants,
        ]
      : [source, origin, lot.holderName, words.infants],
  };
}

/** The one floral source that makes up the least share asked for, or null: then it is a blend. What is not known is no source. */
export function floralSourceOf(
  floral: LabelledLot['floral'],
  singleSourceCentiPercent: number,
): string | null {
  const least: Fraction = { numerator: BigInt(singleSourceCentiPercent), denominator: 10_000n };
  const enough = floral.filter(
    ({ name, share }) => name !== null && compareFractions(share, least) >= 0,
  );
  const [first, second] = enough.sort((a, b) => compareFractions(b.share, a.share));
  // Two halves are no single source.
  const isAlone =
    first !== undefined && (!second || compareFractions(first.share, second.share) > 0);
  return isAlone ? first.name : null;
}

/**
 * Countries in falling order of their shares, with whole percentages that add up to 100 where the club wants them. Directive 2001/110/EC,
 * article 2(4), as amended by Directive (EU) 2024/1438 (from memory): names and percentages in descending order.
 */
function originInWords(
  { origins }: LabelledLot,
  settings: LabelSettings,
  countryName: (code: string) => string,
): string {
  const falling = [...origins].sort((a, b) => compareFractions(b.share, a.share));
  if (falling.length === 0) return BLANK;
  const nameOf = (country: string | null) => (country === null ? '?' : countryName(country));
  if (settings.origins === 'namesOnly') {
    return falling.map(({ country }) => nameOf(country)).join(', ');
  }
  const percents = wholePercents(falling.map(({ share }) => share));
  return falling
    .map(({ country }, index) => `${nameOf(country)} ${percentInWords(percents[index] ?? 0)}`)
    .join(', ');
}

function percentInWords(percent: number): string {
  return percent === 0 ? '< 1 %' : `${percent} %`;
}

/** Shares that add up to 1 as whole percentages that add up to 100: the largest remainders are rounded up. */
export function wholePercents(shares: readonly Fraction[]): number[] {
  const exact = shares.map(({ numerator, denominator }, index) => ({
    index,
    whole: Number((numerator * 100n) / denominator),
    rest: fractionToNumber({ numerator: (numerator * 100n) % denominator, denominator }),
  }));
  const percents = exact.map(({ whole }) => whole);
  const missing = 100 - percents.reduce((sum, percent) => sum + percent, 0);
  const largestFirst = [...exact].sort((a, b) => b.rest - a.rest || a.index - b.index);
  for (const { index, whole } of largestFirst.slice(0, Math.max(0, missing))) {
    percents[index] = whole + 1;
  }
  return percents;
}

/** Grams below a kilogram, kilograms from there on. */
function quantityInWords(netMassG: number): string {
  return netMassG < 1000 ? `${netMassG} g` : `${netMassG / 1000} kg`;
}

/** Directive 76/211/EEC, article 1 (from memory): the e-mark is for 5 g to 10 kg. */
function mayCarryEMark(netMassG: number): boolean {
  return netMassG >= 5 && netMassG <= 10_000;
}

/**
 * The day so many months after potting, YYYY-MM-DD; the last of the month where that has no such day. Null where either is not known:
 * then it is written by hand.
 */
export function bestBefore(pottedOn: string | null, months: number | null): string | null {
  if (pottedOn === null || months === null) return null;
  const [year = 0, month = 0, day = 0] = pottedOn.split('-').map(Number);
  const lastDay = new Date(Date.UTC(year, month - 1 + months + 1, 0));
  const date = new Date(lastDay);
  date.setUTCDate(Math.min(day, lastDay.getUTCDate()));
  return date.toISOString().slice(0, 10);
}
