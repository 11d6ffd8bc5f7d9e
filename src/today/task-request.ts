import type { BatchTask } from '../core/batches/tasks-of-batch';
import { kgOf } from '../platform/fields';
import type { TodayBatch, TodayLoan } from './today-rows';
import type { TodayRequest } from './today.responses';

/** The request that does a task, as of now; what only the member knows is named under fillIn. */
export function taskRequest(
  clubPath: string,
  { kind, bookingId }: BatchTask,
  batch: TodayBatch | null,
  now: Date,
): TodayRequest {
  if (kind === 'clear' || batch === null) {
    return post(`${clubPath}/bookings/${bookingId ?? ''}/release`, {});
  }
  // Times go by the minute here; a step must not come before the one before it.
  const at = new Date(Math.max(now.getTime(), ...batch.steps.map((step) => step.at))).toISOString();
  const steps = `${clubPath}/batches/${batch.id}/steps`;
  switch (kind) {
    case 'load':
      return post(steps, { kind: 'loaded', at });
    case 'take-out':
      return post(steps, { kind: 'cleared', at });
    case 'seed': {
      const seed = batch.reservedSeed.map(({ lotId, massG }) => ({ lotId, massKg: kgOf(massG) }));
      return seed.length === 0
        ? post(steps, { kind: 'seeded', at }, ['#/seed'])
        : post(steps, { kind: 'seeded', at, seed });
    }
    case 'pot':
      return post(steps, { kind: 'potted', at }, ['#/pots']);
    case 'shelve':
      return post(steps, { kind: 'shelved', at });
    case 'check':
      return post(`${clubPath}/batches/${batch.id}/setting-checks`, { at }, ['#/state']);
  }
}

/** Seed is given back in kind: which of their lots only the borrower knows. */
export function returnRequest(clubPath: string, loan: TodayLoan, now: Date): TodayRequest {
  const at = new Date(Math.max(now.getTime(), loan.at)).toISOString();
  const body = { massKg: kgOf(loan.owedMassG), at };
  return post(`${clubPath}/loans/${loan.id}/returns`, body, ['#/lotId']);
}

export function post(
  path: string,
  body: Record<string, unknown>,
  fillIn: string[] = [],
): TodayRequest {
  return { method: 'POST', path, body, fillIn };
}
