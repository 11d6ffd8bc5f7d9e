import { choosePlaces } from './choose-places';
import { nextFreeTimes } from './next-free-times';
import {
  minutesToMs,
  requireInstant,
  type StationBooking,
  type StationTimes,
  type Wish,
} from './station-times';
import { wholeMinuteStarts } from './whole-minute-starts';

/** A wish that waits: to start no earlier than notBefore and to end no later than notAfter, in epoch milliseconds. */
export type WaitingWish = Wish & {
  readonly id: string;
  readonly notBefore: number;
  readonly notAfter: number;
};

/** Places kept for a wish until somebody takes them or keptUntil passes; instants in epoch milliseconds. */
export type KeptTime = {
  readonly wishId: string;
  readonly startsAt: number;
  readonly endsAt: number;
  readonly placeIds: readonly string[];
  readonly keptUntil: number;
};

/** Nothing is offered that starts sooner: nobody could answer, and would lose the place in the line. */
export const LEAST_MINUTES_TO_ANSWER = 15;

/**
 * What is free for those who wait, in their order: each gets the earliest time that fits beside what is booked and what those before
 * got. Nobody who fits is passed over; who does not fit keeps waiting and holds up nobody behind.
 *
 * A wish fits when it has a possible start (see `nextFreeTimes`) on a whole minute, at least 15 minutes from `now`. Of the earliest
 * span of starts, the start that leaves `offerMinutes` to answer is taken, or the one that comes nearest to that. Kept until `now` +
 * `offerMinutes`, but no later than the start.
 *
 * `now` in epoch milliseconds; `offerMinutes` whole minutes, 15 or more. Throws RangeError otherwise, or for a wish or a station that
 * makes no sense (see `requireSensible`).
 */
export function keptInOrder(
  station: StationTimes,
  waiting: readonly WaitingWish[],
  { now, offerMinutes }: { readonly now: number; readonly offerMinutes: number },
): KeptTime[] {
  requireInstant('now', now);
  if (!Number.isSafeInteger(offerMinutes) || offerMinutes < LEAST_MINUTES_TO_ANSWER) {
    throw new RangeError(
      `offerMinutes must be a whole number of at least ${LEAST_MINUTES_TO_ANSWER}, got ${offerMinutes}`,
    );
  }
  const answerBy = now + minutesToMs(offerMinutes);
  const bookings: StationBooking[] = [...station.bookings];
  const kept: KeptTime[] = [];
  for (const wish of waiting) {
    const withKept = { ...station, bookings };
    const startsAt = startFor(withKept, wish, now, answerBy);
    const placeIds = startsAt === null ? null : choosePlaces(withKept, wish, startsAt);
    if (startsAt === null || placeIds === null) continue;
    const endsAt = startsAt + minutesToMs(wish.minutes);
    const { duty, minC, maxC } = wish;
    bookings.push({ duty, minC, maxC, startsAt, endsAt, placeIds });
    kept.push({
      wishId: wish.id,
      startsAt,
      endsAt,
      placeIds,
      keptUntil: Math.min(answerBy, startsAt),
    });
  }
  return kept;
}

function startFor(
  station: StationTimes,
  wish: WaitingWish,
  now: number,
  answerBy: number,
): number | null {
  const soonest = now + minutesToMs(LEAST_MINUTES_TO_ANSWER);
  const spans = nextFreeTimes(station, wish, {
    from: Math.max(wish.notBefore, soonest),
    until: wish.notAfter,
    count: Number.MAX_SAFE_INTEGER,
  });
  const [earliest] = wholeMinuteStarts(spans);
  if (earliest === undefined) return null;
  const unhurried = Math.ceil(answerBy / minutesToMs(1)) * minutesToMs(1);
  return Math.min(earliest.lastStart, Math.max(earliest.firstStart, unhurried));
}
