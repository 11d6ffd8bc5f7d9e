/** Words that stand on labels. */
export type LabelWords = {
  readonly creamedHoney: string;
  readonly honey: string;
  readonly seed: string;
  readonly blend: string;
  readonly origin: string;
  readonly bestBefore: string;
  readonly storage: string;
  readonly infants: string;
  /** Before the product, on a pail that may not be used. */
  readonly onHold: string;
};

/** What local law and taste decide: the club's. */
export type LabelSettings = {
  readonly producer: string;
  /** From 1 to 10000. */
  readonly singleSourceCentiPercent: number;
  readonly origins: 'withPercentages' | 'namesOnly';
  readonly bestBeforeMonths: number | null;
  readonly eMark: boolean;
  /** 40 or more. */
  readonly quantityHeightTenthMm: number;
  readonly language: string;
  readonly words: LabelWords;
};

export const DEFAULT_LABEL_WORDS: LabelWords = {
  creamedHoney: 'Creamed honey',
  honey: 'Honey',
  seed: 'Seed honey',
  blend: 'blend',
  origin: 'Origin',
  bestBefore: 'Best before',
  storage: 'Keep cool, dry and out of the sun.',
  infants: 'Not for infants under 12 months.',
  onHold: 'On hold, do not use',
};

/**
 * 45 %: common practice, no source; laws and honey associations ask for other shares, by source. 4 mm: Directive 76/211/EEC, annex I, 3.1
 * (from memory): figures of at least 4 mm from 200 g to 1 kg.
 */
export const DEFAULT_LABEL_SETTINGS: LabelSettings = {
  producer: '',
  singleSourceCentiPercent: 4500,
  origins: 'withPercentages',
  bestBeforeMonths: null,
  eMark: false,
  quantityHeightTenthMm: 40,
  language: 'en',
  words: DEFAULT_LABEL_WORDS,
};
