import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { deciOf, gramsOf } from '../platform/fields';
import { given } from '../platform/given';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import type { Duty } from '../platform/prisma-client/enums';
import type { StationDiary } from '../stations/station-diary';
import { StationsService } from '../stations/stations.service';
import { offerDays, placesOrRefusal } from './booking-refusal';
import type { BookingChange, BookingQuery, BookingRequest } from './bookings.requests';
import { toBookingResponse, type BookingResponse, type BookingRow } from './bookings.responses';

const bookingColumns = Prisma.sql`
  b.id, b.station_id as "stationId", s.name as "stationName", b.duty, b.member_id as "memberId", p.name as "memberName",
  b.batch_id as "batchId", b.min_deci_c as "minDeciC", b.max_deci_c as "maxDeciC", b.starts_at as "startsAt", b.ends_at as "endsAt",
  (select coalesce(array_agg(l.number order by l.number), '{}') from booking_place h
   join place l on l.club_id = h.club_id and l.id = h.place_id
   where h.club_id = b.club_id and h.booking_id = b.id) as places,
  b.note, b.created_at as "createdAt", b.released_at as "releasedAt", b.cancelled_at as "cancelledAt"
  from booking b
  join station s on s.club_id = b.club_id and s.id = b.station_id
  join member m on m.club_id = b.club_id and m.id = b.member_id
  join person p on p.id = m.person_id`;

const minuteMs = 60_000;
const dayMs = 86_400_000;
const longestBookingDays = 120;
/** Somebody who books "from now" may take a moment to press the button. */
const graceMs = 15 * minuteMs;

@Injectable()
export class BookingsService {
  constructor(
    private readonly database: Database,
    private readonly stations: StationsService,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: BookingQuery): Promise<Page<BookingResponse>> {
    const list = `bookings ${caller.clubId} ${JSON.stringify(filtersOf(query))}`;
    const rows = await this.database.rows<BookingRow>(Prisma.sql`
      select ${bookingColumns}
      where b.club_id = ${caller.clubId}::uuid ${conditionsOf(query, startOf(query, list))}
      order by b.starts_at, b.id limit ${query.limit + 1}`);
    return pageOf(
      rows,
      query,
      list,
      (row) => [row.startsAt.toISOString(), row.id],
      toBookingResponse,
    );
  }

  async show(caller: ClubCaller, id: string): Promise<BookingResponse> {
    const [row] = await this.database.rows<BookingRow>(bookingQuery(caller.clubId, id));
    if (row === undefined) throw new Refusal('not-found');
    return toBookingResponse(row);
  }

  /** Books all the places that are wished for, or none. */
  book(caller: ClubCaller, request: BookingRequest): Promise<BookingResponse> {
    refuseBadTimes(request);
    this.refusePast(caller, request.startsAt);
    return this.database.write(caller, async (tx) => {
      const holder = await holderOf(tx, caller, request);
      await this.lockStation(tx, caller, request.stationId);
      const diary = await this.diaryFor(tx, caller, request);
      refuseOverload(diary, request);
      const placeIds = placesOrRefusal(diary, wishOf(request), request.startsAt, request.startsAt);
      const made = await insertBooking(tx, caller, holder.id, diary, request, placeIds);
      return toBookingResponse({
        ...made,
        stationId: request.stationId,
        stationName: diary.name,
        duty: request.duty,
        memberId: holder.id,
        memberName: holder.name,
        batchId: request.batchId ?? null,
        minDeciC: deciOf(request.minC),
        maxDeciC: deciOf(request.maxC),
        startsAt: request.startsAt,
        endsAt: request.endsAt,
        places: numbersOf(diary, placeIds),
        note: request.note ?? '',
        releasedAt: null,
        cancelledAt: null,
      });
    });
  }

  /** Moves a booking in time, to other temperatures, to more or fewer places, to another station; or nothing of it. */
  move(caller: ClubCaller, id: string, change: BookingChange): Promise<BookingResponse> {
    return this.database.write(caller, async (tx) => {
      const now = this.clock.now();
      const [held] = await tx.$queryRaw<{ stationId: string }[]>(Prisma.sql`
        select station_id as "stationId" from booking where club_id = ${caller.clubId}::uuid and id = ${id}::uuid`);
      if (held === undefined) throw new Refusal('not-found');
      const stationId = change.stationId ?? held.stationId;
      // In the order of their ids, so that two moves never wait for each other.
      for (const one of [...new Set([held.stationId, stationId])].sort()) {
        await this.lockStation(tx, caller, one);
      }
      const current = await ownBooking(tx, caller, id);
      refuseIfStale(caller, toBookingResponse(current));
      refuseIfOver(current, now);
      const wanted = { ...wishedNow(current), ...given(change), stationId };
      refuseBadTimes(wanted);
      if (wanted.startsAt.getTime() !== current.startsAt.getTime()) {
        if (current.startsAt <= now && caller.role !== 'steward') {
          throw new Refusal(
            'booking-begun',
            'It has begun: its start stays, its end can be moved.',
          );
        }
        this.refusePast(caller, wanted.startsAt);
      }
      if (wanted.endsAt <= now && caller.role !== 'steward') {
        throw invalidField(
          '#/endsAt',
          'endsAt must be ahead; to give the rest of the time back now, release the booking.',
        );
      }
      const diary = await this.diaryFor(tx, caller, wanted, id);
      const kept = [...diary.placeNumbers]
        .filter(([, number]) => stationId === current.stationId && current.places.includes(number))
        .map(([placeId]) => placeId);
      const placeIds = placesOrRefusal(
        diary,
        wishOf(wanted),
        wanted.startsAt,
        wanted.startsAt,
        kept,
      );
      await updateBooking(tx, caller, id, diary, wanted, placeIds);
      await audit(tx, caller, 'booking.moved', id, change);
      return toBookingResponse(await read(tx, caller.clubId, id));
    });
  }

  /** Gives up a booking that has not begun. */
  cancel(caller: ClubCaller, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      const now = this.clock.now();
      const current = await ownBooking(tx, caller, id);
      refuseIfStale(caller, toBookingResponse(current));
      refuseIfOver(current, now);
      if (current.startsAt <= now) {
        throw new Refusal(
          'booking-begun',
          'It has begun: release it, and the rest of its time is free at once.',
        );
      }
      await tx.booking.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: { active: false, cancelledAt: now },
      });
      await audit(tx, caller, 'booking.cancelled', id);
    });
  }

  /** Ends a running booking now: the rest of its time is free at once. */
  release(caller: ClubCaller, id: string): Promise<BookingResponse> {
    return this.database.write(caller, async (tx) => {
      const now = this.clock.now();
      const current = await ownBooking(tx, caller, id);
      refuseIfOver(current, now);
      if (current.startsAt >= now) {
        throw new Refusal('booking-ahead', 'It has not begun: cancel it instead.');
      }
      await tx.booking.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: { endsAt: now, releasedAt: now },
      });
      await audit(tx, caller, 'booking.released', id);
      return toBookingResponse(await read(tx, caller.clubId, id));
    });
  }

  private refusePast(caller: ClubCaller, startsAt: Date): void {
    if (caller.role === 'steward') return;
    if (startsAt.getTime() < this.clock.now().getTime() - graceMs) {
      throw invalidField(
        '#/startsAt',
        'startsAt lies in the past; only a steward enters past times from the paper diary.',
      );
    }
  }

  private async lockStation(tx: Transaction, caller: ClubCaller, id: string): Promise<void> {
    await this.stations.lock(tx, caller.clubId, id).catch((error: unknown) => {
      if (error instanceof Refusal && error.code === 'not-found') {
        throw invalidField('#/stationId', 'The club has no such station.');
      }
      throw error;
    });
  }

  private diaryFor(
    tx: Transaction,
    caller: ClubCaller,
    { stationId, startsAt, endsAt }: { stationId: string; startsAt: Date; endsAt: Date },
    exceptBookingId: string | null = null,
  ): Promise<StationDiary> {
    const until = new Date(endsAt.getTime() + offerDays * dayMs);
    return this.stations.diary(tx, caller.clubId, stationId, startsAt, until, exceptBookingId);
  }
}

function filtersOf({ stationId, memberId, batchId, from, to, withCancelled }: BookingQuery) {
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

interface Wished {
  stationId: string;
  duty: Duty;
  minC: number;
  maxC: number;
  startsAt: Date;
  endsAt: Date;
  places: number;
  note?: string;
}

function wishOf({ duty, minC, maxC, startsAt, endsAt, places }: Wished) {
  return { duty, minC, maxC, places, minutes: (endsAt.getTime() - startsAt.getTime()) / minuteMs };
}

function wishedNow(row: BookingRow): Wished {
  return {
    stationId: row.stationId,
    duty: row.duty,
    minC: row.minDeciC / 10,
    maxC: row.maxDeciC / 10,
    startsAt: row.startsAt,
    endsAt: row.endsAt,
    places: row.places.length,
    note: row.note,
  };
}

function refuseBadTimes({ startsAt, endsAt, minC, maxC }: Wished): void {
  for (const [name, time] of Object.entries({ startsAt, endsAt })) {
    if (time.getTime() % minuteMs !== 0) {
      throw invalidField(`#/${name}`, `${name} must fall on a whole minute.`);
    }
  }
  if (endsAt <= startsAt) throw invalidField('#/endsAt', 'endsAt must be after startsAt.');
  if (endsAt.getTime() - startsAt.getTime() > longestBookingDays * dayMs) {
    throw invalidField('#/endsAt', `A booking lasts ${longestBookingDays} days at most.`);
  }
  if (minC > maxC) throw invalidField('#/maxC', `maxC must be at least minC (${minC}).`);
}

function refuseOverload(diary: StationDiary, { loadKg, places }: BookingRequest): void {
  if (loadKg === undefined || gramsOf(loadKg) <= places * diary.placeLoadG) return;
  const needed = Math.ceil(gramsOf(loadKg) / diary.placeLoadG);
  throw new Refusal(
    'place-overloaded',
    `A place in ${diary.name} bears ${diary.placeLoadG / 1000} kg: ${loadKg} kg need ${needed} places.`,
    { offers: { places: needed } },
  );
}

function refuseIfOver(row: BookingRow, now: Date): void {
  if (row.cancelledAt !== null || row.endsAt <= now) {
    throw new Refusal('booking-over', 'It is over or cancelled: make a new one.');
  }
}

function numbersOf(diary: StationDiary, placeIds: readonly string[]): number[] {
  return placeIds.map((id) => diary.placeNumbers.get(id) ?? 0).sort((a, b) => a - b);
}

function bookingQuery(clubId: string, id: string): Prisma.Sql {
  return Prisma.sql`select ${bookingColumns} where b.club_id = ${clubId}::uuid and b.id = ${id}::uuid`;
}

async function read(tx: Transaction, clubId: string, id: string): Promise<BookingRow> {
  const [row] = await tx.$queryRaw<BookingRow[]>(bookingQuery(clubId, id));
  if (row === undefined) throw new Refusal('not-found');
  return row;
}

/** The booking, locked, if the caller may change it. */
async function ownBooking(tx: Transaction, caller: ClubCaller, id: string): Promise<BookingRow> {
  await tx.$queryRaw(Prisma.sql`
    select 1 from booking where club_id = ${caller.clubId}::uuid and id = ${id}::uuid for update`);
  const row = await read(tx, caller.clubId, id);
  if (row.memberId !== caller.memberId && caller.role !== 'steward') throw new Refusal('not-yours');
  return row;
}

async function holderOf(
  tx: Transaction,
  caller: ClubCaller,
  { memberId, batchId }: BookingRequest,
): Promise<{ id: string; name: string }> {
  if (batchId !== undefined) {
    const batch = await tx.batch.findUnique({
      where: { clubId_id: { clubId: caller.clubId, id: batchId } },
    });
    if (batch === null) throw invalidField('#/batchId', 'The club has no such batch.');
  }
  if (memberId === undefined || memberId === caller.memberId) {
    return { id: caller.memberId, name: caller.personName };
  }
  if (caller.role !== 'steward') {
    throw new Refusal('not-yours', 'Only a steward books for another member: leave memberId out.');
  }
  const member = await tx.member.findFirst({
    where: { clubId: caller.clubId, id: memberId, leftAt: null },
    include: { person: true },
  });
  if (member === null) throw invalidField('#/memberId', 'The club has no such member.');
  return { id: member.id, name: member.person.name };
}

/** Writes the booking, its places and the history in one statement: the station is locked meanwhile. */
async function insertBooking(
  tx: Transaction,
  caller: ClubCaller,
  memberId: string,
  diary: StationDiary,
  request: BookingRequest,
  placeIds: readonly string[],
): Promise<{ id: string; createdAt: Date }> {
  const { startsAt, endsAt } = request;
  const [made] = await tx.$queryRaw<{ id: string; createdAt: Date }[]>(Prisma.sql`
    with made as (
      insert into booking (club_id, station_id, duty, member_id, batch_id, min_deci_c, max_deci_c, starts_at, ends_at, changeover_minutes, note)
      values (${caller.clubId}::uuid, ${request.stationId}::uuid, ${request.duty}::duty, ${memberId}::uuid, ${request.batchId ?? null}::uuid,
        ${deciOf(request.minC)}, ${deciOf(request.maxC)}, ${startsAt}, ${endsAt}, ${diary.times.changeoverMinutes}, ${request.note ?? ''})
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

async function updateBooking(
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
  await tx.bookingPlace.createMany({
    data: placeIds.map((placeId) => ({
      clubId,
      bookingId: id,
      placeId,
      stationId,
      startsAt,
      endsAt,
    })),
  });
}
