import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { deciOf } from '../platform/fields';
import { given } from '../platform/given';
import { pageOf, startOf, type Page } from '../platform/paging';
import type { StationDiary } from '../stations/station-diary';
import { restToMove, type MoveOfRest } from '../plans/plan-moves';
import { StationsService } from '../stations/stations.service';
import { endWish } from '../waiting/end-wish';
import { offerFreedTimes } from '../waiting/offer-freed-times';
import { passOnLapsedOffers } from '../waiting/pass-on-lapsed-offers';
import { holderOf, refuseBatchOfOthers } from './booking-holder';
import { placesOrRefusal } from './booking-refusal';
import {
  bookingQuery,
  chainOfPlan,
  filtersOf,
  listQuery,
  ownBooking,
  readBooking,
  stationOf,
  stationsOf,
} from './booking-rows';
import { isOverstay, refuseIfKept, refuseIfOver, refuseOtherPlaces } from './booking-state';
import { insertBooking, updateBooking } from './booking-store';
import type { BookingChange, BookingQuery, BookingRequest } from './bookings.requests';
import { toBookingResponse, type BookingResponse, type BookingRow } from './bookings.responses';
import { lockFairShare, refuseBeyondShare } from './fair-share';
import { atAnyHour, auditWaivers, refuseWaiversOfMembers } from './room-rules';
import { tellHolder } from './tell-holder';
import {
  isAtSameTime,
  refuseBadTimes,
  refuseOverload,
  wishedNow,
  wishOf,
  type Wished,
} from './wished-booking';

/** Somebody who books "from now" may take a moment to press the button. */
const graceMs = 15 * 60_000;

@Injectable()
export class BookingsService {
  constructor(
    private readonly database: Database,
    private readonly stations: StationsService,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: BookingQuery): Promise<Page<BookingResponse>> {
    const list = `bookings ${caller.clubId} ${JSON.stringify(filtersOf(query))}`;
    const rows = await this.database.rows<BookingRow>(
      listQuery(caller.clubId, query, startOf(query, list)),
    );
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
    refuseWaiversOfMembers(caller, request);
    this.refusePast(caller, request.startsAt);
    return this.database.write(caller, async (tx) => {
      const holder = await holderOf(tx, caller, request);
      await refuseBatchOfOthers(tx, caller, request.batchId, holder.id);
      if (request.overFairShare !== true) {
        const share = await lockFairShare(tx, caller.clubId, { memberId: holder.id });
        await refuseBeyondShare(tx, caller.clubId, share, request, this.clock.now());
      }
      await this.lockStation(tx, caller, request.stationId);
      const { diary, placeIds } = await placesOrRefusal(
        this.diaryReader(tx, caller, request.stationId, request.evenIfClosed === true),
        wishOf(request),
        request,
      );
      refuseOverload(diary, request);
      const made = await insertBooking(
        tx,
        caller,
        holder.id,
        diary.times.changeoverMinutes,
        request,
        placeIds,
      );
      await auditWaivers(tx, caller, made.id, request);
      return toBookingResponse({
        ...made,
        stationId: request.stationId,
        stationName: diary.name,
        duty: request.duty,
        memberId: holder.id,
        memberName: holder.name,
        batchId: request.batchId ?? null,
        planId: null,
        minDeciC: deciOf(request.minC),
        maxDeciC: deciOf(request.maxC),
        startsAt: request.startsAt,
        endsAt: request.endsAt,
        places: numbersOf(diary, placeIds),
        note: request.note ?? '',
        releasedAt: null,
        cancelledAt: null,
        keptForId: null,
        keptUntil: null,
        arrivedAt: null,
        clearedAt: null,
      });
    });
  }

  /** Moves a booking in time, to other temperatures, to more or fewer places, to another station; or nothing of it. */
  move(caller: ClubCaller, id: string, change: BookingChange): Promise<BookingResponse> {
    refuseWaiversOfMembers(caller, change);
    return this.database.write(caller, async (tx) => {
      const now = this.clock.now();
      const { stationId: heldAt, chainStationIds } = await stationsOf(tx, caller, id);
      const share = await lockFairShare(tx, caller.clubId, { bookingId: id });
      const stationId = change.stationId ?? heldAt;
      // In the order of their ids, so that two moves never wait for each other.
      for (const one of [...new Set([heldAt, stationId, ...chainStationIds])].sort()) {
        await this.lockStation(tx, caller, one);
      }
      const current = await ownBooking(tx, caller, id);
      refuseIfStale(caller, toBookingResponse(current));
      refuseIfKept(current);
      const overstays = isOverstay(current, now);
      if (!overstays) refuseIfOver(current, now);
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
      if (change.overFairShare !== true) {
        const held = { ...wishedNow(current), id };
        await refuseBeyondShare(tx, caller.clubId, share, wanted, now, held);
      }
      const anyHour = change.evenIfClosed === true || isAtSameTime(wanted, current);
      const { diary, placeIds } = await placesOrRefusal(
        this.diaryReader(tx, caller, stationId, anyHour, id),
        wishOf(wanted),
        wanted,
        ({ placeNumbers }) => placesKept(placeNumbers, current, stationId),
      );
      if (overstays) refuseOtherPlaces(current, stationId, numbersOf(diary, placeIds));
      const rest = await this.restOf(tx, caller, current, wanted, change.moveTheRest);
      await updateBooking(tx, caller, id, diary, wanted, placeIds);
      await audit(tx, caller, 'booking.moved', id, change);
      for (const one of rest) await this.moveAlong(tx, caller, one);
      for (const one of new Set([heldAt, stationId, ...chainStationIds])) {
        await offerFreedTimes(tx, caller, one, now);
      }
      const moved = await readBooking(tx, caller.clubId, id);
      await tellHolder(tx, caller, 'moved', moved);
      return toBookingResponse(moved);
    });
  }

  /** What of its plan has to move with a booking whose times change. */
  private async restOf(
    tx: Transaction,
    caller: ClubCaller,
    current: BookingRow,
    wanted: Wished,
    moveTheRest: boolean | undefined,
  ): Promise<MoveOfRest<BookingRow>[]> {
    const { planId } = current;
    if (planId === null || moveTheRest === false || isAtSameTime(wanted, current)) return [];
    const chain = await chainOfPlan(tx, caller.clubId, planId);
    const now = this.clock.now();
    return restToMove(tx, caller, { planId, current, wanted, chain, moveTheRest, now });
  }

  private async moveAlong(
    tx: Transaction,
    caller: ClubCaller,
    { row, startsAt, endsAt }: MoveOfRest<BookingRow>,
  ): Promise<void> {
    const wanted = { ...wishedNow(row), startsAt, endsAt };
    const { diary, placeIds } = await placesOrRefusal(
      this.diaryReader(tx, caller, row.stationId, false, row.id),
      wishOf(wanted),
      wanted,
      ({ placeNumbers }) => placesKept(placeNumbers, row, row.stationId),
    );
    await updateBooking(tx, caller, row.id, diary, wanted, placeIds);
    await audit(tx, caller, 'booking.moved', row.id, { startsAt, endsAt });
  }

  /** Gives up a booking that has not begun. */
  cancel(caller: ClubCaller, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      const now = this.clock.now();
      await this.stations.lock(tx, caller.clubId, await stationOf(tx, caller, id));
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
      await tellHolder(tx, caller, 'cancelled', current);
      if (current.keptForId !== null && current.keptUntil !== null) {
        await endWish(tx, caller, current.keptForId, 'withdrawn', now);
      }
      await offerFreedTimes(tx, caller, current.stationId, now);
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
    await this.lockNamed(tx, caller, id);
    await passOnLapsedOffers(tx, caller, id, this.clock.now());
  }

  private async lockNamed(tx: Transaction, caller: ClubCaller, id: string): Promise<void> {
    await this.stations.lock(tx, caller.clubId, id).catch((error: unknown) => {
      if (error instanceof Refusal && error.code === 'not-found') {
        throw invalidField('#/stationId', 'The club has no such station.');
      }
      throw error;
    });
  }

  private diaryReader(
    tx: Transaction,
    { clubId }: ClubCaller,
    stationId: string,
    anyHour: boolean,
    exceptBookingId: string | null = null,
  ): (from: Date, until: Date) => Promise<StationDiary> {
    return async (from, until) => {
      const diary = await this.stations.diary(tx, clubId, stationId, from, until, exceptBookingId);
      return anyHour ? atAnyHour(diary) : diary;
    };
  }
}

/** The places that a booking holds already, where it stays at its station. */
function placesKept(
  placeNumbers: ReadonlyMap<string, number>,
  current: BookingRow,
  stationId: string,
): string[] {
  if (stationId !== current.stationId) return [];
  return [...placeNumbers]
    .filter(([, number]) => current.places.includes(number))
    .map(([placeId]) => placeId);
}

function numbersOf(diary: StationDiary, placeIds: readonly string[]): number[] {
  return placeIds.map((id) => diary.placeNumbers.get(id) ?? 0).sort((a, b) => a - b);
}
