import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';

/** Ends a wish that waited, or for which something was kept. */
export async function endWish(
  tx: Transaction,
  caller: ClubCaller,
  id: string,
  state: 'taken' | 'withdrawn',
  now: Date,
): Promise<void> {
  await tx.waitingWish.update({
    where: { clubId_id: { clubId: caller.clubId, id } },
    data: { state, endedAt: now },
  });
  await audit(tx, caller, `waiting.${state}`, id);
}
