import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { deciOf } from '../platform/fields';
import { pageOf, startOf, type Page } from '../platform/paging';
import { StationsService } from '../stations/stations.service';
import { endWish } from '../waiting/end-wish';
import { offerFreedTimes } from '../waiting/offer-freed-times';
import { holderOf, refuseBatchOfOthers } from './booking-holder';
import { placesOrRefusal } from './booking-refusal';
import { bookingQuery, filtersOf, listQuery, ownBooking, stationOf } from './booking-rows';
import { refuseIfOver } from './booking-state';
import { insertBooking } from './booking-store';
import type { BookingQuery, BookingRequest } from './bookings.requests';
import { toBookingResponse, type BookingResponse, type BookingRow } from './bookings.responses';
import { lockFairShare, refuseBeyondShare } from './fair-share';
import { HeldDiaries, placeNumbersOf } from './held-diaries.service';
import { auditWaivers, refuseWaiversOfMembers } from './room-rules';
import { tellHolder } from './tell-holder';
import { refuseBadTimes, refuseOverload, wishOf } from './wished-booking';

@Injectable()
export class BookingsService {
  constructor(
    private readonly database: Database,
    private readonly stations: StationsService,
    private readonly diaries: HeldDiaries,
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
    this.diaries.refusePast(caller, request.startsAt);
    return this.database.write(caller, async (tx) => {
      const holder = await holderOf(tx, caller, request);
      await refuseBatchOfOthers(tx, caller, request.batchId, holder.id);
      if (request.overFairShare !== true) {
        const share = await lockFairShare(tx, caller.clubId, { memberId: holder.id });
        await refuseBeyondShare(tx, caller.clubId, share, request, this.clock.now());
      }
      await this.diaries.lock(tx, caller, request.stationId);
      const { diary, placeIds } = await placesOrRefusal(
        this.diaries.reader(tx, caller, request.stationId, request.evenIfClosed === true),
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
        places: placeNumbersOf(diary, placeIds),
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
}
