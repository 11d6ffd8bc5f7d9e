import { labelsPerPage, type Sheet } from './sheets';

/** Where a label is printed, in millimetres from the left and the top of its page. */
export type LabelPlace = {
  /** Counted from 0. */
  readonly page: number;
  readonly xMm: number;
  readonly yMm: number;
};

/**
 * The places of `count` labels (1 or more), row by row, page after page, beginning at the label `start` of the first sheet, counted
 * from 1: those before it were used already. RangeError for a start that the sheet does not have.
 */
export function placeLabels(sheet: Sheet, count: number, start: number): LabelPlace[] {
  const perPage = labelsPerPage(sheet);
  if (!Number.isInteger(start) || start < 1 || start > perPage) {
    throw new RangeError(`start must be a whole number from 1 to ${perPage}, got ${start}`);
  }
  return Array.from({ length: count }, (_, index) => {
    const at = start - 1 + index;
    const onPage = at % perPage;
    return {
      page: Math.floor(at / perPage),
      xMm: sheet.leftMm + (onPage % sheet.columns) * sheet.stepXMm,
      yMm: sheet.topMm + Math.floor(onPage / sheet.columns) * sheet.stepYMm,
    };
  });
}
