import { invalidField } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';

/** Refuses, by its field, a batch that the holder of the places does not have. */
export async function refuseBatchOfOthers(
  tx: Transaction,
  { clubId }: ClubCaller,
  batchId: string | undefined,
  holderId: string,
): Promise<void> {
  if (batchId === undefined) return;
  const batch = await tx.batch.findUnique({ where: { clubId_id: { clubId, id: batchId } } });
  if (batch === null) throw invalidField('#/batchId', 'The club has no such batch.');
  if (batch.memberId !== holderId) {
    throw invalidField(
      '#/batchId',
      'That batch is another member’s: places are booked by whose batch it is.',
    );
  }
}
