import { Refusal } from '../core/refusal';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

/** An open hold, and a lot that it reaches. */
export interface ReachingHold {
  lotId: string;
  lotName: string;
  holdId: string;
  heldLotId: string;
  heldLotName: string;
  reason: string;
  placedByName: string;
  placedAt: Date;
}

/**
 * Refuses to take anything from lots that an open hold reaches, and says what would free them. Call it with the club's lock on its lots
 * shared, as `LotLedger.hold` does: no hold can then come in between.
 */
export async function refuseOnHold(
  tx: Transaction,
  clubId: string,
  lotIds: readonly string[],
): Promise<void> {
  refuseReached(clubId, await tx.$queryRaw<ReachingHold[]>(holdsReaching(clubId, lotIds)));
}

/** Refuses what may not be done with lots on hold, if there is a hold. */
export function refuseReached(clubId: string, holds: readonly ReachingHold[]): void {
  const [first] = holds;
  if (first === undefined) return;
  throw new Refusal('on-hold', wordsOf(first), {
    offers: {
      holds: holds.map(({ placedAt, ...hold }) => ({ ...hold, placedAt: placedAt.toISOString() })),
      wouldFree: holds.flatMap((hold) => waysOut(clubId, hold)),
    },
  });
}

/** The open holds that reach any of these lots: `ReachingHold`s, 20 at most. */
export function holdsReaching(clubId: string, lotIds: readonly string[]): Prisma.Sql {
  return Prisma.sql`
    select l.id as "lotId", l.name as "lotName", h.id as "holdId", h.lot_id as "heldLotId", held.name as "heldLotName", h.reason,
      p.name as "placedByName", h.placed_at as "placedAt"
    from lot l
    cross join lateral holds_reaching(l.club_id, l.id) reaching
    join hold h on h.club_id = l.club_id and h.id = reaching
    join lot held on held.club_id = h.club_id and held.id = h.lot_id
    join member m on m.club_id = h.club_id and m.id = h.placed_by_id
    join person p on p.id = m.person_id
    where l.club_id = ${clubId}::uuid and l.id = any(${[...lotIds]}::uuid[])
      and exists (select from hold where club_id = ${clubId}::uuid and released_at is null)
    order by l.id, h.id limit 20`;
}

function wordsOf({ lotId, lotName, heldLotId, heldLotName, ...hold }: ReachingHold): string {
  const day = hold.placedAt.toISOString().slice(0, 10);
  const where = lotId === heldLotId ? '' : `: it was made of “${heldLotName}”`;
  const branch = lotId === heldLotId ? '' : ', or this branch of it,';
  return (
    `“${lotName}” is on hold${where} (${hold.placedByName}, ${day}: ${hold.reason}). ` +
    `A steward or ${hold.placedByName} may release the hold${branch} on evidence.`
  );
}

/** The requests that would free the lot. */
function waysOut(clubId: string, { holdId, lotId, heldLotId }: ReachingHold) {
  const hold = `/api/v1/clubs/${clubId}/holds/${holdId}`;
  const whole = { post: `${hold}/release`, lotId: heldLotId };
  return lotId === heldLotId ? [whole] : [whole, { post: `${hold}/branch-releases`, lotId }];
}
