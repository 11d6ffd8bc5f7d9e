import { OneOf, Part, SharePercent, Decimal, Text, Whole, YesNo } from '../platform/fields';
import { OriginStyle } from '../platform/prisma-client/enums';
import { Language } from './language';

export class LabelWordsChange {
  @Text({ max: 60, optional: true })
  creamedHoney?: string;

  @Text({ max: 60, optional: true })
  honey?: string;

  @Text({ max: 60, optional: true })
  seed?: string;

  @Text({ max: 60, optional: true, is: 'Where no floral source is named.' })
  blend?: string;

  @Text({ max: 60, optional: true })
  origin?: string;

  @Text({ max: 60, optional: true })
  bestBefore?: string;

  @Text({ max: 200, optional: true })
  storage?: string;

  @Text({ max: 200, optional: true, is: 'It stands on every label.' })
  infants?: string;

  @Text({ max: 60, optional: true, is: 'Before the product, on a pail of a lot on hold.' })
  onHold?: string;
}

export class LabelSettingsChange {
  @Text({
    min: 0,
    max: 300,
    optional: true,
    is: 'Who answers for what is in the pot: name and address, line by line.',
  })
  producer?: string;

  @SharePercent({
    optional: true,
    is: 'From this share on the label names one floral source alone; which one the law asks for, ask the local authority.',
  })
  singleSourcePercent?: number;

  @OneOf(OriginStyle, { optional: true })
  origins?: OriginStyle;

  @Whole({
    min: 1,
    max: 120,
    optional: true,
    nullable: true,
    is: 'Months from potting; null: the line stays blank.',
  })
  bestBeforeMonths?: number | null;

  @YesNo({
    optional: true,
    is: 'Print the e-mark on pots: only for whoever fills by Directive 76/211/EEC.',
  })
  eMark?: boolean;

  @Decimal({
    min: 4,
    max: 20,
    decimals: 1,
    optional: true,
    is: 'The height of the figures of the net quantity.',
  })
  quantityHeightMm?: number;

  @Language({ optional: true })
  language?: string;

  @Part(() => LabelWordsChange, {
    optional: true,
    is: 'The club’s own words, where it has them: those left out stay as they are.',
  })
  words?: LabelWordsChange;
}
