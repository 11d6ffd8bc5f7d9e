/** Text as it stands between tags or in an attribute of XML 1.0; characters that XML has no way to write are shown as U+FFFD. */
export function escapeXml(text: string): string {
  return text
    .toWellFormed()
    .replaceAll(UNWRITABLE, '\uFFFD')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

// Source: W3C, Extensible Markup Language (XML) 1.0, fifth edition, production 2 (Char).
const UNWRITABLE = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/g;

/** The text, cut where it would be wider than so many letters of ordinary width; letters of the far East count twice. */
export function shortened(text: string, letters: number): string {
  let width = 0;
  let kept = '';
  for (const letter of text) {
    width += (letter.codePointAt(0) ?? 0) >= FIRST_WIDE ? 2 : 1;
    if (width > letters) return `${kept.trimEnd()}…`;
    if (width <= letters - 1) kept += letter;
  }
  return text;
}

const FIRST_WIDE = 0x1100;

/** A share from 0 to 1 in percent, with three digits that count; what is less than a millionth of the whole is said to be so. */
export function percentInWords(share: number): string {
  const percent = share * 100;
  if (percent > 0 && percent < 0.0001) return '< 0.0001 %';
  if (percent >= 99.95) return percent >= 100 ? '100 %' : '99.9 %';
  return `${Number(percent.toPrecision(3))} %`;
}
