import { notify } from '../notices/notify';
import type { Database, Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { noteInHistory, type Freeing } from './history';
import { offerFreedTimes } from './offer-freed-times';

const job = { requestId: 'sweep-offers', ifMatch: null, idempotency: null };

/**
 * Lets offers lapse whose deadline has passed and passes their times on, and ends wishes whose own time is over. Whatever else has
 * become free without anybody's saying so is offered, too. For a job that runs every minute; several at a time do no harm.
 */
export async function sweepOffers(database: Database, now: Date): Promise<void> {
  const stations = await database.rows<{ clubId: string; stationId: string }>(Prisma.sql`
    select club_id as "clubId", station_id as "stationId" from booking where active and kept_until <= ${now}
    union
    select club_id, station_id from waiting_wish where state = 'waiting'
    order by 1, 2`);
  for (const { clubId, stationId } of stations) {
    await database.write(job, async (tx) => {
      await tx.$queryRaw(Prisma.sql`
        select 1 from station where club_id = ${clubId}::uuid and id = ${stationId}::uuid for no key update`);
      const by = { clubId, requestId: job.requestId };
      await endPastWishes(tx, by, stationId, now);
      await offerFreedTimes(tx, by, stationId, now);
    });
  }
}

interface PastRow {
  id: string;
  memberId: string;
  stationName: string;
}

async function endPastWishes(
  tx: Transaction,
  by: Freeing,
  stationId: string,
  now: Date,
): Promise<void> {
  const { clubId } = by;
  const past = await tx.$queryRaw<PastRow[]>(Prisma.sql`
    update waiting_wish w set state = 'lapsed', ended_at = ${now}
    from station s
    where w.club_id = ${clubId}::uuid and w.station_id = ${stationId}::uuid and w.state = 'waiting'
      and w.not_after - make_interval(mins => w.minutes) < ${now}::timestamptz and s.club_id = w.club_id and s.id = w.station_id
    returning w.id, w.member_id as "memberId", s.name as "stationName"`);
  for (const { id, memberId } of past) {
    await noteInHistory(tx, by, memberId, 'waiting.lapsed', id, { for: 'no time left' });
  }
  await notify(
    tx,
    clubId,
    past.map(({ id, memberId, stationName }) => ({
      memberId,
      kind: 'waiting.lapsed',
      event: `waiting.lapsed ${id}`,
      subjectId: id,
      details: { stationName, keptUntil: null },
    })),
  );
}
