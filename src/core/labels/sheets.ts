/** A sheet of labels to print on, or a label alone: all in millimetres. Named by its geometry. */
export type Sheet = {
  readonly pageWidthMm: number;
  readonly pageHeightMm: number;
  readonly columns: number;
  readonly rows: number;
  readonly labelWidthMm: number;
  readonly labelHeightMm: number;
  readonly leftMm: number;
  readonly topMm: number;
  /** From the left edge of a label to that of the next. */
  readonly stepXMm: number;
  readonly stepYMm: number;
};

const A4 = { pageWidthMm: 210, pageHeightMm: 297 };
const LETTER = { pageWidthMm: 215.9, pageHeightMm: 279.4 };

/** Sizes that sheets of labels commonly have (common practice, no source), and labels alone for label printers. */
export const SHEETS = {
  'a4-2x4': grid(A4, 2, 4, { width: 99.1, height: 67.7, gapX: 2.5, gapY: 0 }),
  'a4-2x7': grid(A4, 2, 7, { width: 99.1, height: 38.1, gapX: 2.5, gapY: 0 }),
  'a4-3x7': grid(A4, 3, 7, { width: 63.5, height: 38.1, gapX: 2.5, gapY: 0 }),
  'a4-3x8': grid(A4, 3, 8, { width: 70, height: 37, gapX: 0, gapY: 0 }),
  'letter-2x3': grid(LETTER, 2, 3, { width: 101.6, height: 84.67, gapX: 4.76, gapY: 0 }),
  'letter-2x5': grid(LETTER, 2, 5, { width: 101.6, height: 50.8, gapX: 4.76, gapY: 0 }),
  'letter-3x10': grid(LETTER, 3, 10, { width: 66.68, height: 25.4, gapX: 3.17, gapY: 0 }),
  '100x70': alone(100, 70),
  '70x50': alone(70, 50),
  '62x40': alone(62, 40),
} as const satisfies Record<string, Sheet>;

export type SheetName = keyof typeof SHEETS;

export const SHEET_NAMES = Object.keys(SHEETS) as SheetName[];

/** How many labels one page of the sheet holds. */
export function labelsPerPage({ columns, rows }: Sheet): number {
  return columns * rows;
}

/** Labels in the middle of the page. */
function grid(
  page: Pick<Sheet, 'pageWidthMm' | 'pageHeightMm'>,
  columns: number,
  rows: number,
  label: { width: number; height: number; gapX: number; gapY: number },
): Sheet {
  const { width, height, gapX, gapY } = label;
  return {
    ...page,
    columns,
    rows,
    labelWidthMm: width,
    labelHeightMm: height,
    leftMm: (page.pageWidthMm - columns * width - (columns - 1) * gapX) / 2,
    topMm: (page.pageHeightMm - rows * height - (rows - 1) * gapY) / 2,
    stepXMm: width + gapX,
    stepYMm: height + gapY,
  };
}

function alone(width: number, height: number): Sheet {
  const page = { pageWidthMm: width, pageHeightMm: height };
  return grid(page, 1, 1, { width, height, gapX: 0, gapY: 0 });
}
