import { randomUUID } from 'node:crypto';
import { Database } from '../../src/platform/database';
import { sweepOffers } from '../../src/waiting/sweep-offers';
import { breaches } from '../support/checker';
import { toldTo } from '../support/notices';
import { aCabinet, ahead, aWaitingWish, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, aMember, type Actor, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let stationId: string;
let bookings: string;
let line: string;
let booked: string;

/** The cabinet's two places are the steward's for the day that everybody wants. */
beforeEach(async () => {
  club = await aClub(service);
  stationId = await aCabinet(club);
  bookings = `${club.path}/bookings`;
  line = `${club.path}/waiting-list`;
  const { body } = await club.steward.post(bookings, aWish(stationId, { places: 2 })).expect(201);
  booked = `${bookings}/${String(body.id)}`;
});

afterEach(async () => {
  expect(await breaches(service.database)).toEqual([]);
});

async function waits(actor: Actor, different: object = {}): Promise<string> {
  const { body } = await actor.post(line, aWaitingWish(stationId, different)).expect(201);
  return `${line}/${String(body.id)}`;
}

async function shown(wish: string): Promise<{ state: string; offer: Offer | null }> {
  const { body } = await club.steward.get(wish).expect(200);
  return body as { state: string; offer: Offer | null };
}

interface Offer {
  bookingId: string;
  startsAt: string;
  endsAt: string;
  places: number[];
  keptUntil: string | null;
}

function statesOf(wishes: string[]): Promise<string[]> {
  return Promise.all(wishes.map(async (wish) => (await shown(wish)).state));
}

const sweep = (at: Date) => sweepOffers(service.app.get(Database), at);

describe('waiting', () => {
  test('everybody sees who waits, in the order in which they asked', async () => {
    const adas = await waits(club.ada, { note: 'Lime, two pails' });
    const bens = await waits(club.ben, { places: 1 });

    const { body } = await club.ben.get(`${line}?stationId=${stationId}`).expect(200);

    expect(body.items.map(({ id }: { id: string }) => `${line}/${id}`)).toEqual([adas, bens]);
    expect(body.items[0]).toMatchObject({
      stationName: 'Cabinet',
      memberId: club.ada.memberId,
      places: 2,
      minutes: 1440,
      note: 'Lime, two pails',
      state: 'waiting',
      offer: null,
      endedAt: null,
    });
    const mine = await club.ben.get(`${line}?mine=true`).expect(200);
    expect(mine.body.items).toHaveLength(1);
    const elsewhere = await club.ben.get(`${line}?stationId=${randomUUID()}`).expect(200);
    expect(elsewhere.body.items).toEqual([]);
    await club.ben.get(`${line}/${randomUUID()}`).expect(404);
  });

  test('the line comes in pages', async () => {
    for (const actor of [club.ada, club.ben, club.ada]) await waits(actor);

    const first = await club.ada.get(`${line}?limit=2`).expect(200);
    const rest = await club.ada.get(`${line}?limit=2&cursor=${String(first.body.nextCursor)}`);

    expect([first.body.items.length, rest.body.items.length]).toEqual([2, 1]);
    expect(rest.body.nextCursor).toBeNull();
  });

  test('whoever need not wait is told so, and when it is free', async () => {
    const wide = { notAfter: hoursLater(ahead(3), 72).toISOString() };

    const { body } = await club.ada.post(line, aWaitingWish(stationId, wide)).expect(409);

    expect(body).toMatchObject({ type: '/problems/free-now' });
    const startsAt = new Date(body.freeTimes[0].firstStart as string);
    expect(startsAt).toEqual(hoursLater(ahead(3), 24));
    await club.ada
      .post(bookings, aWish(stationId, { places: 2, startsAt, endsAt: hoursLater(startsAt, 24) }))
      .expect(201);
    expect((await club.ada.get(line)).body.items).toEqual([]);
  });

  test.each([
    ['a station that there is not', { stationId: randomUUID() }, '#/stationId'],
    ['a duty that it does not have', { duty: 'bench' }, '#/duty'],
    ['temperatures that it does not hold', { minC: 60, maxC: 70 }, '#/minC'],
    ['temperatures the wrong way round', { minC: 45, maxC: 40 }, '#/maxC'],
    ['more places than it has', { places: 3 }, '#/places'],
    ['less time than it takes', { minutes: 1441 }, '#/notAfter'],
    ['a time that is past', { notBefore: ahead(-9), notAfter: ahead(-5) }, '#/notAfter'],
    ['more than 400 days', { notAfter: ahead(404) }, '#/notAfter'],
    ['half a minute', { notBefore: new Date(ahead(3).getTime() - 30_000) }, '#/notBefore'],
    ['a batch that there is not', { batchId: randomUUID() }, '#/batchId'],
  ])('cannot be for %s', async (_, different, pointer) => {
    const { body } = await club.ada.post(line, aWaitingWish(stationId, different)).expect(422);

    expect(body.errors[0].pointer).toBe(pointer);
  });
});

describe('what is freed', () => {
  test('is kept for the first who fits, who is told', async () => {
    const adas = await waits(club.ada);
    const bens = await waits(club.ben);

    await club.steward.remove(booked);

    const { state, offer } = await shown(adas);
    expect(state).toBe('offered');
    expect(offer).toMatchObject({ startsAt: ahead(3).toISOString(), places: [1, 2] });
    const minutesKept = (new Date(offer!.keptUntil!).getTime() - Date.now()) / 60_000;
    expect(minutesKept).toBeGreaterThan(718);
    expect(minutesKept).toBeLessThanOrEqual(720);
    expect((await shown(bens)).state).toBe('waiting');
    const kept = await club.ben.get(`${bookings}/${offer!.bookingId}`).expect(200);
    expect(kept.body).toMatchObject({
      state: 'kept',
      memberId: club.ada.memberId,
      keptUntil: offer!.keptUntil,
    });
    expect(await toldTo(service, club.ada.memberId)).toEqual([
      {
        kind: 'waiting.offered',
        subjectId: adas.split('/').at(-1),
        details: expect.objectContaining({ stationName: 'Cabinet', keptUntil: offer!.keptUntil }),
      },
    ]);
    const { body } = await club.ben.post(bookings, aWish(stationId)).expect(409);
    expect(body.type).toBe('/problems/place-taken');
  });

  test('is kept as long as the club says', async () => {
    await club.steward.change(club.path, { offerMinutes: 60 });
    const adas = await waits(club.ada);

    await club.steward.remove(booked);

    const { offer } = await shown(adas);
    expect(new Date(offer!.keptUntil!).getTime() - Date.now()).toBeLessThanOrEqual(60 * 60_000);
  });

  test('goes to one behind where the first does not fit', async () => {
    const [adas, bens] = [await waits(club.ada), await waits(club.ben, { places: 1 })];

    await club.steward.change(booked, { places: 1 });

    expect(await statesOf([adas, bens])).toEqual(['waiting', 'offered']);
  });

  test('goes to as many as it is enough for', async () => {
    const wishes = [
      await waits(club.ada, { places: 1 }),
      await waits(club.ben, { places: 1 }),
      await waits(club.ada, { places: 1 }),
    ];

    await club.steward.remove(booked);

    expect(await statesOf(wishes)).toEqual(['offered', 'offered', 'waiting']);
  });

  test.each([
    [
      'a booking is shortened',
      () => club.steward.change(booked, { endsAt: hoursLater(ahead(3), 4) }),
    ],
    [
      'a booking is moved',
      () => club.steward.change(booked, { startsAt: ahead(9), endsAt: ahead(10) }),
    ],
    [
      'a booking is moved to another station',
      async () => {
        const { body } = await club.steward.post(`${club.path}/stations`, {
          name: 'Second cabinet',
          placeLoadKg: 30,
          changeoverMinutes: 0,
          duties: [{ duty: 'warm', minC: 30, maxC: 55 }],
          places: 2,
        });
        return club.steward.change(booked, { stationId: body.id as string });
      },
    ],
    [
      'the station is enlarged',
      () => club.steward.change(`${club.path}/stations/${stationId}`, { places: 4 }),
    ],
  ])('is offered when %s', async (_, free: () => Promise<{ status: number }>) => {
    const wish = await waits(club.ada, { minutes: 20 * 60 });

    expect((await free()).status).toBe(200);

    expect((await shown(wish)).state).toBe('offered');
  });

  test('is offered when a closure is shortened, and when it is taken away', async () => {
    const closures = `${club.path}/stations/${stationId}/closures`;
    const { body } = await club.steward
      .post(closures, { startsAt: ahead(20), endsAt: ahead(24), reason: 'Repair' })
      .expect(201);
    const during = (day: number) => ({ notBefore: ahead(day), notAfter: ahead(day + 1) });
    const [early, late] = [await waits(club.ada, during(20)), await waits(club.ben, during(23))];

    await club.steward.change(`${closures}/${String(body.id)}`, { endsAt: ahead(23) });
    expect(await statesOf([early, late])).toEqual(['waiting', 'offered']);

    await club.steward.remove(`${closures}/${String(body.id)}`);
    expect(await statesOf([early, late])).toEqual(['offered', 'offered']);
  });

  test('is offered when a duty window is shortened, and when it is taken away', async () => {
    const windows = `${club.path}/stations/${stationId}/duty-windows`;
    const { body } = await club.steward
      .post(windows, { startsAt: ahead(20), endsAt: ahead(24), duty: 'cool' })
      .expect(201);
    const during = (day: number) => ({ notBefore: ahead(day), notAfter: ahead(day + 1) });
    const [early, late] = [await waits(club.ada, during(20)), await waits(club.ben, during(23))];

    await club.steward.change(`${windows}/${String(body.id)}`, { endsAt: ahead(23) });
    expect(await statesOf([early, late])).toEqual(['waiting', 'offered']);

    await club.steward.remove(`${windows}/${String(body.id)}`);
    expect(await statesOf([early, late])).toEqual(['offered', 'offered']);
  });

  test('is offered when a running booking is released', async () => {
    const running = { startsAt: ahead(-1), endsAt: ahead(3), places: 2 };
    const { body } = await club.steward.post(bookings, aWish(stationId, running)).expect(201);
    const wish = await waits(club.ada, { notBefore: ahead(0), notAfter: ahead(3) });

    await club.steward.post(`${bookings}/${String(body.id)}/release`).expect(200);

    const { state, offer } = await shown(wish);
    expect(state).toBe('offered');
    expect(new Date(offer!.startsAt).getTime() % 60_000).toBe(0);
  });

  test('is offered for what is left when the club cancels a booking for a closure', async () => {
    const wish = await waits(club.ada, { minutes: 12 * 60 });

    await club.steward
      .post(`${club.path}/stations/${stationId}/closures`, {
        startsAt: ahead(3),
        endsAt: ahead(3, 14),
        reason: 'Repair',
        bookings: 'cancel',
      })
      .expect(201);

    expect((await shown(wish)).offer?.startsAt).toBe(ahead(3, 14).toISOString());
  });

  test('is not offered to somebody who has left the club', async () => {
    const gone = await aMember(service, club.clubId, 'member');
    const wishes = [await waits(gone), await waits(club.ben)];
    await service.prisma.member.updateMany({
      where: { id: gone.memberId },
      data: { leftAt: new Date() },
    });

    await club.steward.remove(booked);

    expect(await statesOf(wishes)).toEqual(['waiting', 'offered']);
  });
});

describe('an offer', () => {
  let adas: string;
  let bens: string;
  let kept: string;

  beforeEach(async () => {
    [adas, bens] = [await waits(club.ada), await waits(club.ben)];
    await club.steward.remove(booked);
    kept = `${bookings}/${(await shown(adas)).offer!.bookingId}`;
  });

  const deadline = async () => new Date((await shown(adas)).offer!.keptUntil!);

  test('is taken: the booking is the member’s own', async () => {
    const { body } = await club.ada.post(`${adas}/acceptance`).expect(200);

    expect(body).toMatchObject({ state: 'taken', offer: { keptUntil: null } });
    const booking = await club.ada.get(kept).expect(200);
    expect(booking.body).toMatchObject({ state: 'booked', keptUntil: null });
    await sweep(hoursLater(new Date(), 48));
    expect((await club.ada.get(kept)).body.state).toBe('booked');
    expect((await club.ada.change(kept, { places: 1 })).status).toBe(200);
  });

  test('is taken once', async () => {
    await club.ada.post(`${adas}/acceptance`).expect(200);

    const again = await club.ada.post(`${adas}/acceptance`).expect(409);
    expect(again.body).toMatchObject({ type: '/problems/nothing-offered' });
    const late = await club.ada.remove(adas);
    expect([late.status, late.body.type]).toEqual([409, '/problems/wish-over']);
    const nothingYet = await club.ben.post(`${bens}/acceptance`).expect(409);
    expect(nothingYet.body.detail).toMatch(/Nothing that fits/);
  });

  test('beyond a fair share is not taken, and stays offered', async () => {
    await club.steward.change(club.path, { placeDaysAhead: 1 });

    const { body } = await club.ada.post(`${adas}/acceptance`).expect(409);

    expect(body).toMatchObject({ type: '/problems/fair-share', neededPlaceDays: 2 });
    expect(await statesOf([adas, bens])).toEqual(['offered', 'waiting']);
  });

  test('is its member’s, or a steward’s to act upon', async () => {
    const theirs = await club.ben.post(`${adas}/acceptance`).expect(403);
    expect(theirs.body.type).toBe('/problems/not-yours');
    expect((await club.ben.remove(adas)).status).toBe(403);
    await club.steward.post(`${adas}/acceptance`).expect(200);
  });

  test.each([
    ['the wish is withdrawn', () => club.ada.remove(adas)],
    ['the kept booking is cancelled', () => club.ada.remove(kept)],
  ])('goes to the next in line when %s', async (_, giveUp) => {
    expect((await giveUp()).status).toBe(204);

    expect(await statesOf([adas, bens])).toEqual(['withdrawn', 'offered']);
    expect((await club.ada.get(kept)).body.state).toBe('cancelled');
    const open = await club.ada.get(line);
    expect(open.body.items).toHaveLength(1);
    expect((await club.ada.get(`${line}?withEnded=true`)).body.items).toHaveLength(2);
  });

  test('goes to the next in line when nobody takes it in time', async () => {
    await sweep(new Date((await deadline()).getTime() - 1));
    expect(await statesOf([adas, bens])).toEqual(['offered', 'waiting']);

    await sweep(await deadline());

    expect(await statesOf([adas, bens])).toEqual(['lapsed', 'offered']);
    const told = await toldTo(service, club.ada.memberId);
    expect(told.map(({ kind }) => kind)).toEqual(['waiting.offered', 'waiting.lapsed']);
    const late = await club.ada.post(`${adas}/acceptance`).expect(409);
    expect(late.body.detail).toMatch(/over/);
  });

  test('that is past its deadline never stands in the way, even before anybody swept', async () => {
    await club.ben.remove(bens);
    await service.prisma.booking.updateMany({
      where: { keptForId: adas.split('/').at(-1)! },
      data: { keptUntil: new Date(Date.now() - 1000) },
    });
    const late = await club.ada.post(`${adas}/acceptance`).expect(409);
    expect(late.body.type).toBe('/problems/nothing-offered');

    await club.ben.post(bookings, aWish(stationId, { places: 2 })).expect(201);

    expect((await shown(adas)).state).toBe('lapsed');
  });

  test('is taken before it is changed', async () => {
    const { status, body } = await club.ada.change(kept, { places: 1 });

    expect([status, body.type]).toEqual([409, '/problems/offer-open']);
    expect(`${line}/${String(body.waitingWishId)}`).toBe(adas);
  });

  test('that the club has to cancel puts its member back where they stood in the line', async () => {
    const closures = `${club.path}/stations/${stationId}/closures`;
    const { body } = await club.steward
      .post(closures, {
        startsAt: ahead(3),
        endsAt: ahead(4),
        reason: 'Repair',
        bookings: 'cancel',
      })
      .expect(201);
    expect(await statesOf([adas, bens])).toEqual(['waiting', 'waiting']);
    const told = await toldTo(service, club.ada.memberId);
    expect(told.map(({ kind }) => kind)).toEqual(['waiting.offered', 'waiting.offer-cancelled']);

    await club.steward.remove(`${closures}/${String(body.id)}`);

    expect(await statesOf([adas, bens])).toEqual(['offered', 'waiting']);
  });

  test('a steward who withdraws somebody’s wish lets them know', async () => {
    expect((await club.steward.remove(adas)).status).toBe(204);

    const told = await toldTo(service, club.ada.memberId);
    expect(told.map(({ kind }) => kind)).toEqual(['waiting.offered', 'waiting.withdrawn']);
  });
});

test('a wish whose time is over ends by itself, and its member is told', async () => {
  const wish = await waits(club.ada);

  await sweep(hoursLater(ahead(3), -1));
  expect((await shown(wish)).state).toBe('waiting');
  await sweep(hoursLater(ahead(3), 1));

  expect((await shown(wish)).state).toBe('lapsed');
  expect(await toldTo(service, club.ada.memberId)).toMatchObject([{ kind: 'waiting.lapsed' }]);
});

test('the sweep finds what became free without anybody’s saying so', async () => {
  const wish = await waits(club.ada);
  await service.database.query(
    'update booking set active = false, cancelled_at = now() where station_id = $1',
    [stationId],
  );

  await sweep(new Date());

  expect((await shown(wish)).state).toBe('offered');
});
