import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { restToMove, type MoveOfRest } from '../plans/plan-moves';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { given } from '../platform/given';
import { offerFreedTimes } from '../waiting/offer-freed-times';
import { placesOrRefusal } from './booking-refusal';
import { chainOfPlan, ownBooking, readBooking, stationsOf } from './booking-rows';
import { isOverstay, refuseIfKept, refuseIfOver, refuseOtherPlaces } from './booking-state';
import { updateBooking } from './booking-store';
import type { BookingChange } from './bookings.requests';
import { toBookingResponse, type BookingResponse, type BookingRow } from './bookings.responses';
import { lockFairShare, refuseBeyondShare } from './fair-share';
import { HeldDiaries, placeNumbersOf } from './held-diaries.service';
import { refuseWaiversOfMembers } from './room-rules';
import { tellHolder } from './tell-holder';
import { isAtSameTime, refuseBadTimes, wishedNow, wishOf, type Wished } from './wished-booking';

/** Moves bookings, and what hangs on them. */
@Injectable()
export class BookingMoves {
  constructor(
    private readonly database: Database,
    private readonly diaries: HeldDiaries,
    private readonly clock: Clock,
  ) {}

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
        await this.diaries.lock(tx, caller, one);
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
        this.diaries.refusePast(caller, wanted.startsAt);
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
        this.diaries.reader(tx, caller, stationId, anyHour, id),
        wishOf(wanted),
        wanted,
        ({ placeNumbers }) => placesKept(placeNumbers, current, stationId),
      );
      if (overstays) refuseOtherPlaces(current, stationId, placeNumbersOf(diary, placeIds));
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
      this.diaries.reader(tx, caller, row.stationId, false, row.id),
      wishOf(wanted),
      wanted,
      ({ placeNumbers }) => placesKept(placeNumbers, row, row.stationId),
    );
    await updateBooking(tx, caller, row.id, diary, wanted, placeIds);
    await audit(tx, caller, 'booking.moved', row.id, { startsAt, endsAt });
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
