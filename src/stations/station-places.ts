import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

/**
 * Makes the station have the places 1 to `want` in use. Those that go stay on record, out of use, for the bookings that stood on them; when
 * the station grows again they come back. Lock the station first, and see that nobody needs what goes.
 */
export async function setPlaces(
  tx: Transaction,
  clubId: string,
  stationId: string,
  want: number,
  now: Date,
): Promise<void> {
  await tx.$executeRaw(Prisma.sql`
    update place set retired_at = case when number > ${want} then ${now}::timestamptz end
    where club_id = ${clubId}::uuid and station_id = ${stationId}::uuid and (number > ${want}) = (retired_at is null)`);
  await tx.$executeRaw(Prisma.sql`
    insert into place (club_id, station_id, number)
    select ${clubId}::uuid, ${stationId}::uuid, number from generate_series(1, ${want}::int) as number
    on conflict (club_id, station_id, number) do nothing`);
}
