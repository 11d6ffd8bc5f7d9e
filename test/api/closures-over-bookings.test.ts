import { everyDay, openOn } from '../support/opening';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let stationId: string;
let closures: string;
let bookings: string;

beforeEach(async () => {
  club = await aClub(service);
  stationId = await aCabinet(club);
  closures = `${club.path}/stations/${stationId}/closures`;
  bookings = `${club.path}/bookings`;
});

const repair = { startsAt: ahead(3, 10), endsAt: ahead(5, 10), reason: 'Repair' };

async function booked(actor: Actor, different: object = {}): Promise<string> {
  const { body } = await actor.post(bookings, aWish(stationId, different)).expect(201);
  return String(body.id);
}

async function shown(id: string) {
  const { body } = await club.ben.get(`${bookings}/${id}`).expect(200);
  return body as { state: string; startsAt: string; endsAt: string; places: number[] };
}

function noticesOf(actor: Actor) {
  return service.prisma.notice.findMany({
    where: { clubId: club.clubId, memberId: actor.memberId },
    select: { kind: true, subjectId: true, details: true },
  });
}

const iso = (date: Date) => date.toISOString();

test('bookings in the way are named, with what moving them would come to; nothing is changed', async () => {
  const adas = await booked(club.ada);

  const { body } = await club.steward.post(closures, repair).expect(409);

  const [startsAt, endsAt] = [ahead(5, 10), hoursLater(ahead(5, 10), 24)].map(iso);
  expect(body).toMatchObject({
    type: '/problems/station-booked',
    bookings: [adas],
    ifMoved: [{ bookingId: adas, memberId: club.ada.memberId, outcome: 'moved', startsAt, endsAt }],
  });
  expect(await shown(adas)).toMatchObject({ state: 'booked', startsAt: iso(ahead(3)) });
  expect(await noticesOf(club.ada)).toEqual([]);

  const moved = await club.steward.post(closures, { ...repair, bookings: 'move' }).expect(201);
  expect(moved.body.bookings).toEqual(body.ifMoved);
});

test('moved, each goes to the first time after the closure that fits, who was first is first, and all are told', async () => {
  const whole = await booked(club.ada, { places: 2 });
  const next = await booked(club.ben, {
    startsAt: hoursLater(ahead(3), 24),
    endsAt: hoursLater(ahead(3), 30),
  });
  const [later, laterUntil] = [ahead(7), ahead(8)];
  const stays = await booked(club.ben, { startsAt: later, endsAt: laterUntil, places: 2 });

  const { body } = await club.steward.post(closures, { ...repair, bookings: 'move' }).expect(201);

  const first = ahead(5, 10);
  const second = hoursLater(first, 24);
  expect(body.bookings).toMatchObject([
    { bookingId: whole, outcome: 'moved', startsAt: iso(first), endsAt: iso(second) },
    {
      bookingId: next,
      outcome: 'moved',
      startsAt: iso(second),
      endsAt: iso(hoursLater(second, 6)),
    },
  ]);
  expect(await shown(whole)).toMatchObject({
    state: 'booked',
    startsAt: iso(first),
    places: [1, 2],
  });
  expect(await shown(next)).toMatchObject({ state: 'booked', startsAt: iso(second), places: [1] });
  expect(await shown(stays)).toMatchObject({ state: 'booked', startsAt: iso(later) });
  expect(await noticesOf(club.ada)).toEqual([
    {
      kind: 'booking.moved',
      subjectId: whole,
      details: {
        stationName: 'Cabinet',
        byName: expect.any(String) as string,
        reason: 'Repair',
        wasFrom: iso(ahead(3)),
        wasUntil: iso(hoursLater(ahead(3), 24)),
        startsAt: iso(first),
        endsAt: iso(second),
      },
    },
  ]);
  expect(await noticesOf(club.ben)).toMatchObject([{ kind: 'booking.moved', subjectId: next }]);
  const { body: audit } = await club.steward.get(`${club.path}/audit?subjectId=${whole}`);
  expect(audit.items).toContainEqual(
    expect.objectContaining({
      action: 'booking.moved',
      details: expect.objectContaining({ for: 'closure', closureId: body.id }) as object,
    }),
  );
});

test('two that trade places in time are moved all the same', async () => {
  // The second’s time is where the first goes.
  const first = await booked(club.ada, { places: 2, endsAt: hoursLater(ahead(3), 6) });
  const second = await booked(club.ben, {
    places: 2,
    startsAt: hoursLater(ahead(3), 6),
    endsAt: hoursLater(ahead(3), 12),
  });
  const short = { startsAt: ahead(3), endsAt: hoursLater(ahead(3), 7), reason: 'Cleaning' };

  await club.steward.post(closures, { ...short, bookings: 'move' }).expect(201);

  expect(await shown(first)).toMatchObject({ startsAt: iso(hoursLater(ahead(3), 7)) });
  expect(await shown(second)).toMatchObject({ startsAt: iso(hoursLater(ahead(3), 13)) });
});

test('a moved booking keeps to opening hours, other duties and duty windows', async () => {
  const adas = await booked(club.ada, {
    startsAt: ahead(3, 10),
    endsAt: ahead(3, 11),
  });
  await club.steward
    .post(`${club.path}/stations/${stationId}/duty-windows`, {
      duty: 'cool',
      startsAt: ahead(5, 10),
      endsAt: ahead(6),
    })
    .expect(201);
  await booked(club.ben, {
    duty: 'cool',
    minC: 10,
    maxC: 14,
    startsAt: ahead(6),
    endsAt: ahead(6, 20),
  });
  await club.steward.change(club.path, { timeZone: 'UTC' });
  await openOn(club, everyDay, 9 * 60, 12 * 60);

  const { body } = await club.steward.post(closures, { ...repair, bookings: 'move' }).expect(201);

  // Cooling ends at 20, the change takes two hours, and the room opens at 9.
  expect(body.bookings).toMatchObject([{ bookingId: adas, startsAt: iso(ahead(7, 9)) }]);
});

test('where there is no time for it within 60 days, it is cancelled', async () => {
  const adas = await booked(club.ada);
  const long = { startsAt: ahead(2), endsAt: ahead(120), reason: 'The roof leaks' };

  const { body } = await club.steward.post(closures, { ...long, bookings: 'move' }).expect(201);

  expect(body.bookings).toEqual([
    {
      bookingId: adas,
      memberId: club.ada.memberId,
      outcome: 'cancelled',
      startsAt: null,
      endsAt: null,
    },
  ]);
  expect((await shown(adas)).state).toBe('cancelled');
  expect(await noticesOf(club.ada)).toMatchObject([
    { kind: 'booking.cancelled', subjectId: adas, details: { startsAt: iso(ahead(3)) } },
  ]);
});

test('cancelled, their places are free again, and their holders are told', async () => {
  const adas = await booked(club.ada);
  const bens = await booked(club.ben);

  const { body } = await club.steward.post(closures, { ...repair, bookings: 'cancel' }).expect(201);

  expect(body.bookings.map(({ outcome }: { outcome: string }) => outcome)).toEqual([
    'cancelled',
    'cancelled',
  ]);
  expect([(await shown(adas)).state, (await shown(bens)).state]).toEqual([
    'cancelled',
    'cancelled',
  ]);
  expect(await noticesOf(club.ben)).toMatchObject([{ kind: 'booking.cancelled', subjectId: bens }]);
  await booked(club.ada, { endsAt: hoursLater(ahead(3), 2) });
});

test.each(['move', 'cancel'])(
  'a booking that has begun keeps its time up to the closure (%s)',
  async (how) => {
    const { body: running } = await club.steward
      .post(bookings, aWish(stationId, { startsAt: ahead(-1), memberId: club.ada.memberId }))
      .expect(201);

    const { body } = await club.steward.post(closures, { ...repair, bookings: how }).expect(201);

    const endsAt = iso(repair.startsAt);
    expect(body.bookings).toMatchObject([
      { bookingId: running.id, outcome: 'shortened', startsAt: running.startsAt, endsAt },
    ]);
    expect(await shown(String(running.id))).toMatchObject({ state: 'released', endsAt });
    expect(await noticesOf(club.ada)).toMatchObject([{ kind: 'booking.shortened' }]);
  },
);

test('what is only kept for somebody who waits is not moved', async () => {
  const adas = await booked(club.ada);
  const wish = await service.prisma.waitingWish.create({
    data: {
      clubId: club.clubId,
      memberId: club.ada.memberId,
      stationId,
      duty: 'warm',
      minDeciC: 400,
      maxDeciC: 450,
      places: 1,
      minutes: 1440,
      notBefore: ahead(2),
      notAfter: ahead(9),
      state: 'offered',
    },
  });
  await service.prisma.booking.update({
    where: { clubId_id: { clubId: club.clubId, id: adas } },
    data: { keptForId: wish.id, keptUntil: ahead(1) },
  });

  const { body } = await club.steward.post(closures, { ...repair, bookings: 'move' }).expect(201);
  expect(body.bookings).toMatchObject([{ bookingId: adas, outcome: 'cancelled' }]);
});

test('a closure over nothing says nothing of bookings; one that is told how in other words is refused', async () => {
  const { body } = await club.steward.post(closures, { ...repair, bookings: 'move' }).expect(201);
  expect(body).not.toHaveProperty('bookings');
  const wrong = await club.steward.post(closures, { ...repair, bookings: 'forget' }).expect(422);
  expect(wrong.body.errors[0].pointer).toBe('#/bookings');
});
