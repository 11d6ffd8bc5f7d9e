import { putOnPlaces } from '../bookings/put-on-places';
import { moveDisplaced } from '../core/planning/move-displaced';
import { notify } from '../notices/notify';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import type { DiaryBooking, StationDiary } from './station-diary';

const dayMs = 86_400_000;

/** How far ahead of its time a booking may be moved. */
export const farthestMoveDays = 60;

/** A booking that a closure comes over. */
export interface InTheWay {
  id: string;
  memberId: string;
  startsAt: Date;
  endsAt: Date;
  keptUntil: Date | null;
}

/** What becomes of it: its times after that; none when it is cancelled. */
export interface Outcome {
  booking: InTheWay;
  outcome: 'moved' | 'shortened' | 'cancelled';
  span: { startsAt: Date; endsAt: Date } | null;
  placeIds: readonly string[];
}

export interface ClosureTimes {
  startsAt: Date;
  endsAt: Date;
  reason: string;
}

/**
 * What becomes of the bookings that a closure comes over. One that has begun keeps the time up to the closure. One that has not is moved, if
 * they are to be moved and a time is found; else it is cancelled. So is what is only kept for somebody on the waiting list. `diary` reaches
 * from the first of them to as far as the last may be moved.
 */
export function outcomesOf(
  diary: StationDiary,
  closure: ClosureTimes,
  inTheWay: readonly InTheWay[],
  how: 'move' | 'cancel',
  now: Date,
): Outcome[] {
  const begun = inTheWay.filter(({ startsAt }) => startsAt < now && startsAt < closure.startsAt);
  const movable = inTheWay.filter(
    (booking) => how === 'move' && booking.startsAt >= now && booking.keptUntil === null,
  );
  const displaced = new Set(inTheWay.map(({ id }) => id));
  const times = {
    ...diary.times,
    bookings: [
      ...diary.times.bookings.filter(({ id }) => !displaced.has(id)),
      ...begun.flatMap((booking) => {
        const held = diary.times.bookings.find(({ id }) => id === booking.id);
        return held === undefined ? [] : [{ ...held, endsAt: closure.startsAt.getTime() }];
      }),
    ],
    closures: [
      ...diary.times.closures,
      { ...closure, startsAt: closure.startsAt.getTime(), endsAt: closure.endsAt.getTime() },
    ],
  };
  const wanted = diary.times.bookings.filter(({ id }) => movable.some((one) => one.id === id));
  const until = searchedUntil(inTheWay).getTime();
  const moves = new Map(
    moveDisplaced<DiaryBooking>(times, wanted, until).map(({ booking, to }) => [booking.id, to]),
  );
  return inTheWay.map((booking) => {
    if (begun.includes(booking)) {
      const span = { startsAt: booking.startsAt, endsAt: closure.startsAt };
      return { booking, outcome: 'shortened', span, placeIds: [] };
    }
    const to = moves.get(booking.id) ?? null;
    if (to === null) return { booking, outcome: 'cancelled', span: null, placeIds: [] };
    const span = { startsAt: new Date(to.startsAt), endsAt: new Date(to.endsAt) };
    return { booking, outcome: 'moved', span, placeIds: to.placeIds };
  });
}

/** Up to when a diary must be read for `outcomesOf`. */
export function searchedUntil(inTheWay: readonly InTheWay[]): Date {
  const lastEnd = Math.max(...inTheWay.map(({ endsAt }) => endsAt.getTime()));
  return new Date(lastEnd + farthestMoveDays * dayMs);
}

/** Takes the bookings out of the closure's way. Those that are moved stand nowhere until `putWhereMoved`. */
export async function clearOut(
  tx: Transaction,
  { clubId }: ClubCaller,
  outcomes: readonly Outcome[],
  now: Date,
): Promise<void> {
  for (const { booking, outcome, span } of outcomes) {
    await tx.booking.update({
      where: { clubId_id: { clubId, id: booking.id } },
      data:
        outcome === 'shortened' && span !== null
          ? { endsAt: span.endsAt, releasedAt: now }
          : { active: false, cancelledAt: now },
    });
  }
}

/** Puts the moved bookings to their new times, and tells every holder what became of theirs. */
export async function putWhereMoved(
  tx: Transaction,
  caller: ClubCaller,
  diary: StationDiary,
  closure: ClosureTimes & { id: string },
  outcomes: readonly Outcome[],
): Promise<void> {
  const { clubId } = caller;
  const { stationId } = diary;
  for (const { booking, outcome, span, placeIds } of outcomes) {
    const { id } = booking;
    if (outcome === 'moved' && span !== null) {
      // Its places first: they would otherwise be carried to the new time, where others may hold them.
      await tx.bookingPlace.deleteMany({ where: { clubId, bookingId: id } });
      await tx.booking.update({
        where: { clubId_id: { clubId, id } },
        data: {
          ...span,
          active: true,
          cancelledAt: null,
          changeoverMinutes: diary.times.changeoverMinutes,
        },
      });
      await putOnPlaces(tx, { clubId, bookingId: id, stationId, ...span }, placeIds);
    }
    await audit(tx, caller, `booking.${outcome}`, id, {
      for: 'closure',
      closureId: closure.id,
      ...span,
    });
  }
  await notify(
    tx,
    clubId,
    outcomes
      // Of what was only kept, the waiting list tells.
      .filter(({ booking }) => booking.memberId !== caller.memberId && booking.keptUntil === null)
      .map(({ booking, outcome, span }) => ({
        memberId: booking.memberId,
        kind: `booking.${outcome}`,
        event: `booking.${outcome} ${booking.id} ${closure.id}`,
        subjectId: booking.id,
        details: {
          stationName: diary.name,
          byName: caller.personName,
          reason: closure.reason,
          wasFrom: booking.startsAt.toISOString(),
          wasUntil: booking.endsAt.toISOString(),
          startsAt: (span ?? booking).startsAt.toISOString(),
          endsAt: (span ?? booking).endsAt.toISOString(),
        },
      })),
  );
}
