import { founder, stations } from './club';
import type { EnteredClub } from './entered';
import { daysAfter, type BookingRecord, type Season } from './records';

/** Sets up the stations, and enters when they were and will be closed. */
export async function setUpRoom(club: EnteredClub, { closures }: Season): Promise<void> {
  const steward = club.founder;
  for (const { ref, ...station } of Object.values(stations)) {
    const { id } = await steward.post<{ id: string }>(`${club.path}/stations`, ref, station);
    club.entered(ref, id);
  }
  for (const { ref, station, startsAt, endsAt, reason } of closures) {
    const address = `${club.path}/stations/${club.id(station)}/closures`;
    await steward.post(address, ref, { startsAt, endsAt, reason });
  }
}

/**
 * Enters all bookings. Those of one station go in one after the other, in the order in which they start: so there is always a place
 * left, whichever the service picks.
 */
export async function bookRoom(club: EnteredClub, season: Season): Promise<void> {
  const tomorrow = daysAfter(new Date(`${season.referenceDay}T00:00:00Z`), 1);
  const bookings = season.batches
    .flatMap((batch) => batch.bookings)
    .sort((a, b) => a.startsAt.getTime() - b.startsAt.getTime());
  await Promise.all(
    Object.values(stations).map(async ({ ref }) => {
      for (const booking of bookings.filter(({ station }) => station === ref)) {
        await book(club, booking, booking.startsAt >= tomorrow);
      }
    }),
  );
}

/** What lies ahead a member books; what lies behind a steward copies from the paper diary. */
async function book(club: EnteredClub, booking: BookingRecord, isAhead: boolean): Promise<void> {
  const caller = isAhead ? club.as(booking.member) : club.as(founder.ref);
  await caller.post(`${club.path}/bookings`, booking.ref, {
    stationId: club.id(booking.station),
    duty: booking.duty,
    minC: booking.minC,
    maxC: booking.maxC,
    startsAt: booking.startsAt,
    endsAt: booking.endsAt,
    places: booking.places,
    loadKg: booking.loadG / 1000,
    batchId: club.id(booking.batch),
    memberId: club.id(booking.member),
    note: isAhead ? '' : 'From the paper diary.',
  });
}
