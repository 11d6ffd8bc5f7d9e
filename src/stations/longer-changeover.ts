import { Refusal } from '../core/refusal';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';

interface Gap {
  bookingId: string;
  endsAt: Date;
  nextId: string;
  minutes: number;
}

/** Lets bookings ahead of the locked station keep to another changeover; refuses one that is longer than the time between two of them. */
export async function setChangeover(
  tx: Transaction,
  clubId: string,
  stationId: string,
  changeoverMinutes: number,
  now: Date,
): Promise<void> {
  const tooShort = await tx.$queryRaw<Gap[]>(Prisma.sql`
    select b.id as "bookingId", b.ends_at as "endsAt", n.id as "nextId", floor(extract(epoch from n.starts_at - b.ends_at) / 60)::int as minutes
    from booking b
    cross join lateral (
      select id, starts_at from booking n
      where n.club_id = b.club_id and n.station_id = b.station_id and n.active and n.duty <> b.duty and n.starts_at >= b.ends_at
      order by n.starts_at, n.id limit 1) n
    where b.club_id = ${clubId}::uuid and b.station_id = ${stationId}::uuid and b.active and b.ends_at > ${now}
      and n.starts_at < b.ends_at + make_interval(mins => ${changeoverMinutes}::int)
    order by minutes, b.id`);
  const [shortest] = tooShort;
  if (shortest !== undefined) throw tooLong(shortest, tooShort);
  await tx.$executeRaw(Prisma.sql`
    update booking set changeover_minutes = ${changeoverMinutes}
    where club_id = ${clubId}::uuid and station_id = ${stationId}::uuid and active and ends_at > ${now}`);
}

function tooLong({ minutes }: Gap, gaps: readonly Gap[]): Refusal {
  const worksFrom = new Date(Math.max(...gaps.map(({ endsAt }) => endsAt.getTime()))).toISOString();
  const detail = `Bookings ahead leave ${minutes} minutes from one duty to another: that is the longest that works now. The last of them that leaves too little ends at ${worksFrom}.`;
  return new Refusal('other-duty', detail, {
    errors: [{ pointer: '#/changeoverMinutes', detail }],
    offers: {
      changeoverMinutes: minutes,
      bookings: [...new Set(gaps.flatMap(({ bookingId, nextId }) => [bookingId, nextId]))],
      worksFrom,
    },
  });
}
