import { mod37_2 } from 'cdigit';

/**
 * What lot codes are written with. Of the ten digits and 26 letters those are left out that look like another, upright or upside down
 * (0 O D Q, 1 I L, 5 S, 2 Z, 6 G 9, 8 B, U V, M W), and those that sound like another when read aloud in English or German (B C D E G
 * P T V W, A H J K, F S X, M N, I Y, five and nine): common practice, no source.
 */
export const LOT_CODE_ALPHABET = '234678KMRY';

/** Without dashes; the last is the check character. */
export const LOT_CODE_LENGTH = 7;

export type ReadLotCode =
  | { readonly kind: 'code'; readonly code: string }
  | { readonly kind: 'misread'; readonly because: string };

/**
 * The code that a person typed or read aloud: case, spaces, dashes and dots do not matter, nor does the L that stands before a lot mark
 * on a label. A code that was misread is told as such, with the reason in words.
 *
 * The last character is the check character of ISO/IEC 7064, MOD 37-2, a pure system: since 37 is prime and 2 a primitive root of it,
 * one wrong character and two that changed places, neighbours or not, are always noticed (of the hybrid MOD 37,36, which needs no `*`,
 * some two neighbours that changed places pass). The `*` never occurs: only codes whose check character is in the alphabet are given out.
 */
export function readLotCode(text: string): ReadLotCode {
  const characters = text.toUpperCase().replaceAll(/[\s.\-\u2010-\u2015]/g, '');
  const isMarked = characters.length === LOT_CODE_LENGTH + 1 && characters.startsWith('L');
  const code = isMarked ? characters.slice(1) : characters;
  const stranger = Array.from(code).find((character) => !LOT_CODE_ALPHABET.includes(character));
  if (stranger !== undefined) return misread(`“${stranger}” is in no lot code`);
  const { length } = code;
  if (length !== LOT_CODE_LENGTH) {
    return misread(`a lot code has ${LOT_CODE_LENGTH} characters, this has ${length}`);
  }
  return mod37_2.validate(code)
    ? { kind: 'code', code }
    : misread('its last character does not go with the others');
}

/** A code as it is written for people: in two groups, such as K7M-R486. */
export function writtenLotCode(code: string): string {
  return `${code.slice(0, 3)}-${code.slice(3)}`;
}

function misread(because: string): ReadLotCode {
  return { kind: 'misread', because };
}
