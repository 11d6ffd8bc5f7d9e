import { randomUUID } from 'node:crypto';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let stations: string;

beforeEach(async () => {
  club = await aClub(service);
  stations = `${club.path}/stations`;
});

const bench = {
  name: 'Bench with mixer',
  placeLoadKg: 60,
  changeoverMinutes: 0,
  duties: [{ duty: 'bench', minC: 5, maxC: 30 }],
  places: 1,
};

test('a steward sets up a station, and every member sees it', async () => {
  const { body, headers } = await club.steward.post(stations, bench).expect(201);

  expect(body).toMatchObject(bench);
  const shown = await club.ada.get(`${stations}/${body.id}`).expect(200);
  expect(shown.body).toEqual(body);
  expect(shown.headers['etag']).toBe(headers['etag']);
  const list = await club.ada.get(stations).expect(200);
  expect(list.body).toEqual({ items: [body], nextCursor: null });
});

test('setting up the same station again with the same key makes one', async () => {
  const key = randomUUID();
  const first = await club.steward.post(stations, bench).set('Idempotency-Key', key).expect(201);
  const second = await club.steward.post(stations, bench).set('Idempotency-Key', key).expect(201);

  expect(second.body).toEqual(first.body);
  expect((await club.ada.get(stations)).body.items).toHaveLength(1);
});

test('two stations of one name are refused, in one club', async () => {
  await club.steward.post(stations, bench).expect(201);

  const { body } = await club.steward.post(stations, bench).expect(409);
  expect(body).toMatchObject({ type: '/problems/duplicate', errors: [{ pointer: '#/name' }] });
  const other = await aClub(service);
  await other.steward.post(`${other.path}/stations`, bench).expect(201);
});

test.each([
  ['no duty', { duties: [] }, '#/duties'],
  ['a list in the list', { duties: [[]] }, '#/duties'],
  ['a duty twice', { duties: [bench.duties[0], bench.duties[0]] }, '#/duties/1/duty'],
  ['a band upside down', { duties: [{ duty: 'cool', minC: 9, maxC: 8 }] }, '#/duties/0/maxC'],
  ['an unknown duty', { duties: [{ duty: 'fly', minC: 1, maxC: 8 }] }, '#/duties/0/duty'],
  ['a missing name', { name: undefined }, '#'],
  ['a blank name', { name: '   ' }, '#/name'],
  ['a load to the tenth of a gram', { placeLoadKg: 1.0001 }, '#/placeLoadKg'],
  ['a negative load', { placeLoadKg: -1 }, '#/placeLoadKg'],
  ['no places', { places: 0 }, '#/places'],
])('a station with %s is refused', async (_, different, pointer) => {
  const { body } = await club.steward.post(stations, { ...bench, ...different }).expect(422);

  expect(body.errors[0].pointer).toBe(pointer);
  expect((await club.ada.get(stations)).body.items).toHaveLength(0);
});

test('a station that was booked stays; one that was not can go', async () => {
  const id = await aCabinet(club);
  await club.ada.post(`${club.path}/bookings`, aWish(id)).expect(201);
  const { body } = await club.steward.post(stations, bench);

  const { body: refused } = await club.steward.remove(`${stations}/${id}`);
  expect(refused).toMatchObject({
    type: '/problems/in-use',
    detail: expect.stringContaining('retired: true') as unknown,
  });
  expect((await club.steward.remove(`${stations}/${body.id}`)).status).toBe(204);
  await club.ada.get(`${stations}/${body.id}`).expect(404);
});

test('free times leave out what is booked and closed, and each of them can be booked', async () => {
  const id = await aCabinet(club);
  await club.ada.post(`${club.path}/bookings`, aWish(id, { places: 2 })).expect(201);
  await club.steward
    .post(`${stations}/${id}/closures`, { startsAt: ahead(5), endsAt: ahead(6), reason: 'Repair' })
    .expect(201);
  const query = `from=${ahead(2).toISOString()}&to=${ahead(8).toISOString()}&places=2&minutes=600&duty=warm&minC=40&maxC=42`;

  const { body } = await club.ada.get(`${stations}/${id}/free?${query}`).expect(200);

  expect(body.items).toEqual([
    {
      firstStart: ahead(2).toISOString(),
      lastStart: hoursLater(ahead(3), -10).toISOString(),
      freePlaces: 2,
    },
    {
      firstStart: hoursLater(ahead(3), 24).toISOString(),
      lastStart: hoursLater(ahead(5), -10).toISOString(),
      freePlaces: 2,
    },
    {
      firstStart: ahead(6).toISOString(),
      lastStart: hoursLater(ahead(8), -10).toISOString(),
      freePlaces: 2,
    },
  ]);
  for (const { lastStart } of body.items) {
    const startsAt = new Date(lastStart as string);
    await club.ada
      .post(
        `${club.path}/bookings`,
        aWish(id, { startsAt, endsAt: hoursLater(startsAt, 10), places: 2, minC: 40, maxC: 42 }),
      )
      .expect(201);
  }
});

test('a duty or a temperature that the station has not is never free', async () => {
  const id = await aCabinet(club);
  const span = `from=${ahead(2).toISOString()}&to=${ahead(8).toISOString()}&places=1&minutes=600`;

  const no = await club.ada.get(`${stations}/${id}/free?${span}&duty=bench&minC=5&maxC=9`);
  expect(no.body).toEqual({ items: [] });
  const hot = await club.ada.get(`${stations}/${id}/free?${span}&duty=warm&minC=70&maxC=75`);
  expect(hot.body).toEqual({ items: [] });
});

test.each([
  ['to', { to: '2000-01-01T00:00:00Z' }],
  ['from', { from: 'yesterday' }],
  ['maxC', { maxC: '1' }],
  ['minutes', { minutes: '1e3' }],
  ['places', { places: '' }],
  ['colour', { colour: 'blue' }],
])('a search with a bad %s is refused', async (parameter, different) => {
  const id = await aCabinet(club);
  const query = new URLSearchParams({
    from: ahead(2).toISOString(),
    to: ahead(8).toISOString(),
    places: '1',
    minutes: '60',
    duty: 'warm',
    minC: '40',
    maxC: '42',
    ...different,
  });

  const { body } = await club.ada.get(`${stations}/${id}/free?${query.toString()}`).expect(422);
  expect(body.errors[0].parameter).toBe(parameter);
});

describe('closures', () => {
  let id: string;
  let closures: string;
  const times = { startsAt: ahead(3, 10).toISOString(), endsAt: ahead(3, 12).toISOString() };

  beforeEach(async () => {
    id = await aCabinet(club);
    closures = `${stations}/${id}/closures`;
  });

  test('a steward closes a station, changes the closure and opens again', async () => {
    const { body } = await club.steward
      .post(closures, { ...times, reason: 'Cleaning' })
      .expect(201);
    expect(body).toMatchObject({ stationId: id, ...times, reason: 'Cleaning' });
    expect((await club.ada.get(`${closures}/${body.id}`)).body).toEqual(body);
    expect((await club.ada.get(closures)).body.items).toEqual([body]);
    const later = encodeURIComponent(ahead(4).toISOString());
    expect((await club.ada.get(`${closures}?from=${later}`)).body.items).toEqual([]);

    const changed = await club.steward.change(`${closures}/${body.id}`, { reason: 'Repair' });
    expect(changed.body).toMatchObject({ ...times, reason: 'Repair' });
    expect((await club.steward.remove(`${closures}/${body.id}`)).status).toBe(204);
    await club.ada.post(`${club.path}/bookings`, aWish(id)).expect(201);
  });

  test('a closure over bookings is refused and names them, unless they are to be cancelled', async () => {
    const { body: booking } = await club.ada.post(`${club.path}/bookings`, aWish(id)).expect(201);

    const { body } = await club.steward.post(closures, { ...times, reason: 'x' }).expect(409);
    expect(body).toMatchObject({ type: '/problems/station-booked', bookings: [booking.id] });

    await club.steward.post(closures, { ...times, reason: 'x', bookings: 'cancel' }).expect(201);
    const { body: after } = await club.ada.get(`${club.path}/bookings/${booking.id}`);
    expect(after.state).toBe('cancelled');
  });

  test('a closure is not moved over a booking', async () => {
    const { body } = await club.steward.post(closures, { ...times, reason: 'x' }).expect(201);
    await club.ada
      .post(`${club.path}/bookings`, aWish(id, { startsAt: ahead(6), endsAt: ahead(7) }))
      .expect(201);

    const { status, body: refused } = await club.steward.change(`${closures}/${body.id}`, {
      startsAt: ahead(6),
      endsAt: ahead(7),
    });
    expect([status, refused.type]).toEqual([409, '/problems/station-booked']);
  });

  test('an empty closure is refused', async () => {
    const { body } = await club.steward
      .post(closures, { startsAt: times.startsAt, endsAt: times.startsAt, reason: 'x' })
      .expect(422);
    expect(body.errors[0].pointer).toBe('#/endsAt');
  });

  test('a closure of another station is not found', async () => {
    const { body } = await club.steward.post(closures, { ...times, reason: 'x' }).expect(201);
    await club.steward.post(stations, bench).expect(201);

    await club.ada.get(`${stations}/${randomUUID()}/closures/${body.id}`).expect(404);
    await club.ada.get(`${stations}/${randomUUID()}/closures`).expect(404);
  });
});
