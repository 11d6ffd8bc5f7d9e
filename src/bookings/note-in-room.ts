import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import type { Duty, StepKind } from '../platform/prisma-client/enums';
import { earlyHours } from './early-hours';

/** Where the honey of a batch is after a step: it came in for the one duty, and left the places of the other. */
const whereabouts: Partial<Record<StepKind, { arrives?: Duty; leaves?: Duty }>> = {
  loaded: { arrives: 'warm' },
  seeded: { leaves: 'warm', arrives: 'bench' },
  potted: { leaves: 'bench' },
  shelved: { arrives: 'cool' },
};

/**
 * Whoever records a step of a batch need not record its arrival and clearing again: they are noted on the batch's bookings of that
 * time, unless they are on record. The times of the bookings stay: to give the rest back, release them.
 */
export async function noteInRoom(
  tx: Transaction,
  caller: ClubCaller,
  batchId: string,
  kind: StepKind,
  at: Date,
): Promise<void> {
  const { arrives, leaves } = whereabouts[kind] ?? {};
  const ofBatch = (duty: Duty) => Prisma.sql`
    club_id = ${caller.clubId}::uuid and batch_id = ${batchId}::uuid and duty = ${duty}::duty and active and kept_until is null`;
  if (leaves !== undefined) {
    const cleared = await tx.$queryRaw<{ id: string }[]>(Prisma.sql`
      update booking set cleared_at = ${at} where ${ofBatch(leaves)} and arrived_at <= ${at} and cleared_at is null returning id`);
    for (const { id } of cleared)
      await audit(tx, caller, 'booking.cleared', id, { at, step: kind });
  }
  if (arrives !== undefined) {
    const arrived = await tx.$queryRaw<{ id: string }[]>(Prisma.sql`
      update booking set arrived_at = ${at} where ${ofBatch(arrives)} and arrived_at is null and cleared_at is null
        and starts_at - make_interval(hours => ${earlyHours}) <= ${at} and ends_at > ${at} returning id`);
    for (const { id } of arrived)
      await audit(tx, caller, 'booking.arrived', id, { at, step: kind });
  }
}
