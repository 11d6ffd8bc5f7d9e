import { Injectable } from '@nestjs/common';
import { refuseUnlessServed } from '../bookings/booking-refusal';
import { lockFairShare, refuseBeyondShare } from '../bookings/fair-share';
import { refuseBatchOfOthers } from '../bookings/booking-holder';
import { nextFreeTimes } from '../core/planning/next-free-times';
import { invalidField, Refusal } from '../core/refusal';
import { notify } from '../notices/notify';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { deciOf } from '../platform/fields';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { toFreeTimes } from '../stations/station-diary';
import { StationsService } from '../stations/stations.service';
import { endWish } from './end-wish';
import { lapseOffers } from './lapse-offers';
import { offerFreedTimes } from './offer-freed-times';
import { refuseBadWish } from './refuse-bad-wish';
import { wishRows, type WishRow } from './waiting-rows';
import type { WaitingQuery, WaitingWishRequest } from './waiting.requests';
import { toWaitingWishResponse, type WaitingWishResponse } from './waiting.responses';

const minuteMs = 60_000;
const offeredInstead = 5;

/** The line for places of a full station. Whatever happens to it happens with the station locked. */
@Injectable()
export class WaitingService {
  constructor(
    private readonly database: Database,
    private readonly stations: StationsService,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: WaitingQuery): Promise<Page<WaitingWishResponse>> {
    const { stationId, mine, withEnded } = query;
    const list = JSON.stringify(['waiting', caller.clubId, stationId, mine, withEnded]);
    const [after] = startOf(query, list) ?? [];
    const conditions = [
      withEnded === true ? Prisma.sql`true` : Prisma.sql`w.state in ('waiting', 'offered')`,
    ];
    if (stationId !== undefined) conditions.push(Prisma.sql`w.station_id = ${stationId}::uuid`);
    if (mine === true) conditions.push(Prisma.sql`w.member_id = ${caller.memberId}::uuid`);
    if (after !== undefined) conditions.push(Prisma.sql`w.id > ${after}::uuid`);
    const rows = await this.database.rows<WishRow>(
      wishRows(caller.clubId, Prisma.join(conditions, ' and '), query.limit + 1),
    );
    return pageOf(rows, query, list, (row) => [row.id], toWaitingWishResponse);
  }

  async show(caller: ClubCaller, id: string): Promise<WaitingWishResponse> {
    const [row] = await this.database.rows<WishRow>(
      wishRows(caller.clubId, Prisma.sql`w.id = ${id}::uuid`, 1),
    );
    return toWaitingWishResponse(existing(row));
  }

  /** Puts the caller at the end of the line; or refuses, with the times, when such a time is free already. */
  wait(caller: ClubCaller, request: WaitingWishRequest): Promise<WaitingWishResponse> {
    const { clubId, memberId } = caller;
    const now = this.clock.now();
    refuseBadWish(request, now);
    return this.database.write(caller, async (tx) => {
      const { stationId, duty, places, minutes, notBefore, notAfter, batchId, note = '' } = request;
      await refuseBatchOfOthers(tx, caller, batchId, memberId);
      await this.lockNamed(tx, clubId, stationId);
      await offerFreedTimes(tx, caller, stationId, now);
      await this.refuseIfFree(tx, clubId, request, now);
      const { id } = await tx.waitingWish.create({
        data: {
          clubId,
          memberId,
          stationId,
          duty,
          minDeciC: deciOf(request.minC),
          maxDeciC: deciOf(request.maxC),
          places,
          minutes,
          notBefore,
          notAfter,
          batchId: batchId ?? null,
          note,
        },
        select: { id: true },
      });
      await audit(tx, caller, 'waiting.begun', id, { stationId });
      return toWaitingWishResponse(await read(tx, clubId, id));
    });
  }

  /** Leaves the line. What was kept goes to the next. */
  withdraw(caller: ClubCaller, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      const now = this.clock.now();
      const row = await this.hold(tx, caller, id);
      refuseIfStale(caller, toWaitingWishResponse(row));
      if (row.endedAt !== null) {
        throw new Refusal('wish-over', `It is ${row.state} already.`);
      }
      if (row.bookingId !== null) {
        await tx.booking.update({
          where: { clubId_id: { clubId: caller.clubId, id: row.bookingId } },
          data: { active: false, cancelledAt: now },
        });
        await audit(tx, caller, 'booking.cancelled', row.bookingId, { for: 'withdrawal' });
      }
      await endWish(tx, caller, row.id, 'withdrawn', now);
      if (row.memberId !== caller.memberId) {
        await notify(tx, caller.clubId, [
          {
            memberId: row.memberId,
            kind: 'waiting.withdrawn',
            event: `waiting.withdrawn ${row.id}`,
            subjectId: row.id,
            details: { stationName: row.stationName, byName: caller.personName },
          },
        ]);
      }
      if (row.bookingId !== null) await offerFreedTimes(tx, caller, row.stationId, now);
    });
  }

  /** Makes the kept booking the member's own. */
  take(caller: ClubCaller, id: string): Promise<WaitingWishResponse> {
    const { clubId } = caller;
    return this.database.write(caller, async (tx) => {
      const now = this.clock.now();
      const { memberId } = await read(tx, clubId, id);
      const share = await lockFairShare(tx, clubId, { memberId });
      const { stationId } = await this.hold(tx, caller, id);
      await lapseOffers(tx, caller, stationId, now);
      const row = await read(tx, clubId, id);
      const { bookingId, startsAt, endsAt, places } = row;
      if (bookingId === null || startsAt === null || endsAt === null || row.state !== 'offered') {
        throw new Refusal('nothing-offered', whyNothing(row));
      }
      await refuseBeyondShare(tx, clubId, share, { startsAt, endsAt, places }, now);
      await tx.booking.update({
        where: { clubId_id: { clubId, id: bookingId } },
        data: { keptUntil: null },
      });
      await audit(tx, caller, 'booking.taken', bookingId, { wishId: id });
      await endWish(tx, caller, row.id, 'taken', now);
      return toWaitingWishResponse(await read(tx, clubId, id));
    });
  }

  private async lockNamed(tx: Transaction, clubId: string, stationId: string): Promise<void> {
    await this.stations.lock(tx, clubId, stationId).catch((error: unknown) => {
      if (error instanceof Refusal && error.code === 'not-found') {
        throw invalidField('#/stationId', 'The club has no such station.');
      }
      throw error;
    });
  }

  private async refuseIfFree(
    tx: Transaction,
    clubId: string,
    request: WaitingWishRequest,
    now: Date,
  ): Promise<void> {
    const { stationId, notBefore, notAfter } = request;
    const nextMinute = Math.ceil(now.getTime() / minuteMs) * minuteMs;
    const from = new Date(Math.max(notBefore.getTime(), nextMinute));
    const diary = await this.stations.diary(tx, clubId, stationId, from, notAfter);
    refuseUnlessServed(diary, request);
    const search = {
      from: from.getTime(),
      until: notAfter.getTime(),
      count: Number.MAX_SAFE_INTEGER,
    };
    const freeTimes = toFreeTimes(nextFreeTimes(diary.times, request, search));
    const [first] = freeTimes;
    if (first === undefined) return;
    throw new Refusal(
      'free-now',
      `There is no need to wait: book it to start at ${first.firstStart}.`,
      { offers: { freeTimes: freeTimes.slice(0, offeredInstead) } },
    );
  }

  /** The wish with its station locked, if the caller may act for it. */
  private async hold(tx: Transaction, caller: ClubCaller, id: string): Promise<WishRow> {
    const { stationId, memberId } = await read(tx, caller.clubId, id);
    if (memberId !== caller.memberId && caller.role !== 'steward') throw new Refusal('not-yours');
    await this.stations.lock(tx, caller.clubId, stationId);
    return read(tx, caller.clubId, id);
  }
}

function whyNothing({ state, keptUntil }: WishRow): string {
  switch (state) {
    case 'waiting':
      return 'Nothing that fits has become free yet; you are told when it has.';
    case 'taken':
      return 'It has been taken already.';
    case 'withdrawn':
      return 'The wish was withdrawn. Wait again, and you stand at the end of the line.';
    case 'offered':
    case 'lapsed':
      return `The time to take it is over${keptUntil === null ? '' : ` since ${keptUntil.toISOString()}`}. Wait again, and you stand at the end of the line.`;
  }
}

async function read(tx: Transaction, clubId: string, id: string): Promise<WishRow> {
  const [row] = await tx.$queryRaw<WishRow[]>(wishRows(clubId, Prisma.sql`w.id = ${id}::uuid`, 1));
  return existing(row);
}

function existing(row: WishRow | undefined): WishRow {
  if (row === undefined) throw new Refusal('not-found');
  return row;
}
