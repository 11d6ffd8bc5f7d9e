import { randomUUID } from 'node:crypto';
import { notify } from '../notices/notify';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';

interface HeldBooking {
  id: string;
  memberId: string;
  stationName: string;
  startsAt: Date;
  endsAt: Date;
}

/** Tells whoever holds a booking what somebody else did to it, and on which places it stands now where these are what changed. It is cancelled once; moved again, it is told again. */
export async function tellHolder(
  tx: Transaction,
  caller: ClubCaller,
  what: 'cancelled' | 'moved',
  { id, memberId, stationName, startsAt, endsAt }: HeldBooking,
  places: readonly number[] | null = null,
): Promise<void> {
  if (memberId === caller.memberId) return;
  const kind = `booking.${what}`;
  const details = {
    stationName,
    startsAt: startsAt.toISOString(),
    endsAt: endsAt.toISOString(),
    byName: caller.personName,
    places: places?.join(', ') ?? null,
  };
  const event = what === 'cancelled' ? `${kind} ${id}` : `${kind} ${id} ${randomUUID()}`;
  await notify(tx, caller.clubId, [{ memberId, kind, event, subjectId: id, details }]);
}
