import { Injectable } from '@nestjs/common';
import { refuseFuture } from '../core/refuse-future';
import { invalidField, Refusal } from '../core/refusal';
import { notify } from '../notices/notify';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { StationsService } from '../stations/stations.service';
import { offerFreedTimes } from '../waiting/offer-freed-times';
import { ownBooking, readBooking, stationOf } from './booking-rows';
import { isOverstay, refuseIfKept, refuseIfOver } from './booking-state';
import { updateBooking } from './booking-store';
import type { ArrivalRequest, ReleaseRequest } from './bookings.requests';
import { toBookingResponse, type BookingResponse, type BookingRow } from './bookings.responses';
import { earlyHours } from './early-hours';
import { clearPlaces, placesNotCleared, unclearedAt } from './uncleared-places';
import { wishedNow } from './wished-booking';

/** Honey comes in, and goes out again. */
@Injectable()
export class ArrivalsService {
  constructor(
    private readonly database: Database,
    private readonly stations: StationsService,
    private readonly clock: Clock,
  ) {}

  /** Records that the honey came in; refuses, with other places, while somebody else's stands there. */
  arrive(caller: ClubCaller, id: string, request: ArrivalRequest): Promise<BookingResponse> {
    const now = this.clock.now();
    const at = request.at ?? now;
    refuseFuture('#/at', at, now);
    return this.database.write(caller, async (tx) => {
      const current = await this.hold(tx, caller, id);
      refuseIfKept(current);
      refuseIfOver(current, at);
      if (at.getTime() < current.startsAt.getTime() - earlyHours * 3_600_000) {
        throw new Refusal(
          'booking-ahead',
          `Honey comes in ${earlyHours} hours before the start at the earliest: move the start instead.`,
        );
      }
      if (current.arrivedAt !== null) {
        throw new Refusal(
          'arrived-already',
          `It came in at ${current.arrivedAt.toISOString()}, as is on record.`,
        );
      }
      if (request.placesAreClear !== true) await this.findPlaces(tx, caller, current, request, now);
      await tx.booking.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: { arrivedAt: at },
      });
      await audit(tx, caller, 'booking.arrived', id, { at });
      return toBookingResponse(await readBooking(tx, caller.clubId, id));
    });
  }

  /** The places are clear: ends a running booking now, so that the rest of its time is free at once; or ends an overstay. */
  release(caller: ClubCaller, id: string, request: ReleaseRequest): Promise<BookingResponse> {
    const now = this.clock.now();
    const { reason, clearedAt = now } = request;
    refuseFuture('#/clearedAt', clearedAt, now);
    return this.database.write(caller, async (tx) => {
      const current = await this.hold(tx, caller, id);
      const wasOver = isOverstay(current, now);
      if (!wasOver) {
        refuseIfOver(current, now);
        if (current.startsAt >= now) {
          throw new Refusal('booking-ahead', 'It has not begun: cancel it instead.');
        }
      }
      if (current.arrivedAt !== null && clearedAt < current.arrivedAt) {
        throw invalidField('#/clearedAt', 'clearedAt must not be before the honey came in.');
      }
      await tx.booking.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: {
          clearedAt: current.clearedAt ?? clearedAt,
          ...(!wasOver && { endsAt: now, releasedAt: now }),
        },
      });
      await audit(tx, caller, wasOver ? 'booking.cleared' : 'booking.released', id, { reason });
      if (current.memberId !== caller.memberId) await tellHolder(tx, caller, current, request);
      if (!wasOver) await offerFreedTimes(tx, caller, current.stationId, now);
      return toBookingResponse(await readBooking(tx, caller.clubId, id));
    });
  }

  private async findPlaces(
    tx: Transaction,
    caller: ClubCaller,
    booking: BookingRow,
    { otherPlaces }: ArrivalRequest,
    now: Date,
  ): Promise<void> {
    const { clubId } = caller;
    const { id, stationId, startsAt, endsAt } = booking;
    const uncleared = await unclearedAt(tx, clubId, stationId, now);
    const inTheWay = uncleared.filter(
      ({ bookingId, endedAt, places }) =>
        bookingId !== id &&
        endedAt <= startsAt &&
        places.some((number) => booking.places.includes(number)),
    );
    if (inTheWay.length === 0) return;
    const diary = await this.stations.diary(tx, clubId, stationId, startsAt, endsAt, id);
    const placeIds = clearPlaces(diary, booking, uncleared);
    if (otherPlaces !== true || placeIds === null) {
      throw await placesNotCleared(tx, caller, booking, inTheWay, placeIds !== null, now);
    }
    await updateBooking(tx, caller, id, diary, wishedNow(booking), placeIds);
    await audit(tx, caller, 'booking.moved', id, { for: 'places not cleared' });
  }

  /** The booking, if the caller may change it, with its station locked. */
  private async hold(tx: Transaction, caller: ClubCaller, id: string): Promise<BookingRow> {
    await this.stations.lock(tx, caller.clubId, await stationOf(tx, caller, id));
    return ownBooking(tx, caller, id);
  }
}

async function tellHolder(
  tx: Transaction,
  caller: ClubCaller,
  { id, memberId, stationName, startsAt }: BookingRow,
  { reason }: ReleaseRequest,
): Promise<void> {
  await notify(tx, caller.clubId, [
    {
      memberId,
      kind: 'booking.released',
      event: `booking.released ${id}`,
      subjectId: id,
      details: {
        stationName,
        startsAt: startsAt.toISOString(),
        byName: caller.personName,
        reason: reason ?? null,
      },
    },
  ]);
}
