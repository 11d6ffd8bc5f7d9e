import { randomInt } from 'node:crypto';
import { hash, verify } from '@node-rs/argon2';
import { invalidField } from '../core/refusal';
import { passwordFault } from './password-rules';

/** argon2id with 19 MiB, two passes, one lane: OWASP Password Storage Cheat Sheet. */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

/** A hash that no password has, and that takes as long to compare as any. */
const decoy =
  `$argon2id$v=19$m=${cost.memoryCost},t=${cost.timeCost},p=${cost.parallelism}` +
  `$${'A'.repeat(22)}$${'A'.repeat(43)}`;

export function hashPassword(password: string): Promise<string> {
  return hash(password, cost);
}

/** Whether the password has that hash. Without a hash the answer is no, after the same work. */
export async function isPassword(password: string, passwordHash: string | null): Promise<boolean> {
  const isSame = await verify(passwordHash ?? decoy, password);
  return isSame && passwordHash !== null;
}

/** Refuses a new password that is easily guessed. */
export async function refuseWeakPassword(
  password: string,
  person: { name: string; email: string },
  field: string,
): Promise<void> {
  const fault = passwordFault(password, person, await commonPasswords());
  if (fault !== null) throw invalidField(`#/${field}`, `${field} ${fault}`);
}

let common: Promise<Set<string>> | undefined;

/** The list takes a moment to unpack, and most runs of the service never need it. */
function commonPasswords(): Promise<Set<string>> {
  common ??= import('@zxcvbn-ts/language-common').then(
    ({ dictionary }) =>
      new Set([...dictionary['passwords-common'], ...dictionary['diceware-common']]),
  );
  return common;
}

/** Six words drawn from 7776, 77 bits: easy to read out on the telephone. */
export async function newPassphrase(): Promise<string> {
  const { dictionary } = await import('@zxcvbn-ts/language-common');
  const words = dictionary['diceware-common'];
  return Array.from({ length: 6 }, () => words[randomInt(words.length)] ?? '').join('-');
}
