import { Refusal } from '../core/refusal';
import type { Part } from '../lots/lot-ledger.service';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';

/**
 * A member puts in honey of their own; honey of others only as far as a steward has planned it for the batch.
 */
export function refuseHoneyOfOthers(
  caller: ClubCaller,
  { lot, massG, lotPointer }: Part,
  plannedG: ReadonlyMap<string, number>,
): void {
  if (lot.holderId === caller.memberId || caller.role === 'steward') return;
  if (massG <= (plannedG.get(lot.id) ?? 0)) return;
  const detail = `“${lot.name}” is held by another member: a steward may put it into the batch.`;
  throw new Refusal('not-yours', detail, { errors: [{ pointer: lotPointer, detail }] });
}

/** Files the honey of a batch in place of what stood there. */
export async function replaceHoney(
  tx: Transaction,
  clubId: string,
  batchId: string,
  honey: readonly Part[],
): Promise<void> {
  await tx.batchHoney.deleteMany({ where: { clubId, batchId } });
  await tx.batchHoney.createMany({
    data: honey.map(({ lot, massG }) => ({ clubId, batchId, lotId: lot.id, massG })),
  });
}
