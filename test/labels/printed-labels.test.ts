import fc from 'fast-check';
import { DEFAULT_LABEL_SETTINGS } from '../../src/core/labels/label-settings';
import { labelText, type LabelUse } from '../../src/core/labels/label-text';
import { placeLabels } from '../../src/core/labels/place-labels';
import { labelsPerPage, SHEET_NAMES, SHEETS, type SheetName } from '../../src/core/labels/sheets';
import { LOT_CODE_ALPHABET, readLotCode, writtenLotCode } from '../../src/core/marks/lot-code';
import { printLabels } from '../../src/labels/print-labels';
import { scanned, testWith, wordsOf } from '../support/paper';

const signs = LOT_CODE_ALPHABET.split('');

/** Codes that may be given out: six characters, and the seventh that goes with them if it is one of the ten. */
const anyCode = fc
  .array(fc.constantFrom(...signs), { minLength: 6, maxLength: 6 })
  .map((first) => signs.map((last) => [...first, last].join('')))
  .map((codes) => codes.find((code) => readLotCode(code).kind === 'code') ?? '')
  .filter((code) => code !== '');

interface Wanted {
  code: string;
  use?: LabelUse;
  sheetName?: SheetName;
  count?: number;
  service?: string;
}

function printed({
  code,
  use = 'pot',
  sheetName = 'a4-3x7',
  count = labelsPerPage(SHEETS[sheetName]),
  service = 'https://honey.example.org',
}: Wanted): Promise<Buffer | 'does not fit'> {
  const lot = {
    code,
    kind: 'creamed' as const,
    name: 'Lime, November',
    holderName: 'Mira',
    floral: [{ name: 'Lime', share: { numerator: 1n, denominator: 1n } }],
    origins: [{ country: 'AT', share: { numerator: 1n, denominator: 1n } }],
    pottedOn: '2026-11-05',
    netMassG: 500,
    isOnHold: false,
  };
  const sheet = SHEETS[sheetName];
  return printLabels({
    sheet,
    places: placeLabels(sheet, count, 1),
    text: labelText(lot, use, DEFAULT_LABEL_SETTINGS, () => 'Austria'),
    address: `${service}/lots/${code}`,
    madeAt: new Date('2026-11-05T10:00:00Z'),
  });
}

async function pdfOf(wanted: Wanted): Promise<Buffer> {
  const pdf = await printed(wanted);
  if (pdf === 'does not fit') throw new Error(`${wanted.sheetName}: ${pdf}`);
  return pdf;
}

const testScans = testWith('pdftoppm', 'zbarimg');
const testWords = testWith('pdftotext');

testScans.each(['K2YYMK7', 'K7MR486', ...fc.sample(anyCode, { numRuns: 2, seed: 7 })])(
  'every label of a sheet of %s is read (needs pdftoppm and zbarimg)',
  async (code) => {
    const labels = scanned(await pdfOf({ code, count: 30 }));
    expect(labels).toEqual(Array<string>(30).fill(`https://honey.example.org/lots/${code}`));
  },
);

testScans('codes of all kinds are read (needs pdftoppm and zbarimg)', async () => {
  const read = fc.asyncProperty(anyCode, async (code) => {
    const labels = scanned(await pdfOf({ code, sheetName: '62x40', count: 1 }));
    expect(labels).toEqual([`https://honey.example.org/lots/${code}`]);
  });
  await fc.assert(read, { numRuns: 25 });
});

testScans(
  'on every sheet on which the words fit the codes are read, those of 16 mm, too (needs pdftoppm and zbarimg)',
  async () => {
    const fitting: SheetName[] = [];
    for (const sheetName of SHEET_NAMES) {
      const pdf = await printed({ code: 'K2YYMK7', use: 'pail', sheetName });
      if (pdf === 'does not fit') continue;
      const labels = Array<string>(labelsPerPage(SHEETS[sheetName]));
      expect(scanned(pdf)).toEqual(labels.fill('https://honey.example.org/lots/K2YYMK7'));
      fitting.push(sheetName);
    }
    expect(fitting).toEqual(expect.arrayContaining(['a4-3x7', '62x40']));
  },
);

testScans(
  'a long address makes a finer code that is read, too (needs pdftoppm and zbarimg)',
  async () => {
    const service = 'https://the-creaming-room.of-the-long-valley.beekeepers.example.org:8443';
    const labels = scanned(await pdfOf({ code: 'K2YYMK7', sheetName: '62x40', count: 2, service }));
    expect(labels).toEqual(Array<string>(2).fill(`${service}/lots/K2YYMK7`));
  },
);

testWords(
  'a lot mark stands on one line, whatever the code (needs pdftotext)',
  async () => {
    const oneLine = fc.asyncProperty(anyCode, async (code) => {
      const [page] = wordsOf(await pdfOf({ code, sheetName: '62x40', count: 1 }));
      expect(page).toContain(`L ${writtenLotCode(code)}`);
    });
    await fc.assert(oneLine, { numRuns: 200, examples: [['K2YYMK7']] });
  },
  120_000,
);
