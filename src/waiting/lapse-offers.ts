import { notify } from '../notices/notify';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { noteInHistory, type Freeing } from './history';

interface LapsedRow {
  bookingId: string;
  wishId: string;
  memberId: string;
  keptUntil: Date;
  stationName: string;
}

/**
 * Cancels the kept bookings of a locked station whose deadline has passed, and ends their wishes: whoever lets an offer pass steps out
 * of the line. Answers how many.
 */
export async function lapseOffers(
  tx: Transaction,
  by: Freeing,
  stationId: string,
  now: Date,
): Promise<number> {
  const { clubId } = by;
  const lapsed = await tx.$queryRaw<LapsedRow[]>(Prisma.sql`
    select b.id as "bookingId", b.kept_for_id as "wishId", b.member_id as "memberId", b.kept_until as "keptUntil", s.name as "stationName"
    from booking b join station s on s.club_id = b.club_id and s.id = b.station_id
    where b.club_id = ${clubId}::uuid and b.station_id = ${stationId}::uuid and b.active and b.kept_until <= ${now}
    order by b.id`);
  for (const { bookingId, wishId, memberId, keptUntil, stationName } of lapsed) {
    await cancelKept(tx, clubId, bookingId, now);
    await tx.waitingWish.update({
      where: { clubId_id: { clubId, id: wishId } },
      data: { state: 'lapsed', endedAt: now },
    });
    const details = { wishId, keptUntil: keptUntil.toISOString() };
    await noteInHistory(tx, by, memberId, 'booking.cancelled', bookingId, {
      for: 'deadline',
      ...details,
    });
    await notify(tx, clubId, [
      {
        memberId,
        kind: 'waiting.lapsed',
        event: `waiting.lapsed ${wishId}`,
        subjectId: wishId,
        details: { stationName, keptUntil: details.keptUntil },
      },
    ]);
  }
  return lapsed.length;
}

/** Frees what was kept. */
export async function cancelKept(
  tx: Transaction,
  clubId: string,
  bookingId: string,
  now: Date,
): Promise<void> {
  await tx.booking.update({
    where: { clubId_id: { clubId, id: bookingId } },
    data: { active: false, cancelledAt: now },
  });
}
