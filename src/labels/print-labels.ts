import path from 'node:path';
import PDFDocument from 'pdfkit';
import type { LabelPlace } from '../core/labels/place-labels';
import type { LabelText } from '../core/labels/label-text';
import type { Sheet } from '../core/labels/sheets';
import { fitLabel, pointsOf, type FittedLabel } from './fit-label';
import { qrModules } from './qr-modules';

// A font whose letters most of Europe's languages can be written with (DejaVu): the fourteen that every reader has cannot.
const fonts = path.join(path.dirname(require.resolve('dejavu-fonts-ttf/package.json')), 'ttf');
const FONT_FILES = {
  plain: path.join(fonts, 'DejaVuSansCondensed.ttf'),
  bold: path.join(fonts, 'DejaVuSansCondensed-Bold.ttf'),
};

export interface LabelsToPrint {
  sheet: Sheet;
  places: readonly LabelPlace[];
  text: LabelText;
  /** What the QR code leads to. */
  address: string;
  /** The same labels printed again are the same file. */
  madeAt: Date;
}

/** The labels as a PDF, or that the words do not fit on them in letters that can be read. */
export async function printLabels(wanted: LabelsToPrint): Promise<Buffer | 'does not fit'> {
  const { sheet, places, text, address, madeAt } = wanted;
  const pdf = new PDFDocument({
    autoFirstPage: false,
    margin: 0,
    size: [pointsOf(sheet.pageWidthMm), pointsOf(sheet.pageHeightMm)],
    lang: 'en',
    info: { Title: `${text.title}, ${text.lotMark}`, CreationDate: madeAt },
  });
  pdf.registerFont('plain', FONT_FILES.plain);
  pdf.registerFont('bold', FONT_FILES.bold);
  const fitted = fitLabel(pdf, text, sheet.labelWidthMm, sheet.labelHeightMm);
  if (fitted === null) return 'does not fit';

  const chunks: Buffer[] = [];
  pdf.on('data', (chunk: Buffer) => chunks.push(chunk));
  const ended = new Promise((resolve) => pdf.once('end', resolve));
  const modules = qrModules(address);
  let page = -1;
  for (const place of places) {
    for (; page < place.page; page++) pdf.addPage();
    drawLabel(pdf, place, fitted, modules);
    const [x, y] = [pointsOf(place.xMm) + fitted.qr.x, pointsOf(place.yMm) + fitted.qr.y];
    pdf.link(x, y, fitted.qr.side, fitted.qr.side, address);
  }
  pdf.end();
  await ended;
  return Buffer.concat(chunks);
}

function drawLabel(
  pdf: PDFKit.PDFDocument,
  { xMm, yMm }: LabelPlace,
  { texts, qr }: FittedLabel,
  modules: boolean[][],
): void {
  const [left, top] = [pointsOf(xMm), pointsOf(yMm)];
  for (const { text, font, size, x, y, width } of texts) {
    pdf.font(font).fontSize(size).fillColor('#000');
    pdf.text(text, left + x, top + y, width === null ? { lineBreak: false } : { width });
  }
  const side = qr.side / modules.length;
  for (const [row, line] of modules.entries()) {
    for (const [column, isDark] of line.entries()) {
      if (isDark) pdf.rect(left + qr.x + column * side, top + qr.y + row * side, side, side);
    }
  }
  pdf.fill('#000');
}
