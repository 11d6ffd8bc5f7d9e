import { Decimal, Whole } from '../platform/fields';

export class RecallQuery {
  @Decimal({
    min: 0,
    max: 100,
    decimals: 6,
    optional: true,
    fromText: true,
    is: 'Only lots that hold at least that much of the suspect one, in percent of their mass.',
  })
  atLeastPercent?: number;

  @Whole({
    min: 0,
    max: 1_000_000_000,
    optional: true,
    fromText: true,
    is: 'Only lots that hold at least so many grams of it.',
  })
  atLeastG?: number;
}
