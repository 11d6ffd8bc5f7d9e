import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { deciOf } from '../platform/fields';
import { Prisma } from '../platform/prisma-client/client';
import type { StationDiary } from '../stations/station-diary';
import type { BookingRequest } from './bookings.requests';
import { putOnPlaces } from './put-on-places';
import type { Wished } from './wished-booking';

/** What is booked, and for which batch and plan. */
type Wanted = Pick<
  BookingRequest,
  'stationId' | 'duty' | 'minC' | 'maxC' | 'startsAt' | 'endsAt' | 'batchId' | 'note'
> & { planId?: string };

/** Writes the booking, its places and the history in one statement: the station is locked meanwhile. */
export async function insertBooking(
  tx: Transaction,
  caller: ClubCaller,
  memberId: string,
  changeoverMinutes: number,
  request: Wanted,
  placeIds: readonly string[],
): Promise<{ id: string; createdAt: Date }> {
  const { startsAt, endsAt } = request;
  const [made] = await tx.$queryRaw<{ id: string; createdAt: Date }[]>(Prisma.sql`
    with made as (
      insert into booking (club_id, station_id, duty, member_id, batch_id, min_deci_c, max_deci_c, starts_at, ends_at, changeover_minutes, note, plan_id)
      values (${caller.clubId}::uuid, ${request.stationId}::uuid, ${request.duty}::duty, ${memberId}::uuid, ${request.batchId ?? null}::uuid,
        ${deciOf(request.minC)}, ${deciOf(request.maxC)}, ${startsAt}, ${endsAt}, ${changeoverMinutes}, ${request.note ?? ''}, ${request.planId ?? null}::uuid)
      returning id, created_at
    ), held as (
      insert into booking_place (club_id, booking_id, place_id, station_id, starts_at, ends_at)
      select ${caller.clubId}::uuid, made.id, place_id, ${request.stationId}::uuid, ${startsAt}, ${endsAt}
      from made, unnest(${placeIds}::uuid[]) as place_id
    ), noted as (
      insert into audit_entry (club_id, person_id, token_id, request_id, action, subject_id)
      select ${caller.clubId}::uuid, ${caller.personId}::uuid, ${caller.tokenId}::uuid, ${caller.requestId}, 'booking.made', made.id from made
    )
    select id, created_at as "createdAt" from made`);
  if (made === undefined) throw new Refusal('failure');
  return made;
}

export async function updateBooking(
  tx: Transaction,
  caller: ClubCaller,
  id: string,
  diary: StationDiary,
  wanted: Wished,
  placeIds: readonly string[],
): Promise<void> {
  const { clubId } = caller;
  // Places first: they would otherwise be carried to the new time, where others may hold them.
  await tx.bookingPlace.deleteMany({ where: { clubId, bookingId: id } });
  const { stationId, startsAt, endsAt } = wanted;
  await tx.booking.update({
    where: { clubId_id: { clubId, id } },
    data: {
      stationId,
      startsAt,
      endsAt,
      minDeciC: deciOf(wanted.minC),
      maxDeciC: deciOf(wanted.maxC),
      changeoverMinutes: diary.times.changeoverMinutes,
      note: wanted.note ?? '',
    },
  });
  await putOnPlaces(tx, { clubId, bookingId: id, stationId, startsAt, endsAt }, placeIds);
}
