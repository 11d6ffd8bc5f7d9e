import { randomUUID } from 'node:crypto';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let stationId: string;
let bookings: string;

beforeEach(async () => {
  club = await aClub(service);
  stationId = await aCabinet(club);
  bookings = `${club.path}/bookings`;
});

describe('booking', () => {
  test('a member books a place, and the service picks which', async () => {
    const { body, headers } = await club.ada.post(bookings, aWish(stationId)).expect(201);

    expect(body).toMatchObject({
      stationName: 'Cabinet',
      memberId: club.ada.memberId,
      places: [1],
      state: 'booked',
    });
    expect(headers['location']).toBe(`/api/v1${bookings}/${body.id}`);
    const shown = await club.ben.get(`${bookings}/${body.id}`).expect(200);
    expect(shown.body).toEqual(body);
    expect(shown.headers['etag']).toBe(headers['etag']);
  });

  test('several places are booked together', async () => {
    const { body } = await club.ada.post(bookings, aWish(stationId, { places: 2 })).expect(201);

    expect(body.places).toEqual([1, 2]);
  });

  test('a booking may start the minute another ends', async () => {
    const start = ahead(3);
    await club.ada.post(bookings, aWish(stationId, { places: 2 })).expect(201);

    await club.ben
      .post(
        bookings,
        aWish(stationId, {
          places: 2,
          startsAt: hoursLater(start, 24),
          endsAt: hoursLater(start, 30),
        }),
      )
      .expect(201);
  });

  test('when too few places are free nothing is booked, and the next free times are told', async () => {
    await club.ada.post(bookings, aWish(stationId)).expect(201);

    const { body } = await club.ben.post(bookings, aWish(stationId, { places: 2 })).expect(409);

    expect(body).toMatchObject({ type: '/problems/place-taken' });
    expect(body.detail).toMatch(/Of 2 places in Cabinet, 1 are free/);
    const [first] = body.freeTimes;
    expect(first.firstStart).toBe(hoursLater(ahead(3), 24).toISOString());
    const startsAt = new Date(first.firstStart as string);
    await club.ben
      .post(bookings, aWish(stationId, { places: 2, startsAt, endsAt: hoursLater(startsAt, 24) }))
      .expect(201);
    expect(await service.prisma.booking.count({ where: { clubId: club.clubId } })).toBe(2);
  });

  test('a cabinet never warms and cools at once, and takes its time to change over', async () => {
    const end = hoursLater(ahead(3), 24);
    await club.ada.post(bookings, aWish(stationId)).expect(201);
    const cool = { duty: 'cool', minC: 10, maxC: 14 };

    const soon = { ...cool, startsAt: hoursLater(end, 1), endsAt: hoursLater(end, 48) };
    const { body } = await club.ben.post(bookings, aWish(stationId, soon)).expect(409);
    expect(body).toMatchObject({ type: '/problems/other-duty' });
    expect(body.freeTimes[0].firstStart).toBe(hoursLater(end, 2).toISOString());

    const later = { ...cool, startsAt: hoursLater(end, 2), endsAt: hoursLater(end, 48) };
    await club.ben.post(bookings, aWish(stationId, later)).expect(201);
  });

  test('two who want different temperatures do not share a cabinet', async () => {
    await club.ada.post(bookings, aWish(stationId, { minC: 38, maxC: 40 })).expect(201);

    const { body } = await club.ben
      .post(bookings, aWish(stationId, { minC: 45, maxC: 50 }))
      .expect(409);
    expect(body).toMatchObject({ type: '/problems/temperature-clash' });

    await club.ben.post(bookings, aWish(stationId, { minC: 40, maxC: 50 })).expect(201);
  });

  test('a closed station is not booked', async () => {
    await club.steward
      .post(`${club.path}/stations/${stationId}/closures`, {
        startsAt: ahead(3, 10),
        endsAt: ahead(3, 12),
        reason: 'Cleaning',
      })
      .expect(201);

    const { body } = await club.ada.post(bookings, aWish(stationId)).expect(409);

    expect(body).toMatchObject({ type: '/problems/station-closed' });
    expect(body.detail).toMatch(/Cleaning/);
    expect(body.freeTimes[0].firstStart).toBe(ahead(3, 12).toISOString());
  });

  test('a load heavier than the places bear is refused with the number that bears it', async () => {
    const { body } = await club.ada.post(bookings, aWish(stationId, { loadKg: 55 })).expect(409);

    expect(body).toMatchObject({ type: '/problems/place-overloaded', places: 2 });
    await club.ada.post(bookings, aWish(stationId, { loadKg: 55, places: 2 })).expect(201);
  });

  test.each([
    ['endsAt', { endsAt: ahead(3, 7) }, '#/endsAt'],
    ['a long booking', { endsAt: ahead(200) }, '#/endsAt'],
    [
      'a start within a minute',
      { startsAt: `${ahead(3).toISOString().slice(0, 17)}30Z` },
      '#/startsAt',
    ],
    ['a start in the past', { startsAt: ahead(-2) }, '#/startsAt'],
    ['a time without offset', { startsAt: '2027-01-01T09:00' }, '#/startsAt'],
    ['an impossible day', { startsAt: '2027-02-30T09:00:00Z' }, '#/startsAt'],
    ['a band upside down', { minC: 45, maxC: 40 }, '#/maxC'],
    ['a duty it has not', { duty: 'bench' }, '#/duty'],
    ['a temperature it never reaches', { minC: 60, maxC: 62 }, '#/minC'],
    ['more places than there are', { places: 3 }, '#/places'],
    ['no place', { places: 0 }, '#/places'],
    ['half a place', { places: 1.5 }, '#/places'],
    ['text for a number', { places: '1' }, '#/places'],
    ['a station of nobody', { stationId: randomUUID() }, '#/stationId'],
    ['a batch of nobody', { batchId: randomUUID() }, '#/batchId'],
    ['an unknown field', { colour: 'blue' }, '#/colour'],
    ['null', { minC: null }, '#/minC'],
    ['an unreadable character', { note: 'a\u0000b' }, '#/note'],
  ])('%s is refused with its place, and nothing changes', async (_, different, pointer) => {
    const { body } = await club.ada.post(bookings, aWish(stationId, different)).expect(422);

    expect(body).toMatchObject({ type: '/problems/invalid' });
    expect(body.errors.map((fault: { pointer: string }) => fault.pointer)).toContain(pointer);
    expect(await service.prisma.booking.count({ where: { clubId: club.clubId } })).toBe(0);
  });

  test('only a steward books for another, or enters past times from the paper diary', async () => {
    const forBen = { memberId: club.ben.memberId };
    const { body } = await club.ada.post(bookings, aWish(stationId, forBen)).expect(403);
    expect(body).toMatchObject({ type: '/problems/not-yours' });

    const past = { ...forBen, startsAt: ahead(-9), endsAt: ahead(-8) };
    const made = await club.steward.post(bookings, aWish(stationId, past)).expect(201);
    expect(made.body).toMatchObject({ memberId: club.ben.memberId });

    const strange = aWish(stationId, { memberId: randomUUID() });
    await club.steward.post(bookings, strange).expect(422);
  });

  test('a booking names a batch of its own holder', async () => {
    const batch = await service.prisma.batch.create({
      data: { clubId: club.clubId, name: 'Lime', memberId: club.ada.memberId },
    });
    const wish = aWish(stationId, { batchId: batch.id });

    const { body } = await club.ben.post(bookings, wish).expect(422);
    expect(body.errors[0].pointer).toBe('#/batchId');
    const forAda = { ...wish, memberId: club.ada.memberId };
    const made = await club.steward.post(bookings, forAda).expect(201);
    expect(made.body).toMatchObject({ batchId: batch.id });
    const list = await club.ben.get(`${bookings}?batchId=${batch.id}`).expect(200);
    expect(list.body.items).toEqual([made.body]);
  });

  test('a station of another club does not exist here', async () => {
    const other = await aClub(service);

    const { body } = await other.ada.post(`${other.path}/bookings`, aWish(stationId)).expect(422);
    expect(body.errors[0].pointer).toBe('#/stationId');
    await other.ada.get(bookings).expect(404);
  });

  test('the same booking sent again with its key is made once', async () => {
    const send = () => club.ada.post(bookings, aWish(stationId)).set('Idempotency-Key', '"pail-7"');

    const first = await send().expect(201);
    const second = await send().expect(201);

    expect(second.body).toEqual(first.body);
    expect(second.headers['idempotent-replayed']).toBe('true');
    expect(second.headers['location']).toBe(first.headers['location']);
    expect(await service.prisma.booking.count({ where: { clubId: club.clubId } })).toBe(1);
    await club.ada
      .post(bookings, aWish(stationId, { places: 2 }))
      .set('Idempotency-Key', '"pail-7"')
      .expect(422);
  });

  test('a refusal is repeated, too, though the place is free by then', async () => {
    const ours = await club.ada.post(bookings, aWish(stationId, { places: 2 })).expect(201);
    const key = randomUUID();
    const first = await club.ben
      .post(bookings, aWish(stationId))
      .set('Idempotency-Key', key)
      .expect(409);
    await club.ada.remove(`${bookings}/${ours.body.id}`);

    const second = await club.ben
      .post(bookings, aWish(stationId))
      .set('Idempotency-Key', key)
      .expect(409);

    expect(second.body).toEqual(first.body);
    await club.ben
      .post(bookings, aWish(stationId))
      .set('Idempotency-Key', randomUUID())
      .expect(201);
  });
});

describe('moving', () => {
  let id: string;
  let one: string;

  beforeEach(async () => {
    const { body } = await club.ada.post(bookings, aWish(stationId)).expect(201);
    id = body.id as string;
    one = `${bookings}/${id}`;
  });

  test('a booking moves in time, band and places at once', async () => {
    await club.ben.post(
      bookings,
      aWish(stationId, { startsAt: ahead(9), endsAt: ahead(10), minC: 30, maxC: 35 }),
    );

    const { status, body } = await club.ada.change(one, {
      startsAt: ahead(9, 20),
      endsAt: ahead(11),
      minC: 33,
      maxC: 36,
    });

    expect([status, body]).toMatchObject([
      200,
      { startsAt: ahead(9, 20).toISOString(), minC: 33, maxC: 36, places: [2] },
    ]);
  });

  test('a booking moves to another station', async () => {
    const { body: room } = await club.steward.post(`${club.path}/stations`, {
      name: 'Second cabinet',
      placeLoadKg: 30,
      changeoverMinutes: 0,
      duties: [{ duty: 'warm', minC: 30, maxC: 50 }],
      places: 5,
    });

    const { body } = await club.ada.change(one, { stationId: room.id, places: 4 });

    expect(body).toMatchObject({ stationName: 'Second cabinet', places: [1, 2, 3, 4] });
  });

  test('a move into taken time is refused and the booking stays', async () => {
    await club.ben
      .post(bookings, aWish(stationId, { startsAt: ahead(5), endsAt: ahead(6), places: 2 }))
      .expect(201);
    const before = await club.ada.get(one);

    const { status, body } = await club.ada.change(one, { startsAt: ahead(5), endsAt: ahead(6) });

    expect([status, body.type]).toEqual([409, '/problems/place-taken']);
    expect((await club.ada.get(one)).body).toEqual(before.body);
  });

  test.each([
    ['other-duty', { startsAt: ahead(6), endsAt: ahead(7) }],
    ['temperature-clash', { minC: 50, maxC: 52, startsAt: ahead(8), endsAt: ahead(9) }],
    ['station-closed', { startsAt: ahead(12), endsAt: ahead(13) }],
  ])('a move is refused for %s', async (code, change) => {
    await club.ben
      .post(
        bookings,
        aWish(stationId, { duty: 'cool', minC: 9, maxC: 12, startsAt: ahead(6), endsAt: ahead(7) }),
      )
      .expect(201);
    await club.ben
      .post(bookings, aWish(stationId, { startsAt: ahead(8), endsAt: ahead(9) }))
      .expect(201);
    await club.steward
      .post(`${club.path}/stations/${stationId}/closures`, {
        startsAt: ahead(12),
        endsAt: ahead(13),
        reason: 'Repair',
      })
      .expect(201);

    const { status, body } = await club.ada.change(one, change);

    expect([status, body.type]).toEqual([409, `/problems/${code}`]);
  });

  test('of fifty who change one booking after reading it, one succeeds', async () => {
    const { headers } = await club.ada.get(one);

    const answers = await Promise.all(
      Array.from({ length: 50 }, (_, index) =>
        club.ada.patch(one, { note: `try ${index}` }).set('If-Match', String(headers['etag'])),
      ),
    );

    const statuses = answers.map(({ status }) => status).sort();
    expect(statuses).toEqual([200, ...Array.from({ length: 49 }, () => 412)]);
  });

  test('a change without If-Match is refused', async () => {
    await club.ada.patch(one, { note: 'x' }).expect(428);
    await club.ada.delete(one).expect(428);
  });

  test('another member neither moves, cancels nor releases it; a steward may', async () => {
    expect((await club.ben.change(one, { note: 'x' })).body.type).toBe('/problems/not-yours');
    expect((await club.ben.remove(one)).body.type).toBe('/problems/not-yours');
    await club.ben.post(`${one}/release`).expect(403);

    expect((await club.steward.change(one, { note: 'moved for you' })).status).toBe(200);
  });

  test('a cancelled booking frees its places, and is over', async () => {
    expect((await club.ada.remove(one)).status).toBe(204);

    await club.ben.post(bookings, aWish(stationId, { places: 2 })).expect(201);
    expect((await club.ada.get(one)).body).toMatchObject({ state: 'cancelled' });
    expect((await club.ada.change(one, { note: 'x' })).body.type).toBe('/problems/booking-over');
    expect((await club.ada.remove(one)).body.type).toBe('/problems/booking-over');
    await club.ada.post(`${one}/release`).expect(409);
  });

  test('one that has not begun is cancelled, not released', async () => {
    const { body } = await club.ada.post(`${one}/release`).expect(409);

    expect(body).toMatchObject({ type: '/problems/booking-ahead' });
  });
});

describe('a running booking', () => {
  let one: string;

  beforeEach(async () => {
    const running = {
      startsAt: ahead(-1),
      endsAt: ahead(4),
      places: 2,
      memberId: club.ada.memberId,
    };
    const { body } = await club.steward.post(bookings, aWish(stationId, running)).expect(201);
    one = `${bookings}/${body.id}`;
  });

  test('released early, it frees the rest of its time at once', async () => {
    await club.ben.post(bookings, aWish(stationId)).expect(409);

    const { body } = await club.ada.post(`${one}/release`).expect(200);

    expect(body).toMatchObject({ state: 'released' });
    expect(new Date(body.endsAt as string).getTime()).toBeLessThanOrEqual(Date.now());
    await club.ben.post(bookings, aWish(stationId)).expect(201);
    await club.ada.post(`${one}/release`).expect(409);
  });

  test('its end can be moved, its start cannot', async () => {
    expect((await club.ada.change(one, { endsAt: ahead(6) })).status).toBe(200);
    expect((await club.ada.change(one, { startsAt: ahead(1) })).body.type).toBe(
      '/problems/booking-begun',
    );
    expect((await club.ada.remove(one)).body.type).toBe('/problems/booking-begun');
    expect((await club.ada.change(one, { endsAt: ahead(-1, 23) })).body.errors[0].pointer).toBe(
      '#/endsAt',
    );
  });
});

describe('the list', () => {
  test('is in order of start, in pages, and filtered', async () => {
    for (const day of [9, 5, 7]) {
      await club.ada
        .post(bookings, aWish(stationId, { startsAt: ahead(day), endsAt: ahead(day, 20) }))
        .expect(201);
    }

    const first = await club.ben.get(`${bookings}?limit=2`).expect(200);
    expect(first.body.items.map((item: { startsAt: string }) => item.startsAt)).toEqual([
      ahead(5).toISOString(),
      ahead(7).toISOString(),
    ]);
    const next = /^<\/api\/v1(.*)>; rel="next"$/.exec(String(first.headers['link']))?.[1] ?? '';
    const second = await club.ben.get(next).expect(200);
    expect(second.body.items).toHaveLength(1);
    expect(second.body.nextCursor).toBeNull();

    const from = encodeURIComponent(ahead(6).toISOString());
    const to = encodeURIComponent(ahead(8).toISOString());
    const some = await club.ben.get(`${bookings}?from=${from}&to=${to}&stationId=${stationId}`);
    expect(some.body.items).toHaveLength(1);
    const none = await club.ben.get(`${bookings}?memberId=${club.ben.memberId}`);
    expect(none.body.items).toHaveLength(0);
  });

  test('shows cancelled ones only when asked', async () => {
    const { body } = await club.ada.post(bookings, aWish(stationId)).expect(201);
    await club.ada.remove(`${bookings}/${body.id}`);

    expect((await club.ada.get(bookings)).body.items).toHaveLength(0);
    expect((await club.ada.get(`${bookings}?withCancelled=true`)).body.items).toHaveLength(1);
    await club.ada.get(`${bookings}?withCancelled=1`).expect(422);
  });

  test.each(['limit=0', 'limit=-1', 'limit=1e3', 'limit=1&limit=2', 'limit=x'])(
    'refuses %s',
    async (query) => {
      const { body } = await club.ada.get(`${bookings}?${query}`).expect(422);
      expect(body.errors[0].parameter).toBe('limit');
    },
  );

  test('takes a giant limit as the greatest', async () => {
    await club.ada.get(`${bookings}?limit=1000000000`).expect(200);
  });

  test('refuses a cursor that it did not give', async () => {
    for (const day of [5, 7]) {
      await club.ada.post(
        bookings,
        aWish(stationId, { startsAt: ahead(day), endsAt: ahead(day, 20) }),
      );
    }
    const { body } = await club.ada.get(`${bookings}?limit=1`);
    const cursor = String(body.nextCursor);

    await club.ada.get(`${bookings}?limit=1&cursor=${cursor}x`).expect(400);
    await club.ada.get(`${bookings}?cursor=nonsense`).expect(400);
    await club.ada.get(`${bookings}?stationId=${stationId}&cursor=${cursor}`).expect(400);
    const other = await aClub(service);
    await other.ada.get(`${other.path}/bookings?cursor=${cursor}`).expect(400);
  });
});
