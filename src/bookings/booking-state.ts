import { Refusal } from '../core/refusal';
import type { BookingRow } from './bookings.responses';

export const bookingStates = ['booked', 'kept', 'released', 'cancelled'] as const;
export type BookingState = (typeof bookingStates)[number];

/** What a booking's times say of it: null is what did not happen. */
export function stateOf({
  cancelledAt,
  releasedAt,
  keptUntil,
}: Record<'cancelledAt' | 'releasedAt' | 'keptUntil', unknown>): BookingState {
  if (cancelledAt !== null) return 'cancelled';
  if (keptUntil !== null) return 'kept';
  return releasedAt === null ? 'booked' : 'released';
}

export function refuseIfOver(row: BookingRow, now: Date): void {
  if (row.cancelledAt !== null || row.endsAt <= now) {
    throw new Refusal('booking-over', 'It is over or cancelled: make a new one.');
  }
}

/** Whether its honey still stands there after its end. */
export function isOverstay(row: BookingRow, now: Date): boolean {
  return (
    row.cancelledAt === null &&
    row.endsAt <= now &&
    row.arrivedAt !== null &&
    row.clearedAt === null
  );
}

export function refuseIfKept({ cancelledAt, keptUntil, keptForId }: BookingRow): void {
  if (cancelledAt !== null || keptUntil === null) return;
  throw new Refusal(
    'offer-open',
    `It is kept until ${keptUntil.toISOString()} for a wish on the waiting list: take it first.`,
    { offers: { waitingWishId: keptForId } },
  );
}

/** Honey that stands past its end stays where it is, or its places are cleared: it is not moved about on paper. */
export function refuseOtherPlaces(
  { stationId, places }: BookingRow,
  newStationId: string,
  numbers: readonly number[],
): void {
  const isSame = places.length === numbers.length && places.every((one) => numbers.includes(one));
  if (isSame && stationId === newStationId) return;
  throw new Refusal(
    'place-taken',
    'The places it stands on are not free for that long. The list of overstays tells for how long they are, and where else there is room.',
  );
}
