import { openDB, type DBSchema } from 'idb';
import { useSyncExternalStore } from 'react';
import { Refused, Unreached } from '../api/client';
import { queries } from '../api/queries';
import type { components } from '../api/schema';
import { useSession } from '../api/session';

export type Problem = components['schemas']['Problem'];

/** Something a person did: a POST that waits for the network, or that the service refused when it came. */
export interface Kept {
  /** Its Idempotency-Key: however often it is sent, it has one effect. */
  key: string;
  /** Whose it is: on a shared phone another person must not send it. */
  personId: string;
  path: string;
  body: unknown;
  /** What was done, for the person to read. */
  words: string;
  doneAt: string;
  /** What the service answered; none: it was not sent yet. */
  problem?: Problem;
}

interface Stored extends DBSchema {
  kept: { key: string; value: Kept };
}

const database = openDB<Stored>('creaming-room', 1, {
  upgrade: (db) => {
    db.createObjectStore('kept', { keyPath: 'key' });
  },
});

let shown: Kept[] = [];
const listeners = new Set<() => void>();

async function refresh(): Promise<void> {
  const all = await (await database).getAll('kept');
  shown = all.sort((a, b) => a.doneAt.localeCompare(b.doneAt));
  for (const listener of listeners) listener();
}

function listen(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** What waits for the network, and what was refused when it was sent. */
export function useOutbox(): Kept[] {
  return useSyncExternalStore(listen, () => shown);
}

/**
 * Sends what whoever is signed in did. Where the service is not reached it is kept and sent later, once: 'kept'. A refusal is thrown and nothing is
 * kept: the person stands there and can do something about it.
 */
export function useSendOrKeep() {
  const { data: person } = useSession();
  return (path: string, body: unknown, words: string) =>
    sendOrKeep(person?.personId ?? '', path, body, words);
}

async function sendOrKeep(
  personId: string,
  path: string,
  body: unknown,
  words: string,
): Promise<'sent' | 'kept'> {
  const kept = {
    key: crypto.randomUUID(),
    personId,
    path,
    body,
    words,
    doneAt: new Date().toISOString(),
  };
  // What was done before and still waits goes first: a look must not overtake the step that it belongs to.
  if (shown.some((one) => one.personId === personId && one.problem === undefined)) {
    await keep(kept);
    void sendKept(personId);
    return 'kept';
  }
  try {
    await send(kept);
    return 'sent';
  } catch (error) {
    if (!(error instanceof Unreached)) throw error;
    await keep(kept);
    return 'kept';
  }
}

/**
 * Sends once more what the service refused, when what stood in its way may have gone: under a new key, for the old one stands for that
 * refusal. However often it is asked for, and in however many windows, it is sent once.
 */
export async function sendAgain(oldKey: string): Promise<void> {
  const changes = (await database).transaction('kept', 'readwrite');
  const refused = await changes.store.get(oldKey);
  if (refused !== undefined) {
    await changes.store.delete(oldKey);
    const again = { ...refused, key: crypto.randomUUID() };
    delete again.problem;
    await changes.store.put(again);
  }
  await changes.done;
  await refresh();
  if (refused !== undefined) await sendKept(refused.personId);
}

/** Gives up something that the service refused. */
export async function forget(key: string): Promise<void> {
  await (await database).delete('kept', key);
  await refresh();
}

async function keep(kept: Kept): Promise<void> {
  await (await database).put('kept', kept);
  await refresh();
}

async function send({ key, path, body }: Kept): Promise<void> {
  const response = await fetch(path, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', 'Idempotency-Key': key },
    body: JSON.stringify(body),
  }).catch((cause: unknown) => {
    throw new Unreached('The service was not reached.', { cause });
  });
  if (response.ok) return;
  const problem = (await response.json().catch(() => null)) as Problem | null;
  // Being asked to come again later is no answer yet.
  if (problem === null || response.status >= 500 || response.status === 429) {
    throw new Unreached(`The service answered ${String(response.status)}.`);
  }
  const refused = new Refused(problem);
  if (refused.code === 'request-running') throw new Unreached(problem.detail);
  throw refused;
}

let sending: Promise<void> | null = null;

/** Sends what waits, in the order in which it was done, until the service is not reached. */
export function sendKept(personId: string): Promise<void> {
  sending ??= sendAll(personId).finally(() => (sending = null));
  return sending;
}

async function sendAll(personId: string): Promise<void> {
  await refresh();
  const waiting = shown.filter((one) => one.personId === personId && one.problem === undefined);
  for (const kept of waiting) {
    try {
      await send(kept);
      await forget(kept.key);
    } catch (error) {
      if (!(error instanceof Refused)) return;
      if (error.code === 'sign-in-needed') return;
      await keep({ ...kept, problem: error.problem });
    }
  }
  if (waiting.length > 0) await queries.invalidateQueries();
}
