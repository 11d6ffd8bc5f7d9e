import { create } from 'qrcode';

/** Light all around a QR code, in modules (ISO/IEC 18004). */
const QUIET_ZONE = 4;

/** The QR code of a text (level M: it is read with up to 15 % damaged), line by line, quiet zone included: true is dark. */
export function qrModules(text: string): boolean[][] {
  const { modules } = create(text, { errorCorrectionLevel: 'M' });
  const side = modules.size + 2 * QUIET_ZONE;
  const isDark = (row: number, column: number): boolean =>
    row >= 0 &&
    column >= 0 &&
    row < modules.size &&
    column < modules.size &&
    modules.get(row, column) === 1;
  return Array.from({ length: side }, (_row, row) =>
    Array.from({ length: side }, (_column, column) =>
      isDark(row - QUIET_ZONE, column - QUIET_ZONE),
    ),
  );
}
