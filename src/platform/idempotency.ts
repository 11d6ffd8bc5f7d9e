import {
  createCipheriv,
  createDecipheriv,
  createHash,
  createHmac,
  hkdfSync,
  randomBytes,
} from 'node:crypto';
import { Refusal, type RefusalCode, type RefusalMore } from '../core/refusal';
import type { Transaction } from './database';
import { Prisma } from './prisma-client/client';

// One POST, sent again with the same Idempotency-Key, has one effect and one answer. The key's row, the effect and the answer commit
// together, so a crash at any moment leaves all of them or none.

/** What a POST with an Idempotency-Key lays claim to. */
export interface IdempotencyClaim {
  personId: string;
  route: string;
  key: string;
  fingerprint: Buffer;
  /** Set when the answer is that of an earlier request. */
  replayed: boolean;
}

export type KeptAnswer =
  { answer: unknown } | { refusal: { code: RefusalCode; detail: string; more: RefusalMore } };

export const nobody = '00000000-0000-0000-0000-000000000000';
export const keysKeptForHours = 24;

/**
 * The key in an Idempotency-Key header: a structured-field string (RFC 8941, 3.3.3) of 1 to 255 printable characters, or, as many
 * clients send it, a bare UUID.
 */
export function readIdempotencyKey(header: string): string {
  const quoted = /^"((?:[\x20-\x21\x23-\x5b\x5d-\x7e]|\\["\\]){1,255})"$/.exec(header)?.[1];
  if (quoted !== undefined) return quoted;
  if (/^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i.test(header)) return header;
  throw new Refusal(
    'bad-idempotency-key',
    'Idempotency-Key is a quoted string of 1 to 255 printable characters, such as "pail-7-loaded", or a bare UUID.',
  );
}

/**
 * What makes two requests the same: the exact address and the body, members in any order. Keyed with the caller's key, which the database
 * does not hold: nobody can try passwords against it.
 */
export function fingerprintOf(key: string, url: string, body: unknown): Buffer {
  return createHmac('sha256', key)
    .update(`${url}\n${JSON.stringify(body, sorted)}`)
    .digest();
}

function sorted(_name: string, value: unknown): unknown {
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** The advisory lock that is held while a request with the key runs. */
export function lockOf({
  personId,
  route,
  key,
}: Pick<IdempotencyClaim, 'personId' | 'route' | 'key'>): bigint {
  return hash(`${personId} ${route} ${key}`).readBigInt64BE();
}

/** Takes the key in this transaction, or finds the answer kept under it. Refuses while another request holds it. */
export async function claim(tx: Transaction, want: IdempotencyClaim): Promise<KeptAnswer | null> {
  const keyHash = hash(want.key);
  const [found] = await tx.$queryRaw<
    { open: boolean; fresh: boolean; fingerprint: Uint8Array | null; answer: Uint8Array | null }[]
  >(Prisma.sql`
    with gate as materialized (select pg_try_advisory_xact_lock(${lockOf(want)}) as open),
    kept as (
      select fingerprint, answer from idempotency_key
      where person_id = ${want.personId}::uuid and route = ${want.route} and key_hash = ${keyHash}
    ),
    fresh as (
      insert into idempotency_key (person_id, route, key_hash, fingerprint)
      select ${want.personId}::uuid, ${want.route}, ${keyHash}, ${want.fingerprint} from gate
      where open and not exists (select from kept)
      on conflict do nothing returning true as yes
    )
    select open, exists (select from fresh) as fresh, fingerprint, answer
    from gate left join kept on true`);
  if (found?.fresh === true) return null;
  if (found?.answer == null || found.fingerprint === null) {
    throw new Refusal('request-running', undefined, { retryAfterSeconds: 1 });
  }
  if (!want.fingerprint.equals(found.fingerprint)) throw new Refusal('key-reused');
  want.replayed = true;
  return unseal(want.key, found.answer);
}

/** Keeps the answer beside its effect. */
export async function keepAnswer(
  tx: Transaction,
  want: IdempotencyClaim,
  answer: KeptAnswer,
): Promise<void> {
  const personId_route_keyHash = {
    personId: want.personId,
    route: want.route,
    keyHash: new Uint8Array(hash(want.key)),
  };
  const sealed = new Uint8Array(seal(want.key, answer));
  await tx.idempotencyKey.upsert({
    where: { personId_route_keyHash },
    update: { answer: sealed },
    create: {
      ...personId_route_keyHash,
      fingerprint: new Uint8Array(want.fingerprint),
      answer: sealed,
    },
  });
}

function hash(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}

// The answer may show a secret (a new token), and the database must not hold one: it is encrypted under the key that only the caller
// has.

function seal(key: string, answer: KeptAnswer): Buffer {
  const salt = randomBytes(16);
  const nonce = randomBytes(12);
  const cipher = createCipheriv('aes-256-gcm', derived(key, salt), nonce);
  const text = Buffer.concat([cipher.update(JSON.stringify(answer)), cipher.final()]);
  return Buffer.concat([salt, nonce, cipher.getAuthTag(), text]);
}

function unseal(key: string, sealed: Uint8Array): KeptAnswer {
  const bytes = Buffer.from(sealed);
  const decipher = createDecipheriv(
    'aes-256-gcm',
    derived(key, bytes.subarray(0, 16)),
    bytes.subarray(16, 28),
  );
  decipher.setAuthTag(bytes.subarray(28, 44));
  const text = Buffer.concat([decipher.update(bytes.subarray(44)), decipher.final()]);
  return JSON.parse(text.toString('utf8')) as KeptAnswer;
}

function derived(key: string, salt: Buffer): Buffer {
  return Buffer.from(hkdfSync('sha256', key, salt, 'kept answer', 32));
}
