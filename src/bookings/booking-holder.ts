import { invalidField, Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import type { BookingRequest } from './bookings.requests';

/** Whose booking it is: the caller’s, unless a steward names somebody else. */
export async function holderOf(
  tx: Transaction,
  caller: ClubCaller,
  { memberId }: BookingRequest,
): Promise<{ id: string; name: string }> {
  if (memberId === undefined || memberId === caller.memberId) {
    return { id: caller.memberId, name: caller.personName };
  }
  if (caller.role !== 'steward') {
    throw new Refusal('not-yours', 'Only a steward books for another member: leave memberId out.');
  }
  const member = await tx.member.findFirst({
    where: { clubId: caller.clubId, id: memberId, leftAt: null },
    include: { person: true },
  });
  if (member === null) throw invalidField('#/memberId', 'The club has no such member.');
  return { id: member.id, name: member.person.name };
}

/** Places are booked for a batch by whose batch it is. */
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
