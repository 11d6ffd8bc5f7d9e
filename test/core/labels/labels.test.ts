import fc from 'fast-check';
import { DEFAULT_LABEL_SETTINGS } from '../../../src/core/labels/label-settings';
import {
  bestBefore,
  floralSourceOf,
  labelText,
  wholePercents,
  type LabelledLot,
} from '../../../src/core/labels/label-text';
import { placeLabels } from '../../../src/core/labels/place-labels';
import {
  labelsPerPage,
  SHEET_NAMES,
  SHEETS,
  type SheetName,
} from '../../../src/core/labels/sheets';

const of = (numerator: number, denominator: number) => ({
  numerator: BigInt(numerator),
  denominator: BigInt(denominator),
});

const lot: LabelledLot = {
  code: 'K7MR486',
  kind: 'creamed',
  name: 'Lime, November',
  holderName: 'Mira',
  floral: [
    { name: 'Lime', share: of(45, 100) },
    { name: 'Rape', share: of(30, 100) },
    { name: null, share: of(25, 100) },
  ],
  origins: [
    { country: 'SI', share: of(1, 3) },
    { country: 'AT', share: of(2, 3) },
  ],
  pottedOn: '2026-11-05',
  netMassG: 500,
  isOnHold: false,
};
const names: Record<string, string> = { AT: 'Austria', SI: 'Slovenia' };
const countryName = (code: string) => names[code] ?? code;
const textOf = (change: object = {}, settings: object = {}, use: 'pot' | 'pail' = 'pot') =>
  labelText({ ...lot, ...change }, use, { ...DEFAULT_LABEL_SETTINGS, ...settings }, countryName);

describe('places', () => {
  const anySheet = fc.constantFrom(...SHEET_NAMES);
  const anyPlaces = anySheet.chain((name) =>
    fc.record({
      name: fc.constant(name),
      count: fc.integer({ min: 1, max: 100 }),
      start: fc.integer({ min: 1, max: labelsPerPage(SHEETS[name]) }),
    }),
  );

  test('every label lies on its page, and none over another', () => {
    fc.assert(
      fc.property(anyPlaces, ({ name, count, start }) => {
        const sheet = SHEETS[name];
        const places = placeLabels(sheet, count, start);
        expect(places).toHaveLength(count);
        for (const [index, a] of places.entries()) {
          expect(Math.min(a.xMm, a.yMm)).toBeGreaterThanOrEqual(-1e-9);
          expect(a.xMm + sheet.labelWidthMm).toBeLessThanOrEqual(sheet.pageWidthMm + 1e-9);
          expect(a.yMm + sheet.labelHeightMm).toBeLessThanOrEqual(sheet.pageHeightMm + 1e-9);
          const over = places.slice(index + 1).filter((b) => {
            const apartX = Math.abs(a.xMm - b.xMm) >= sheet.labelWidthMm - 1e-9;
            const apartY = Math.abs(a.yMm - b.yMm) >= sheet.labelHeightMm - 1e-9;
            return a.page === b.page && !apartX && !apartY;
          });
          expect(over).toEqual([]);
        }
        expect(new Set(places.map(({ page }) => page)).size).toBe(
          Math.ceil((start - 1 + count) / labelsPerPage(sheet)),
        );
      }),
    );
  });

  test('labels that were used already stay free', () => {
    const [first, second] = placeLabels(SHEETS['a4-3x7'], 2, 3);
    // By hand: 3 x 63.5 and two gaps of 2.5 leave 7.25 at each side; 7 x 38.1 leave 15.15 above.
    expect(first).toMatchObject({
      page: 0,
      xMm: expect.closeTo(139.25),
      yMm: expect.closeTo(15.15),
    });
    expect(second).toMatchObject({
      page: 0,
      xMm: expect.closeTo(7.25),
      yMm: expect.closeTo(53.25),
    });
    expect(() => placeLabels(SHEETS['a4-3x7'], 1, 22)).toThrow(RangeError);
  });

  test('a sheet’s name tells its geometry', () => {
    for (const name of SHEET_NAMES) {
      const { columns, rows, labelWidthMm, labelHeightMm } = SHEETS[name];
      const isAlone = columns * rows === 1;
      const size: string = isAlone ? `${labelWidthMm}x${labelHeightMm}` : `${columns}x${rows}`;
      expect(name.endsWith(size as SheetName)).toBe(true);
    }
  });
});

describe('words', () => {
  test('a pot tells what a buyer must be told', () => {
    expect(textOf({}, { producer: 'Mill Honey\nMill Lane 3', bestBeforeMonths: 24 })).toEqual({
      title: 'Creamed honey',
      subtitle: 'Lime',
      quantity: '500 g',
      hasEMark: false,
      quantityHeightMm: 4,
      lotMark: 'L K7M-R486',
      lines: [
        'Best before: 2028-11-05',
        'Origin: Austria 67 %, Slovenia 33 %',
        'Mill Honey',
        'Mill Lane 3',
        'Keep cool, dry and out of the sun.',
        'Not for infants under 12 months.',
      ],
    });
  });

  test('what is not known is a blank to write on, never a guess', () => {
    const text = textOf({ pottedOn: null, netMassG: null, origins: [] }, { bestBeforeMonths: 24 });
    expect(text.quantity).toBeNull();
    expect(text.lines.slice(0, 2)).toEqual([
      'Best before: ________________',
      'Origin: ________________',
    ]);
    expect(textOf().lines[0]).toBe('Best before: ________________');
  });

  test('a pail tells whose it is and which, and cautions all the same', () => {
    const text = textOf({}, {}, 'pail');
    expect(text).toMatchObject({ subtitle: 'Lime, November', hasEMark: false });
    expect(text.lines).toEqual([
      'Lime',
      'Origin: Austria 67 %, Slovenia 33 %',
      'Mira',
      'Not for infants under 12 months.',
    ]);
  });

  test('a floral source is named alone from the club’s share on, exactly', () => {
    expect(floralSourceOf(lot.floral, 4500)).toBe('Lime');
    expect(floralSourceOf(lot.floral, 4501)).toBeNull();
    const short = [{ name: 'Lime', share: of(44_999_999_999, 100_000_000_000) }];
    expect(floralSourceOf(short, 4500)).toBeNull();
    const halves = [
      { name: 'Lime', share: of(1, 2) },
      { name: 'Rape', share: of(2, 4) },
    ];
    expect(floralSourceOf(halves, 4500)).toBeNull();
    expect(floralSourceOf([{ name: null, share: of(1, 1) }], 4500)).toBeNull();
    expect(textOf({}, { singleSourceCentiPercent: 5000 }).subtitle).toBe('blend');
  });

  test('origins fall, by exact shares, with percentages or without', () => {
    expect(textOf({}, { origins: 'namesOnly' }).lines[1]).toBe('Origin: Austria, Slovenia');
    const trace = [
      { country: 'SI', share: of(1, 1000) },
      { country: 'AT', share: of(999, 1000) },
    ];
    expect(textOf({ origins: trace }).lines[1]).toBe('Origin: Austria 100 %, Slovenia < 1 %');
    expect(textOf({ origins: [{ country: null, share: of(1, 1) }] }).lines[1]).toBe(
      'Origin: ? 100 %',
    );
  });

  test('percentages add up to 100 and none is a whole percent off', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 100_000 }), { minLength: 1, maxLength: 9 }),
        (weights) => {
          const whole = weights.reduce((sum, weight) => sum + weight, 0);
          const percents = wholePercents(weights.map((weight) => of(weight, whole)));
          expect(percents.reduce((sum, percent) => sum + percent, 0)).toBe(100);
          for (const [index, weight] of weights.entries()) {
            expect(Math.abs(percents[index]! - (100 * weight) / whole)).toBeLessThan(1);
          }
        },
      ),
    );
  });

  test.each([
    [5, true],
    [4, false],
    [10_000, true],
    [10_001, false],
  ])('the e-mark beside %i g: %s, and only where the club has it', (netMassG, isThere) => {
    expect(textOf({ netMassG }, { eMark: true }).hasEMark).toBe(isThere);
    expect(textOf({ netMassG }).hasEMark).toBe(false);
    expect(textOf({ netMassG }, { eMark: true }, 'pail').hasEMark).toBe(false);
  });

  test.each([
    ['2026-11-05', 24, '2028-11-05'],
    ['2026-08-31', 6, '2027-02-28'],
    ['2027-08-31', 6, '2028-02-29'],
    ['2026-12-31', 1, '2027-01-31'],
    ['2026-01-31', 12, '2027-01-31'],
  ])('from %s, %i months on is %s', (pottedOn, months, day) => {
    expect(bestBefore(pottedOn, months)).toBe(day);
  });

  test('from a kilogram on it is told in kilograms', () => {
    expect(textOf({ netMassG: 999 }).quantity).toBe('999 g');
    expect(textOf({ netMassG: 1250 }).quantity).toBe('1.25 kg');
  });
});
