import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import type { Freeing } from './history';
import { offerFreedTimes } from './offer-freed-times';

/** An offer whose deadline has passed never stands in the way: call it with the station locked, before looking for room there. */
export async function passOnLapsedOffers(
  tx: Transaction,
  by: Freeing,
  stationId: string,
  now: Date,
): Promise<void> {
  const lapsed = await tx.$queryRaw<unknown[]>(Prisma.sql`
    select 1 from booking where club_id = ${by.clubId}::uuid and station_id = ${stationId}::uuid and active and kept_until <= ${now}
    limit 1`);
  if (lapsed.length > 0) await offerFreedTimes(tx, by, stationId, now);
}
