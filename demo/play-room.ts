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
  const { id } = await caller.post<{ id: string }>(`${club.path}/bookings`, booking.ref, {
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
  club.entered(booking.ref, id);
}

/** Tells what the steps of the batches do not: that crates went on from the cabinet to the cool room, and were fetched in the end. */
export async function fetchAll(club: EnteredClub, { batches }: Season, now: Date): Promise<void> {
  await Promise.all(
    batches.map(async ({ member, steps, bookings, outstays }) => {
      if (!steps.some(({ kind }) => kind === 'shelved')) return;
      const cool = bookings.filter(({ duty, startsAt }) => duty === 'cool' && startsAt <= now);
      for (const [index, { ref, startsAt, endsAt }] of cool.entries()) {
        const address = `${club.path}/bookings/${club.id(ref)}`;
        const tell = (what: string, body: object) =>
          club.as(member).post(`${address}/${what}`, `${ref}-${what}`, body);
        if (index > 0) await tell('arrival', { at: startsAt, placesAreClear: true });
        const isThere = outstays && index === cool.length - 1;
        if (endsAt <= now && !isThere) await tell('release', { clearedAt: endsAt });
      }
    }),
  );
}
