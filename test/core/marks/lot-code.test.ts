import { mod37_2 } from 'cdigit';
import fc from 'fast-check';
import {
  LOT_CODE_ALPHABET,
  LOT_CODE_LENGTH,
  readLotCode,
  writtenLotCode,
} from '../../../src/core/marks/lot-code';

/** Codes as the database draws them. */
const codes = fc
  .string({
    unit: fc.constantFrom(...Array.from(LOT_CODE_ALPHABET)),
    minLength: LOT_CODE_LENGTH - 1,
    maxLength: LOT_CODE_LENGTH - 1,
  })
  .map((body) => mod37_2.generate(body))
  .filter((code) => LOT_CODE_ALPHABET.includes(code.at(-1)!));

// The first is the worked example of the blood banks' standard ISBT 128, which uses MOD 37-2; all three stand so in the tests and
// documentation of several independent implementations of ISO/IEC 7064.
test.each([
  ['G123489654321', 'Y'],
  ['A999915000001', 'M'],
  ['LMOSBYFCTRSSJCB3X6U9DUBLKNIH03FO6X963TGXYAHG', '*'],
])('the check character of %s is %s', (body, character) => {
  expect(mod37_2.compute(body)).toBe(character);
});

test('no two characters of the alphabet look or sound alike', () => {
  const alike = [
    '0ODQ',
    '1ILJ7',
    '5S',
    '2Z',
    '6G9',
    '8B',
    'UV',
    'MWN',
    'BCDEGPTVWZ',
    'AHJK',
    'FSX',
    'IY',
    '59',
  ];
  for (const group of alike) {
    const taken = Array.from(group).filter((character) => LOT_CODE_ALPHABET.includes(character));
    expect([group, taken.length]).toEqual([group, Math.min(taken.length, 1)]);
  }
});

test('a code is read whatever the case, spaces, dashes and the L before it', () => {
  fc.assert(
    fc.property(codes, fc.constantFrom('', ' ', '-', ' – ', '.'), (code, between) => {
      const spoken = Array.from(code).join(between);
      for (const text of [spoken, spoken.toLowerCase(), ` L ${spoken}`, `l-${spoken}`]) {
        expect(readLotCode(text)).toEqual({ kind: 'code', code });
      }
      expect(readLotCode(writtenLotCode(code))).toEqual({ kind: 'code', code });
    }),
  );
});

test('one wrong character is always noticed', () => {
  fc.assert(
    fc.property(codes, fc.nat(LOT_CODE_LENGTH - 1), (code, place) => {
      for (const wrong of LOT_CODE_ALPHABET.replace(code[place]!, '')) {
        const misread = code.slice(0, place) + wrong + code.slice(place + 1);
        expect(readLotCode(misread)).toMatchObject({ kind: 'misread' });
      }
    }),
  );
});

test('two characters that changed places are always noticed, neighbours or not', () => {
  fc.assert(
    fc.property(codes, fc.nat(LOT_CODE_LENGTH - 1), fc.nat(LOT_CODE_LENGTH - 1), (code, a, b) => {
      fc.pre(code[a] !== code[b]);
      const characters = Array.from(code);
      [characters[a], characters[b]] = [characters[b]!, characters[a]!];
      expect(readLotCode(characters.join(''))).toMatchObject({ kind: 'misread' });
    }),
  );
});

test.each([
  ['', 'a lot code has 7 characters, this has 0'],
  ['K7MR', 'a lot code has 7 characters, this has 4'],
  ['K7MR4O2', '“O” is in no lot code'],
  ['K7MR4🐝2', '“🐝” is in no lot code'],
])('“%s” is no code, and it is said why', (text, because) => {
  expect(readLotCode(text)).toEqual({ kind: 'misread', because });
});

test('whatever is typed is read or told to be misread', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const read = readLotCode(text);
      if (read.kind === 'code') expect(mod37_2.validate(read.code)).toBe(true);
    }),
  );
});
