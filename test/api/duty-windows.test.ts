import { randomUUID } from 'node:crypto';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let stationId: string;
let windows: string;
let bookings: string;

const summer = {
  duty: 'cool',
  startsAt: ahead(10).toISOString(),
  endsAt: ahead(100).toISOString(),
  note: 'Cool store over the summer',
};
const cool = { duty: 'cool', minC: 10, maxC: 14 };

beforeEach(async () => {
  club = await aClub(service);
  stationId = await aCabinet(club);
  windows = `${club.path}/stations/${stationId}/duty-windows`;
  bookings = `${club.path}/bookings`;
});

test('a steward keeps a station for one duty, changes that and lets it go; everybody reads it', async () => {
  const { body, headers } = await club.steward.post(windows, summer).expect(201);
  expect(body).toMatchObject({ stationId, ...summer });
  expect(headers['location']).toBe(`/api/v1${windows}/${body.id as string}`);
  const shown = await club.ada.get(`${windows}/${body.id as string}`).expect(200);
  expect([shown.body, shown.headers['etag']]).toEqual([body, headers['etag']]);
  expect((await club.ada.get(windows).expect(200)).body.items).toEqual([body]);
  const later = encodeURIComponent(summer.endsAt);
  expect((await club.ada.get(`${windows}?from=${later}`)).body.items).toEqual([]);

  const changed = await club.steward.change(`${windows}/${body.id as string}`, { note: '' });
  expect(changed.body).toEqual({ ...body, note: '' });
  expect((await club.ada.post(windows, summer)).status).toBe(403);
  expect((await club.steward.remove(`${windows}/${body.id as string}`)).status).toBe(204);
  expect((await club.ada.get(windows)).body.items).toEqual([]);
  await club.ada.get(`${windows}/${randomUUID()}`).expect(404);
  await club.ada
    .get(`${club.path}/stations/${randomUUID()}/duty-windows/${body.id as string}`)
    .expect(404);
});

test.each([
  [{ duty: 'bench' }, '#/duty', /serves warm, cool/],
  [{ endsAt: summer.startsAt }, '#/endsAt', /after/],
  [{ startsAt: ahead(90), endsAt: ahead(110) }, '#/startsAt', /has a duty window already/],
])('it is refused with %j', async (different, pointer, words) => {
  await club.steward.post(windows, summer).expect(201);

  const { status, body } = await club.steward.post(windows, {
    ...summer,
    startsAt: ahead(200),
    endsAt: ahead(210),
    ...different,
  });

  expect([status, body.errors[0].pointer]).toEqual([422, pointer]);
  expect(body.detail).toMatch(words);
  expect(await service.prisma.dutyWindow.count({ where: { clubId: club.clubId } })).toBe(1);
});

test('bookings of another duty in the way are named; those of its own stay', async () => {
  const times = { startsAt: ahead(20), endsAt: ahead(21) };
  const warm = await club.ada.post(bookings, aWish(stationId, times)).expect(201);
  await club.ada
    .post(bookings, aWish(stationId, { ...cool, startsAt: ahead(30), endsAt: ahead(31) }))
    .expect(201);

  const { body } = await club.steward.post(windows, summer).expect(409);
  expect(body).toMatchObject({ type: '/problems/station-booked', bookings: [warm.body.id] });
  expect(body.detail).toContain(warm.body.endsAt);

  await club.ada.remove(`${bookings}/${warm.body.id as string}`);
  const made = await club.steward.post(windows, summer).expect(201);
  const early = await club.ada
    .post(bookings, aWish(stationId, { startsAt: ahead(5), endsAt: ahead(6) }))
    .expect(201);
  const wider = await club.steward.change(`${windows}/${made.body.id as string}`, {
    startsAt: ahead(4),
  });
  expect([wider.status, wider.body.bookings]).toEqual([409, [early.body.id]]);
});

describe('while a station is kept for cooling', () => {
  let windowId: string;

  beforeEach(async () => {
    const { body } = await club.steward.post(windows, summer).expect(201);
    windowId = String(body.id);
  });

  test('cooling is booked, and warming is told which window, and when it may be again', async () => {
    const times = { startsAt: ahead(20), endsAt: hoursLater(ahead(20), 24) };
    await club.ada.post(bookings, aWish(stationId, { ...cool, ...times })).expect(201);

    const far = { startsAt: ahead(90), endsAt: ahead(91) };
    const { body } = await club.ada.post(bookings, aWish(stationId, far)).expect(409);

    expect(body).toMatchObject({
      type: '/problems/duty-window',
      dutyWindow: { id: windowId, ...summer },
    });
    expect(body.detail).toContain(summer.note);
    expect(body.freeTimes[0].firstStart).toBe(summer.endsAt);
    const after = { startsAt: ahead(100), endsAt: ahead(101) };
    await club.ada.post(bookings, aWish(stationId, after)).expect(201);
  });

  test('a booking of another duty ends as it begins, and is not moved into it', async () => {
    const before = { startsAt: ahead(9), endsAt: ahead(10) };
    const { body } = await club.ada.post(bookings, aWish(stationId, before)).expect(201);

    const longer = await club.ada.change(`${bookings}/${body.id as string}`, {
      endsAt: hoursLater(ahead(10), 1),
    });
    expect([longer.status, longer.body.type]).toEqual([409, '/problems/duty-window']);
  });

  test('free times leave it out for other duties', async () => {
    const free = async (duty: string, minC: number, maxC: number) => {
      const query = new URLSearchParams({
        from: ahead(5).toISOString(),
        to: ahead(105).toISOString(),
        places: '1',
        minutes: '1440',
        duty,
        minC: String(minC),
        maxC: String(maxC),
      });
      const path = `${club.path}/stations/${stationId}/free?${query.toString()}`;
      const { body } = await club.ada.get(path).expect(200);
      const items = body.items as { firstStart: string; lastStart: string }[];
      return items.map(({ firstStart, lastStart }) => [firstStart, lastStart]);
    };
    const iso = (days: number) => ahead(days).toISOString();

    expect(await free('warm', 40, 45)).toEqual([
      [iso(5), iso(9)],
      [iso(100), iso(104)],
    ]);
    expect(await free('cool', 10, 14)).toEqual([[iso(5), iso(104)]]);
  });
});
