import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { given } from '../platform/given';
import type { Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { offerFreedTimes } from '../waiting/offer-freed-times';
import { waitAgain } from '../waiting/wait-again';
import {
  clearOut,
  outcomesOf,
  putWhereMoved,
  searchedUntil,
  type InTheWay,
  type Outcome,
} from './displaced-bookings';
import type { StationDiary } from './station-diary';
import type { ClosureChange, ClosureQuery, ClosureRequest } from './stations.requests';
import {
  toClosureResponse,
  type ClosureMadeResponse,
  type ClosureResponse,
  type ClosureRow,
  type DisplacedBooking,
} from './stations.responses';
import { pageOfSpans } from './page-of-spans';
import { StationsService } from './stations.service';

const selectClosures = Prisma.sql`
  select id, station_id as "stationId", starts_at as "startsAt", ends_at as "endsAt", reason from closure`;

@Injectable()
export class ClosuresService {
  constructor(
    private readonly database: Database,
    private readonly stations: StationsService,
    private readonly clock: Clock,
  ) {}

  async list(
    caller: ClubCaller,
    stationId: string,
    query: ClosureQuery,
  ): Promise<Page<ClosureResponse>> {
    await this.stations.show(caller, stationId);
    const spans = { name: 'closures', select: selectClosures, toItem: toClosureResponse };
    return pageOfSpans(this.database, spans, caller.clubId, stationId, query);
  }

  async show(caller: ClubCaller, stationId: string, id: string): Promise<ClosureResponse> {
    const [row] = await this.database.rows<ClosureRow>(closureQuery(caller.clubId, stationId, id));
    if (row === undefined) throw new Refusal('not-found');
    return toClosureResponse(row);
  }

  /** Closes the station; bookings in the way are moved or cancelled if the steward said so, and named otherwise. */
  close(
    caller: ClubCaller,
    stationId: string,
    request: ClosureRequest,
  ): Promise<ClosureMadeResponse> {
    refuseBadSpan(request);
    return this.database.write(caller, async (tx) => {
      const now = this.clock.now();
      await this.stations.lock(tx, caller.clubId, stationId);
      const inTheWay = await bookingsWithin(tx, caller, stationId, request);
      const outcomes = await this.decide(tx, caller, stationId, request, inTheWay, now);
      await clearOut(tx, caller, outcomes.list, now);
      const cancelled = outcomes.list.filter(({ outcome }) => outcome === 'cancelled');
      await waitAgain(
        tx,
        caller.clubId,
        cancelled.map(({ booking }) => booking.id),
      );
      const made = await tx.closure.create({
        data: {
          clubId: caller.clubId,
          stationId,
          startsAt: request.startsAt,
          endsAt: request.endsAt,
          reason: request.reason,
          closedById: caller.memberId,
        },
      });
      await audit(tx, caller, 'station.closed', stationId, {
        closureId: made.id,
        reason: request.reason,
      });
      const answer: ClosureMadeResponse = toClosureResponse(made);
      if (outcomes.diary !== null) {
        await putWhereMoved(tx, caller, outcomes.diary, made, outcomes.list);
        answer.bookings = outcomes.list.map(toDisplacedBooking);
        // What was cancelled or moved for it may have lasted longer than it does.
        await offerFreedTimes(tx, caller, stationId, now);
      }
      return answer;
    });
  }

  change(
    caller: ClubCaller,
    stationId: string,
    id: string,
    change: ClosureChange,
  ): Promise<ClosureResponse> {
    return this.database.write(caller, async (tx) => {
      const current = await this.lockAndRead(tx, caller, stationId, id);
      refuseIfStale(caller, toClosureResponse(current));
      const wanted = { ...current, ...given(change) };
      refuseBadSpan(wanted);
      const inTheWay = await bookingsWithin(tx, caller, stationId, wanted);
      if (inTheWay.length > 0) {
        throw new Refusal(
          'station-booked',
          `${inTheWay.length} bookings are in the way. Choose another time, or move or cancel them first.`,
          { offers: { bookings: inTheWay.map(({ id }) => id) } },
        );
      }
      const changed = await tx.closure.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: { startsAt: wanted.startsAt, endsAt: wanted.endsAt, reason: wanted.reason },
      });
      await audit(tx, caller, 'closure.changed', id, { stationId });
      await offerFreedTimes(tx, caller, stationId, this.clock.now());
      return toClosureResponse(changed);
    });
  }

  reopen(caller: ClubCaller, stationId: string, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      const current = await this.lockAndRead(tx, caller, stationId, id);
      refuseIfStale(caller, toClosureResponse(current));
      await tx.closure.delete({ where: { clubId_id: { clubId: caller.clubId, id } } });
      await audit(tx, caller, 'station.reopened', stationId, { closureId: id });
      await offerFreedTimes(tx, caller, stationId, this.clock.now());
    });
  }

  /** What becomes of the bookings in the way; without an order to move or cancel them, a refusal that tells what moving would come to. */
  private async decide(
    tx: Transaction,
    { clubId }: ClubCaller,
    stationId: string,
    request: ClosureRequest,
    inTheWay: InTheWay[],
    now: Date,
  ): Promise<{ diary: StationDiary | null; list: Outcome[] }> {
    const [first] = inTheWay;
    if (first === undefined) return { diary: null, list: [] };
    const until = searchedUntil(inTheWay);
    const diary = await this.stations.diary(tx, clubId, stationId, first.startsAt, until);
    const list = outcomesOf(diary, request, inTheWay, request.bookings ?? 'move', now);
    if (request.bookings !== undefined) return { diary, list };
    throw new Refusal(
      'station-booked',
      `${inTheWay.length} bookings are in the way. Choose another time, or send bookings: "move" (ifMoved tells what would become of each) or bookings: "cancel".`,
      {
        offers: {
          bookings: inTheWay.map(({ id }) => id),
          ifMoved: list.map(toDisplacedBooking),
        },
      },
    );
  }

  private async lockAndRead(
    tx: Transaction,
    caller: ClubCaller,
    stationId: string,
    id: string,
  ): Promise<ClosureRow> {
    await this.stations.lock(tx, caller.clubId, stationId);
    const [row] = await tx.$queryRaw<ClosureRow[]>(closureQuery(caller.clubId, stationId, id));
    if (row === undefined) throw new Refusal('not-found');
    return row;
  }
}

function closureQuery(clubId: string, stationId: string, id: string): Prisma.Sql {
  return Prisma.sql`
    ${selectClosures}
    where club_id = ${clubId}::uuid and station_id = ${stationId}::uuid and id = ${id}::uuid`;
}

/** The bookings that a closure at those times would come over. */
async function bookingsWithin(
  tx: Transaction,
  { clubId }: ClubCaller,
  stationId: string,
  { startsAt, endsAt }: { startsAt: Date; endsAt: Date },
): Promise<InTheWay[]> {
  return tx.booking.findMany({
    where: {
      clubId,
      stationId,
      active: true,
      startsAt: { lt: endsAt },
      endsAt: { gt: startsAt },
    },
    select: { id: true, memberId: true, startsAt: true, endsAt: true, keptUntil: true },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  });
}

function toDisplacedBooking({ booking, outcome, span }: Outcome): DisplacedBooking {
  return {
    bookingId: booking.id,
    memberId: booking.memberId,
    outcome,
    startsAt: span?.startsAt.toISOString() ?? null,
    endsAt: span?.endsAt.toISOString() ?? null,
  };
}

function refuseBadSpan({ startsAt, endsAt }: { startsAt: Date; endsAt: Date }): void {
  if (endsAt.getTime() <= startsAt.getTime()) {
    throw invalidField('#/endsAt', 'endsAt must be after startsAt.');
  }
}
