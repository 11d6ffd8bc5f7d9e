import { toldTo } from '../support/notices';
import { aPlan, aPlanRoom, aPlanWish } from '../support/plan-room';
import { aCabinet, ahead, aWaitingWish, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let cabinet: string;
let station: string;
let bookings: string;

beforeEach(async () => {
  club = await aClub(service);
  cabinet = await aCabinet(club, 4);
  station = `${club.path}/stations/${cabinet}`;
  bookings = `${club.path}/bookings`;
});

const end = hoursLater(ahead(3), 24);
const cooling = { duty: 'cool', minC: 10, maxC: 14 };

async function books(who: Actor, different: object = {}): Promise<string> {
  const { body } = await who.post(bookings, aWish(cabinet, different)).expect(201);
  return String(body.id);
}

const changes = (change: object) => club.steward.change(station, change);

/** Places by their numbers, in use and out of use. */
async function placesOnRecord(): Promise<{ number: number; isInUse: boolean }[]> {
  const places = await service.prisma.place.findMany({
    where: { clubId: club.clubId, stationId: cabinet },
    orderBy: { number: 'asc' },
  });
  return places.map(({ number, retiredAt }) => ({ number, isInUse: retiredAt === null }));
}

/** A booking that is over, entered from the paper diary, on that many places. */
async function wasHere(different: object = {}): Promise<string> {
  return books(club.steward, {
    startsAt: ahead(-3),
    endsAt: ahead(-2),
    memberId: club.ada.memberId,
    ...different,
  });
}

/** Honey of Ada's that stands on all places past its time. */
async function overstays(): Promise<string> {
  const id = await wasHere({ places: 4 });
  await service.prisma.booking.updateMany({ where: { id }, data: { arrivedAt: ahead(-3, 9) } });
  return id;
}

test('a steward changes name, load and changeover; a member may not', async () => {
  const { body } = await changes({ name: 'Oak', placeLoadKg: 25.5, changeoverMinutes: 0 });

  expect(body).toMatchObject({ name: 'Oak', placeLoadKg: 25.5, changeoverMinutes: 0, places: 4 });
  expect((await club.ada.get(station)).body).toEqual(body);
  expect((await club.ada.change(station, { name: 'Elm' })).status).toBe(403);
  await club.steward.post(`${club.path}/stations`, { ...body, ...forSetUp, name: 'Elm' });
  expect((await changes({ name: 'Elm' })).body.type).toBe('/problems/duplicate');
});

const forSetUp = { id: undefined, retiredAt: undefined };

test('the history tells what was changed, as it was and as it is', async () => {
  await changes({ places: 5, name: 'Cabinet' });

  const { body } = await club.steward.get(`${club.path}/audit`).expect(200);
  expect(body.items[0]).toMatchObject({
    action: 'station.changed',
    subjectId: cabinet,
    details: { from: { places: 4 }, to: { places: 5 } },
  });
});

describe('the number of places', () => {
  test('grows and shrinks; the highest numbers go, stay on record, and come back', async () => {
    expect((await changes({ places: 6 })).body.places).toBe(6);
    expect((await changes({ places: 2 })).body.places).toBe(2);

    expect((await placesOnRecord()).map(({ isInUse }) => isInUse)).toEqual([
      true,
      true,
      false,
      false,
      false,
      false,
    ]);
    expect((await changes({ places: 3 })).body.places).toBe(3);
    expect(await placesOnRecord()).toHaveLength(6);
    expect((await changes({ places: 0 })).body.errors[0].pointer).toBe('#/places');
    expect((await changes({ places: 201 })).body.errors[0].pointer).toBe('#/places');
  });

  test('fewer are free at once, everywhere where places are looked for', async () => {
    await changes({ places: 2 });

    const span = `from=${ahead(2).toISOString()}&to=${ahead(8).toISOString()}&minutes=600&duty=warm&minC=40&maxC=42`;
    const { body } = await club.ada.get(`${station}/free?${span}&places=1`).expect(200);
    expect(body.items[0].freePlaces).toBe(2);
    const refused = await club.ada.post(bookings, aWish(cabinet, { places: 3 })).expect(422);
    expect(refused.body).toMatchObject({
      detail: 'Cabinet has 2 places.',
      errors: [{ pointer: '#/places' }],
    });
    await books(club.ada, { places: 2 });
    const { body: full } = await club.ben.post(bookings, aWish(cabinet)).expect(409);
    expect(full.detail).toContain('Of 2 places in Cabinet, 0 are free');
  });

  test('a place that is booked ahead stays: who needs it is named, and from when on it could go', async () => {
    await books(club.ada, { places: 2 });
    const second = await books(club.ben, { places: 1 });
    const third = await books(club.ben, { startsAt: end, endsAt: hoursLater(end, 48), places: 3 });

    const { status, body } = await changes({ places: 2 });

    expect(status).toBe(409);
    expect(body).toMatchObject({
      type: '/problems/still-needed',
      errors: [{ pointer: '#/places' }],
      bookings: [second, third],
      worksFrom: hoursLater(end, 48).toISOString(),
      uncleared: [],
      places: 3,
    });
    expect(body.detail).toContain(`2 bookings need places from 3 on of Cabinet.`);
    expect((await club.ada.get(station)).body.places).toBe(4);
    expect((await changes({ places: body.places })).status).toBe(200);
  });

  test('with otherPlaces, bookings ahead get others at their own times, and their holders are told', async () => {
    const ada = await books(club.ada, { places: 3 });
    const ben = await books(club.ben);
    await club.ada.change(`${bookings}/${ada}`, { places: 1 });

    const refused = await changes({ places: 2 });
    expect(refused.body).toMatchObject({
      type: '/problems/still-needed',
      ifOtherPlaces: [{ bookingId: ben, memberId: club.ben.memberId, places: [2] }],
      detail: expect.stringContaining('otherPlaces: true') as unknown,
    });
    expect((await changes({ places: 2, otherPlaces: true })).body.places).toBe(2);

    expect((await club.ben.get(`${bookings}/${ben}`)).body).toMatchObject({
      places: [2],
      startsAt: ahead(3).toISOString(),
      endsAt: end.toISOString(),
    });
    expect(await toldTo(service, club.ben.memberId)).toMatchObject([
      { kind: 'booking.moved', subjectId: ben, details: { places: '2', stationName: 'Cabinet' } },
    ]);
    const { body: told } = await club.ben.get(`${club.path}/notices`).expect(200);
    expect(told.items[0].text).toContain('Its places there: 2.');
  });

  test('of two that go at once, one may get what the other leaves', async () => {
    await changes({ places: 5 });
    const first = await books(club.ada);
    const second = await books(club.ben, { places: 2 });
    const next = await books(club.ben, { startsAt: end, endsAt: hoursLater(end, 24) });
    // Place 2 is what the first would choose: between others. The second leaves it.
    await put(first, [4]);
    await put(second, [2, 5]);
    await put(next, [2]);

    expect((await changes({ places: 3, otherPlaces: true })).status).toBe(200);

    const placesOf = async (id: string) =>
      (await club.ada.get(`${bookings}/${id}`).expect(200)).body.places as number[];
    const [one, both] = [await placesOf(first), await placesOf(second)];
    expect([...one, ...both].sort()).toEqual([1, 2, 3]);
    expect(one).toEqual([2]);
  });

  /** Puts a booking on places by hand. */
  async function put(bookingId: string, numbers: number[]): Promise<void> {
    const places = await service.prisma.place.findMany({
      where: { clubId: club.clubId, stationId: cabinet, number: { in: numbers } },
    });
    const held = await service.prisma.bookingPlace.findFirstOrThrow({ where: { bookingId } });
    await service.prisma.bookingPlace.deleteMany({ where: { bookingId } });
    await service.prisma.bookingPlace.createMany({
      data: places.map(({ id }) => ({ ...held, placeId: id })),
    });
  }

  test('what has begun keeps its place, whatever is sent', async () => {
    const id = await books(club.steward, { places: 4, startsAt: ahead(-1), endsAt: ahead(1) });

    const { body } = await changes({ places: 3, otherPlaces: true });

    expect(body).toMatchObject({
      type: '/problems/still-needed',
      bookings: [id],
      worksFrom: ahead(1).toISOString(),
      ifOtherPlaces: [{ bookingId: id, places: null }],
    });
    expect(body.detail).toContain('place 4 of Cabinet');
  });

  test('a place on which honey stands past its time stays until it is cleared', async () => {
    const over = await overstays();

    const { body } = await changes({ places: 3, otherPlaces: true });
    expect(body).toMatchObject({
      type: '/problems/still-needed',
      bookings: [over],
      worksFrom: null,
      uncleared: [{ bookingId: over, endedAt: ahead(-2).toISOString(), places: [1, 2, 3, 4] }],
    });

    await club.ada.post(`${bookings}/${over}/release`).expect(200);
    expect((await changes({ places: 3 })).status).toBe(200);
  });

  test('past bookings keep their numbers', async () => {
    const id = await wasHere({ places: 4 });

    expect((await changes({ places: 1 })).status).toBe(200);

    expect((await club.ada.get(`${bookings}/${id}`)).body.places).toEqual([1, 2, 3, 4]);
    expect((await club.ada.get(station)).body.places).toBe(1);
  });

  test('a place that is kept for somebody who waits stays; once the offer has lapsed it can go', async () => {
    const full = await books(club.ada, { places: 4 });
    const { body: wish } = await club.ben
      .post(`${club.path}/waiting-list`, aWaitingWish(cabinet, { places: 4 }))
      .expect(201);
    await club.ada.remove(`${bookings}/${full}`);
    const { body: offered } = await club.ben.get(`${club.path}/waiting-list/${wish.id}`);

    const { body } = await changes({ places: 3 });
    expect(body).toMatchObject({
      type: '/problems/still-needed',
      bookings: [offered.offer.bookingId],
    });

    await service.prisma.booking.updateMany({
      where: { id: String(offered.offer.bookingId) },
      data: { keptUntil: ahead(-1) },
    });
    expect((await changes({ places: 3 })).status).toBe(200);
  });

  test('who waits for more than there will be is told so, and waits no longer; who waits for less goes on', async () => {
    await books(club.ada, { places: 2 });
    const waitFor = async (places: number) => {
      const { body } = await club.ben
        .post(`${club.path}/waiting-list`, aWaitingWish(cabinet, { places }))
        .expect(201);
      return `${club.path}/waiting-list/${body.id}`;
    };
    const [hopeless, hopeful] = [await waitFor(4), await waitFor(3)];

    await changes({ places: 3 });

    expect((await club.ben.get(hopeless)).body.state).toBe('lapsed');
    expect((await club.ben.get(hopeful)).body.state).toBe('waiting');
    const { body: told } = await club.ben.get(`${club.path}/notices`).expect(200);
    expect(told.items[0].text).toContain('changed Cabinet: what you waited for cannot be had');
  });

  test('more places are offered to those who wait', async () => {
    await books(club.ada, { places: 4 });
    const { body: wish } = await club.ben
      .post(`${club.path}/waiting-list`, aWaitingWish(cabinet, { places: 2 }))
      .expect(201);

    await changes({ places: 6 });

    const { body } = await club.ben.get(`${club.path}/waiting-list/${wish.id}`).expect(200);
    expect(body).toMatchObject({ state: 'offered', offer: { places: [5, 6] } });
  });
});

describe('the duties', () => {
  const warm = { duty: 'warm', minC: 30, maxC: 55 };
  const cool = { duty: 'cool', minC: 8, maxC: 18 };
  const bench = { duty: 'bench', minC: 5, maxC: 30 };

  test('one is added, one is dropped, a band changes; and back again', async () => {
    expect((await changes({ duties: [bench, cool] })).body.duties).toEqual([cool, bench]);
    const { body } = await club.ada.post(bookings, aWish(cabinet)).expect(422);
    expect(body.errors[0].pointer).toBe('#/duty');

    const wider = { ...warm, maxC: 60 };
    expect((await changes({ duties: [wider] })).body.duties).toEqual([wider]);
    await books(club.ada, { minC: 58, maxC: 60 });
  });

  test.each([
    ['none', [], '#/duties'],
    ['one twice', [warm, warm], '#/duties/1/duty'],
    ['a band upside down', [{ ...warm, maxC: 29 }], '#/duties/0/maxC'],
  ])('a list with %s is refused', async (_, duties, pointer) => {
    const { status, body } = await changes({ duties });

    expect([status, body.errors[0].pointer]).toEqual([422, pointer]);
    expect((await club.ada.get(station)).body.duties).toEqual([warm, cool]);
  });

  test('a duty that bookings ahead need stays, and so does a band that they reach into', async () => {
    const id = await books(club.ada, { minC: 44, maxC: 46 });
    await wasHere({ minC: 50, maxC: 55 });

    const dropped = await changes({ duties: [cool, bench] });
    expect([dropped.status, dropped.body]).toMatchObject([
      409,
      {
        type: '/problems/still-needed',
        errors: [{ pointer: '#/duties' }],
        bookings: [id],
        dutyWindows: [],
        worksFrom: end.toISOString(),
        duties: [warm, cool, bench],
      },
    ]);
    expect((await changes({ duties: dropped.body.duties })).status).toBe(200);

    const cooler = await changes({ duties: [{ ...warm, maxC: 40 }] });
    expect(cooler.body).toMatchObject({
      bookings: [id],
      duties: [{ ...warm, maxC: 44 }],
      detail: expect.stringContaining('1 booking needs "warm" at other temperatures') as unknown,
    });
    expect((await changes({ duties: cooler.body.duties })).body.duties).toEqual([
      { ...warm, maxC: 44 },
    ]);
    const hotter = await changes({ duties: [{ ...warm, minC: 50 }] });
    expect(hotter.body.duties).toEqual([{ ...warm, minC: 46 }]);
  });

  test('a duty stays while a duty window ahead keeps the station to it', async () => {
    const { body: window } = await club.steward
      .post(`${station}/duty-windows`, { duty: 'cool', startsAt: ahead(5), endsAt: ahead(9) })
      .expect(201);

    const { body } = await changes({ duties: [warm] });

    expect(body).toMatchObject({
      type: '/problems/still-needed',
      bookings: [],
      dutyWindows: [window.id],
      worksFrom: ahead(9).toISOString(),
      duties: [warm, cool],
    });
    await club.steward.remove(`${station}/duty-windows/${window.id}`);
    expect((await changes({ duties: [warm] })).status).toBe(200);
    const again = { duty: 'cool', startsAt: ahead(5), endsAt: ahead(9) };
    const { body: refused } = await club.steward.post(`${station}/duty-windows`, again).expect(422);
    expect(refused.errors[0].pointer).toBe('#/duty');
  });

  test('a duty stays while its honey stands there past its time', async () => {
    await overstays();

    expect((await changes({ duties: [cool] })).body).toMatchObject({
      type: '/problems/still-needed',
      worksFrom: null,
    });
  });

  test('who waits for a duty that goes waits no longer', async () => {
    await club.steward
      .post(`${station}/closures`, { startsAt: ahead(2), endsAt: ahead(6), reason: 'Repair' })
      .expect(201);
    const { body: wish } = await club.ben
      .post(`${club.path}/waiting-list`, aWaitingWish(cabinet, cooling))
      .expect(201);

    await changes({ duties: [warm] });

    expect((await club.ben.get(`${club.path}/waiting-list/${wish.id}`)).body.state).toBe('lapsed');
  });

  test('a plan that goes through a dropped duty can no longer be booked', async () => {
    const world = await aPlanRoom(service, club);
    const plan = await aPlan(world.ada, world);
    const change = await club.steward.change(`${club.path}/stations/${world.benchId}`, {
      duties: [cool],
    });
    expect(change.status).toBe(200);

    const { body } = await world.ada
      .post(`${world.plans}/${plan.id}/booking`, { alternative: 0 })
      .expect(409);
    expect(body.type).toBe('/problems/plan-taken');
  });
});

test('a longer changeover holds for bookings ahead, or is refused with the longest that they leave', async () => {
  const first = await books(club.ada);
  const second = await books(club.ada, {
    ...cooling,
    startsAt: hoursLater(end, 4),
    endsAt: hoursLater(end, 9),
  });

  const { status, body } = await changes({ changeoverMinutes: 241 });
  expect([status, body]).toMatchObject([
    409,
    {
      type: '/problems/other-duty',
      errors: [{ pointer: '#/changeoverMinutes' }],
      changeoverMinutes: 240,
      bookings: [first, second],
      worksFrom: end.toISOString(),
    },
  ]);
  expect((await changes({ changeoverMinutes: body.changeoverMinutes })).status).toBe(200);
});

describe('out of use', () => {
  test('a station that was sold is gone from the room, and stays in the history', async () => {
    const past = await wasHere();

    const { status, body } = await changes({ retired: true });

    expect([status, body.retiredAt]).toEqual([200, expect.any(String)]);
    const stations = `${club.path}/stations`;
    expect((await club.ada.get(stations)).body.items).toEqual([]);
    expect((await club.ada.get(`${stations}?withRetired=true`)).body.items).toEqual([body]);
    expect((await club.ada.get(station)).body).toEqual(body);
    expect((await club.ada.get(`${bookings}/${past}`)).body.stationName).toBe('Cabinet');
    const { body: refused } = await club.ada.post(bookings, aWish(cabinet)).expect(422);
    expect(refused).toMatchObject({
      errors: [{ pointer: '#/stationId' }],
      detail: 'Cabinet is out of use.',
    });
    await club.ada.post(`${club.path}/waiting-list`, aWaitingWish(cabinet)).expect(422);
    await club.ada.post(`${club.path}/probes`, { name: 'Top', stationId: cabinet }).expect(422);
    const span = `from=${ahead(2).toISOString()}&to=${ahead(8).toISOString()}&minutes=600&duty=warm&minC=40&maxC=42`;
    const free = await club.ada.get(`${station}/free?${span}&places=1`).expect(200);
    expect(free.body).toEqual({ items: [] });
  });

  test('is refused while something is booked ahead or stands there', async () => {
    const id = await books(club.ada);
    expect((await changes({ retired: true })).body).toMatchObject({
      type: '/problems/still-needed',
      errors: [{ pointer: '#/retired' }],
      bookings: [id],
      worksFrom: end.toISOString(),
    });
    await club.ada.remove(`${bookings}/${id}`);
    const over = await overstays();
    expect((await changes({ retired: true })).body).toMatchObject({
      bookings: [over],
      worksFrom: null,
    });
  });

  test('its name can be given again; it comes back unless that was done', async () => {
    await changes({ retired: true });
    const anew = await aCabinet(club);

    const { status, body } = await changes({ retired: false });
    expect([status, body.type]).toEqual([409, '/problems/duplicate']);
    await club.steward.change(`${club.path}/stations/${anew}`, { name: 'New' });

    expect((await changes({ retired: false })).body.retiredAt).toBeNull();
    await books(club.ada, { places: 4 });
  });

  test('who waits for it waits no longer', async () => {
    await club.steward
      .post(`${station}/closures`, { startsAt: ahead(2), endsAt: ahead(6), reason: 'Repair' })
      .expect(201);
    const { body: wish } = await club.ben
      .post(`${club.path}/waiting-list`, aWaitingWish(cabinet))
      .expect(201);

    expect((await changes({ retired: true })).status).toBe(200);

    expect((await club.ben.get(`${club.path}/waiting-list/${wish.id}`)).body.state).toBe('lapsed');
  });

  test('no plan goes through it, and one that did can no longer be booked', async () => {
    const world = await aPlanRoom(service, club);
    const plan = await aPlan(world.ada, world);
    const bench = `${club.path}/stations/${world.benchId}`;

    expect((await club.steward.change(bench, { retired: true })).status).toBe(200);

    const { body } = await world.ada
      .post(`${world.plans}/${plan.id}/booking`, { alternative: 0 })
      .expect(409);
    expect([body.type, body.plan]).toEqual(['/problems/plan-taken', null]);
    await world.ada.post(world.plans, aPlanWish(world)).expect(409);
  });
});
