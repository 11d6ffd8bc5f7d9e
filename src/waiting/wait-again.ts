import { notify } from '../notices/notify';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

interface AgainRow {
  wishId: string;
  bookingId: string;
  memberId: string;
  stationName: string;
}

/** Of bookings that the club cancelled, those that were only kept: their wishes wait again, where they stood in the line. */
export async function waitAgain(
  tx: Transaction,
  clubId: string,
  bookingIds: readonly string[],
): Promise<void> {
  const again = await tx.$queryRaw<AgainRow[]>(Prisma.sql`
    update waiting_wish w set state = 'waiting'
    from booking b join station s on s.club_id = b.club_id and s.id = b.station_id
    where b.club_id = ${clubId}::uuid and b.id = any(${bookingIds}::uuid[]) and b.kept_until is not null
      and w.club_id = b.club_id and w.id = b.kept_for_id and w.state = 'offered'
    returning w.id as "wishId", b.id as "bookingId", w.member_id as "memberId", s.name as "stationName"`);
  await notify(
    tx,
    clubId,
    again.map(({ wishId, bookingId, memberId, stationName }) => ({
      memberId,
      kind: 'waiting.offer-cancelled',
      event: `waiting.offer-cancelled ${bookingId}`,
      subjectId: wishId,
      details: { stationName },
    })),
  );
}
