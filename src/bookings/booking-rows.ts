import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import type { BookingQuery } from './bookings.requests';
import type { BookingRow } from './bookings.responses';

const bookingColumns = Prisma.sql`
  b.id, b.station_id as "stationId", s.name as "stationName", b.duty, b.member_id as "memberId", p.name as "memberName",
  b.batch_id as "batchId", b.min_deci_c as "minDeciC", b.max_deci_c as "maxDeciC", b.starts_at as "startsAt", b.ends_at as "endsAt",
  (select coalesce(array_agg(l.number order by l.number), '{}') from booking_place h
   join place l on l.club_id = h.club_id and l.id = h.place_id
   where h.club_id = b.club_id and h.booking_id = b.id) as places,
  b.plan_id as "planId", b.note, b.created_at as "createdAt", b.released_at as "releasedAt", b.cancelled_at as "cancelledAt",
  b.kept_for_id as "keptForId", b.kept_until as "keptUntil", b.arrived_at as "arrivedAt", b.cleared_at as "clearedAt"
  from booking b
  join station s on s.club_id = b.club_id and s.id = b.station_id
  join member m on m.club_id = b.club_id and m.id = b.member_id
  join person p on p.id = m.person_id`;

/** The statement that lists bookings, one more than the page holds. */
export function listQuery(
  clubId: string,
  query: BookingQuery,
  start: (string | number)[] | null,
): Prisma.Sql {
  return Prisma.sql`
    select ${bookingColumns}
    where b.club_id = ${clubId}::uuid ${conditionsOf(query, start)}
    order by b.starts_at, b.id limit ${query.limit + 1}`;
}

export function filtersOf({ stationId, memberId, batchId, from, to, withCancelled }: BookingQuery) {
  return { stationId, memberId, batchId, from, to, withCancelled };
}

/** Only what is asked for: a condition that may be empty would keep PostgreSQL from using its indexes. */
function conditionsOf(query: BookingQuery, start: (string | number)[] | null): Prisma.Sql {
  const { stationId, memberId, batchId, from, to } = filtersOf(query);
  const conditions = [
    query.withCancelled !== true && Prisma.sql`and b.active`,
    stationId !== undefined && Prisma.sql`and b.station_id = ${stationId}::uuid`,
    memberId !== undefined && Prisma.sql`and b.member_id = ${memberId}::uuid`,
    batchId !== undefined && Prisma.sql`and b.batch_id = ${batchId}::uuid`,
    from !== undefined && Prisma.sql`and b.ends_at > ${from}`,
    to !== undefined && Prisma.sql`and b.starts_at < ${to}`,
    start !== null &&
      Prisma.sql`and (b.starts_at, b.id) > (${start[0]}::timestamptz, ${start[1]}::uuid)`,
  ].filter((condition) => condition !== false);
  return conditions.length === 0 ? Prisma.empty : Prisma.join(conditions, ' ');
}

export function bookingQuery(clubId: string, id: string): Prisma.Sql {
  return Prisma.sql`select ${bookingColumns} where b.club_id = ${clubId}::uuid and b.id = ${id}::uuid`;
}

export async function readBooking(
  tx: Transaction,
  clubId: string,
  id: string,
): Promise<BookingRow> {
  const [row] = await tx.$queryRaw<BookingRow[]>(bookingQuery(clubId, id));
  if (row === undefined) throw new Refusal('not-found');
  return row;
}

/** The booking, locked, if the caller may change it. */
export async function ownBooking(
  tx: Transaction,
  caller: ClubCaller,
  id: string,
): Promise<BookingRow> {
  await tx.$queryRaw(Prisma.sql`
    select 1 from booking where club_id = ${caller.clubId}::uuid and id = ${id}::uuid for update`);
  const row = await readBooking(tx, caller.clubId, id);
  if (row.memberId !== caller.memberId && caller.role !== 'steward') throw new Refusal('not-yours');
  return row;
}

/** The bookings of a plan that are not cancelled, locked. */
export async function chainOfPlan(
  tx: Transaction,
  clubId: string,
  planId: string,
): Promise<BookingRow[]> {
  await tx.$queryRaw(Prisma.sql`
    select 1 from booking where club_id = ${clubId}::uuid and plan_id = ${planId}::uuid and active order by id for update`);
  return tx.$queryRaw<BookingRow[]>(Prisma.sql`
    select ${bookingColumns} where b.club_id = ${clubId}::uuid and b.plan_id = ${planId}::uuid and b.active order by b.starts_at, b.id`);
}

/** The stations of a booking and of those that hang on it, so that they can be locked before the bookings are. */
export async function stationsOf(
  tx: Transaction,
  caller: ClubCaller,
  id: string,
): Promise<{ stationId: string; chainStationIds: string[] }> {
  const [held] = await tx.$queryRaw<{ stationId: string; chainStationIds: string[] }[]>(Prisma.sql`
    select b.station_id as "stationId", array(
      select distinct o.station_id from booking o
      where o.club_id = b.club_id and o.plan_id = b.plan_id and o.active) as "chainStationIds"
    from booking b where b.club_id = ${caller.clubId}::uuid and b.id = ${id}::uuid`);
  if (held === undefined) throw new Refusal('not-found');
  return held;
}

/** The station of a booking, so that it can be locked before the booking is. */
export async function stationOf(tx: Transaction, caller: ClubCaller, id: string): Promise<string> {
  const [held] = await tx.$queryRaw<{ stationId: string }[]>(Prisma.sql`
    select station_id as "stationId" from booking where club_id = ${caller.clubId}::uuid and id = ${id}::uuid`);
  if (held === undefined) throw new Refusal('not-found');
  return held.stationId;
}
