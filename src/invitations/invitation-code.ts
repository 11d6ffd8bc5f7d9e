import { randomBytes } from 'node:crypto';

/** Without I, L, O and U, which are misread or make words (Crockford's Base32): five bits each. */
const alphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

/** A code to be read out or typed off a sheet of paper: 16 letters and digits in groups of four, 80 bits. */
export function newInvitationCode(): string {
  const letters = [...randomBytes(16)].map((byte) => alphabet.charAt(byte % 32)).join('');
  return (letters.match(/.{4}/g) ?? []).join('-');
}

/** The code that somebody meant who typed this, in one form for all ways of writing it; null: it cannot be one. */
export function readInvitationCode(typed: string): string | null {
  const letters = typed
    .toUpperCase()
    .replace(/[\s-]/g, '')
    .replaceAll('O', '0')
    .replace(/[IL]/g, '1');
  return /^[0-9A-HJKMNP-TV-Z]{16}$/.test(letters) ? letters : null;
}
