import type { LabelText } from '../core/labels/label-text';

export interface FittedText {
  text: string;
  font: 'plain' | 'bold';
  /** In points, as all that follows. */
  size: number;
  x: number;
  y: number;
  /** Where its lines break; null: never. */
  width: number | null;
}

export interface FittedLabel {
  texts: FittedText[];
  qr: { x: number; y: number; side: number };
}

const MARGIN_MM = 2;
const GAP_MM = 1.5;
const LARGEST_POINTS = 12;
/** Regulation (EU) 1169/2011, article 13(2): an x-height of 1.2 mm or more; that of the font is 0.547 of its size. */
const SMALLEST_POINTS = (1.2 / 0.547) * (72 / 25.4);
/** The figures of the font are 0.729 of its size high. */
const FIGURE_HEIGHT = 0.729;

export function pointsOf(mm: number): number {
  return (mm * 72) / 25.4;
}

/**
 * The words of a label of that size in millimetres, in the largest letters in which they fit, beside the QR code with the lot mark
 * under it; null when they do not fit in letters of a height that can be read. `pdf` measures, and has the fonts plain and bold.
 */
export function fitLabel(
  pdf: PDFKit.PDFDocument,
  text: LabelText,
  widthMm: number,
  heightMm: number,
): FittedLabel | null {
  for (let size = LARGEST_POINTS; size > SMALLEST_POINTS - 0.3; size -= 0.3) {
    const fitted = fitAt(pdf, text, Math.max(size, SMALLEST_POINTS), widthMm, heightMm);
    if (fitted !== null) return fitted;
  }
  return null;
}

function fitAt(
  pdf: PDFKit.PDFDocument,
  text: LabelText,
  base: number,
  widthMm: number,
  heightMm: number,
): FittedLabel | null {
  const [margin, gap] = [pointsOf(MARGIN_MM), pointsOf(GAP_MM)];
  const [width, height] = [pointsOf(widthMm), pointsOf(heightMm)];
  const qrSide = pointsOf(Math.min(22, Math.max(16, widthMm * 0.25)));
  const column = width - 2 * margin - gap - qrSide;
  const heightOf = (words: string, font: 'plain' | 'bold', size: number, within: number): number =>
    pdf.font(font).fontSize(size).heightOfString(words, { width: within });

  const texts: FittedText[] = [];
  let y = margin;
  const put = (words: string, font: 'plain' | 'bold', size: number): void => {
    texts.push({ text: words, font, size, x: margin, y, width: column });
    y += heightOf(words, font, size, column);
  };
  put(text.title, 'bold', base * 1.3);
  put(text.subtitle, 'plain', base * 1.1);
  const quantity = `${text.quantity ?? '________'}${text.hasEMark ? ' ℮' : ''}`;
  put(quantity, 'bold', pointsOf(text.quantityHeightMm) / FIGURE_HEIGHT);
  for (const line of text.lines) put(line, 'plain', base);

  const qr = { x: width - margin - qrSide, y: margin, side: qrSide };
  const widthAtOnePoint = pdf.font('bold').fontSize(1).widthOfString(text.lotMark);
  const size = Math.min(base * 1.2, qrSide / widthAtOnePoint);
  const x = qr.x + (qrSide - size * widthAtOnePoint) / 2;
  texts.push({ text: text.lotMark, font: 'bold', size, x, y: qr.y + qrSide, width: null });
  const lowest = Math.max(y, qr.y + qrSide + pdf.fontSize(size).currentLineHeight());
  return lowest <= height - margin && size >= SMALLEST_POINTS ? { texts, qr } : null;
}
