import { Refusal } from '../core/refusal';
import type { Part } from '../lots/lot-ledger.service';
import type { Transaction } from '../platform/database';

/** Seed goes only into a batch of whoever holds it. */
export function refuseSeedOfOthers(memberId: string, { lot, lotPointer }: Part): void {
  if (lot.holderId === memberId) return;
  const detail = `“${lot.name}” is not held by the batch’s member: have it lent to them first.`;
  throw new Refusal('lot-unsuitable', detail, { errors: [{ pointer: lotPointer, detail }] });
}

/** The seed that is reserved for a batch now. */
export function reservedSeed(
  tx: Transaction,
  clubId: string,
  batchId: string,
): Promise<{ lotId: string; massG: number }[]> {
  return tx.batchSeed.findMany({
    where: { clubId, batchId, active: true },
    select: { lotId: true, massG: true },
    orderBy: { lotId: 'asc' },
  });
}

/** Reserves seed for a batch. Its lots are held meanwhile, and were found to have that much free. */
export async function reserveSeed(
  tx: Transaction,
  clubId: string,
  batchId: string,
  seed: readonly Part[],
): Promise<void> {
  await tx.batchSeed.createMany({
    data: seed.map(({ lot, massG }) => ({ clubId, batchId, lotId: lot.id, massG })),
  });
}

/** Takes back what was reserved for a batch, as if it had never been: other seed is to be reserved in its place. */
export async function forgetReservedSeed(
  tx: Transaction,
  clubId: string,
  batchId: string,
): Promise<void> {
  await tx.batchSeed.deleteMany({ where: { clubId, batchId } });
}

/** What was reserved for a batch is free from now on: it is about to be drawn, or is not needed any more. */
export async function letSeedGo(tx: Transaction, clubId: string, batchId: string): Promise<void> {
  await tx.batchSeed.updateMany({
    where: { clubId, batchId, active: true },
    data: { active: false },
  });
}
