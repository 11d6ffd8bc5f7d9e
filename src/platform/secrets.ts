import { createHash, randomBytes } from 'node:crypto';
import { crc32 } from 'node:zlib';

const alphabet = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz';
const tokenPrefix = 'crpat_';

/** What is kept of a secret: it has 128 bits of chance or more, so a plain hash will do. */
export function hashSecret(secret: string): Uint8Array<ArrayBuffer> {
  return new Uint8Array(createHash('sha256').update(secret).digest());
}

/** A secret of the given number of letters and digits, 5.95 bits each. */
export function newSecret(length: number): string {
  let secret = '';
  while (secret.length < length) {
    // 248 = 4 × 62: larger bytes would favour the first letters.
    for (const byte of randomBytes(length)) {
      if (byte < 248 && secret.length < length) secret += alphabet.charAt(byte % 62);
    }
  }
  return secret;
}

/** A personal access token: its prefix, 30 letters and digits, and six that check them, so that a mistyped one is known as such. */
export function newToken(): string {
  const secret = newSecret(30);
  return `${tokenPrefix}${secret}${checkOf(secret)}`;
}

export function isWellFormedToken(token: string): boolean {
  const parts = /^crpat_([0-9A-Za-z]{30})([0-9A-Za-z]{6})$/.exec(token);
  return parts !== null && checkOf(parts[1] ?? '') === parts[2];
}

function checkOf(secret: string): string {
  let rest = crc32(secret);
  let check = '';
  for (let place = 0; place < 6; place++) {
    check = alphabet.charAt(rest % 62) + check;
    rest = Math.floor(rest / 62);
  }
  return check;
}
