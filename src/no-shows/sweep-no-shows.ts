import { notify } from '../notices/notify';
import type { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { noShowRows, type NoShowRow } from './no-show-rows';

const job = { requestId: 'sweep-no-shows', ifMatch: null, idempotency: null };
const atOnce = 500;

type Untold = NoShowRow & { clubId: string };

/**
 * Tells the holder and the club's stewards, once, of each running booking for which nothing came in. Changes no booking. For a job
 * that runs every minute; several at a time do no harm. Answers of how many it told.
 */
export async function sweepNoShows(database: Database, now: Date): Promise<number> {
  const untold = await database.rows<Untold>(Prisma.sql`
    select n.*, b.club_id as "clubId" from (${noShowRows(now, notToldYet, atOnce)}) n join booking b on b.id = n."bookingId"`);
  for (const clubId of new Set(untold.map((one) => one.clubId))) {
    const ofClub = untold.filter((one) => one.clubId === clubId);
    await database.write(job, async (tx) => {
      const stewards = await tx.member.findMany({
        where: { clubId, role: 'steward', leftAt: null },
        select: { id: true },
      });
      await notify(
        tx,
        clubId,
        ofClub.flatMap((one) => {
          const told = new Set([one.memberId, ...stewards.map(({ id }) => id)]);
          return [...told].map((memberId) => newsOf(one, memberId));
        }),
      );
    });
  }
  return untold.length;
}

const notToldYet = Prisma.sql`not exists (
  select from notice n where n.club_id = b.club_id and n.member_id = b.member_id and n.event = 'booking.no-show ' || b.id)`;

function newsOf(row: Untold, memberId: string) {
  return {
    memberId,
    kind: 'booking.no-show',
    event: `booking.no-show ${row.bookingId}`,
    subjectId: row.bookingId,
    details: {
      stationName: row.stationName,
      memberName: row.memberName,
      startsAt: row.startsAt.toISOString(),
      endsAt: row.endsAt.toISOString(),
      places: row.places.length,
    },
  };
}
