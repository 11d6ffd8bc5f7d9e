import { notify } from '../notices/notify';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

interface HopelessRow {
  id: string;
  memberId: string;
  stationName: string;
}

/** Ends the wishes for a station that was changed which it can never meet now: too few places, another duty, other temperatures. Who waited is told. */
export async function endHopelessWishes(
  tx: Transaction,
  caller: ClubCaller,
  stationId: string,
  now: Date,
): Promise<void> {
  const { clubId } = caller;
  const hopeless = await tx.$queryRaw<HopelessRow[]>(Prisma.sql`
    update waiting_wish w set state = 'lapsed', ended_at = ${now}
    from station s
    where w.club_id = ${clubId}::uuid and w.station_id = ${stationId}::uuid and w.state = 'waiting'
      and s.club_id = w.club_id and s.id = w.station_id
      and (s.retired_at is not null
        or w.places > (select count(*) from place p where p.club_id = s.club_id and p.station_id = s.id and p.retired_at is null)
        or not exists (
          select from station_duty d where d.club_id = s.club_id and d.station_id = s.id and d.duty = w.duty and d.retired_at is null
            and d.min_deci_c <= w.max_deci_c and w.min_deci_c <= d.max_deci_c))
    returning w.id, w.member_id as "memberId", s.name as "stationName"`);
  for (const { id } of hopeless) {
    await audit(tx, caller, 'waiting.lapsed', id, { for: 'station changed' });
  }
  await notify(
    tx,
    clubId,
    hopeless.map(({ id, memberId, stationName }) => ({
      memberId,
      kind: 'waiting.lapsed',
      event: `waiting.lapsed ${id}`,
      subjectId: id,
      details: { stationName, keptUntil: null, byName: caller.personName },
    })),
  );
}
