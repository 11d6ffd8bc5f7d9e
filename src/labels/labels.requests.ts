import { Decimal, OneOf, Whole } from '../platform/fields';
import { SHEET_NAMES, type SheetName } from '../core/labels/sheets';
import type { LabelUse } from '../core/labels/label-text';

export const MOST_LABELS = 500;

export class LabelQuery {
  @OneOf(['pail', 'tub', 'pot'], {
    is: 'What it is stuck on. Pots carry what a buyer must be told.',
  })
  for!: LabelUse;

  @OneOf(SHEET_NAMES, {
    optional: true,
    is: 'Columns by rows of a sheet, or the width by the height of a label alone in millimetres; a4-3x7 for pots, a4-2x7 for tubs, a4-2x4 for pails.',
  })
  sheet?: SheetName;

  @Whole({
    min: 1,
    max: MOST_LABELS,
    optional: true,
    fromText: true,
    is: 'As many as fill a page.',
  })
  count?: number;

  @Whole({
    min: 1,
    max: 30,
    optional: true,
    fromText: true,
    is: 'The first label of the sheet to print on, row by row, counted from 1.',
  })
  start?: number;

  @Decimal({
    min: 0.001,
    max: 5000,
    decimals: 3,
    optional: true,
    fromText: true,
    is: 'The net quantity. Without it: the batch’s only size of pots, the whole lot for a pail or tub alone, else a blank to write on.',
  })
  netMassKg?: number;
}
