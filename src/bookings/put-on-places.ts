import type { Transaction } from '../platform/database';

/** Puts a booking on these places, for the whole of its time. */
export async function putOnPlaces(
  tx: Transaction,
  booking: { clubId: string; bookingId: string; stationId: string; startsAt: Date; endsAt: Date },
  placeIds: readonly string[],
): Promise<void> {
  await tx.bookingPlace.createMany({
    data: placeIds.map((placeId) => ({ ...booking, placeId })),
  });
}
