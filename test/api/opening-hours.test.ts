import { Temporal } from '@js-temporal/polyfill';
import { everyDay, openOn } from '../support/opening';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

// Far from UTC, and never on summer time: hours from one day to the next are the same whenever the test runs.
const timeZone = 'Asia/Kathmandu';

let club: ClubWorld;
let path: string;

beforeEach(async () => {
  club = await aClub(service);
  await club.steward.change(club.path, { timeZone });
  path = `${club.path}/opening-hours`;
});

/** An hour by the club's clock, so many days ahead. */
function local(days: number, hour: number): Date {
  const zoned = Temporal.ZonedDateTime.from(`${dayOf(ahead(days, 12))}T00:00[${timeZone}]`);
  return new Date(zoned.add({ hours: hour }).epochMilliseconds);
}

function dayOf(instant: Date): string {
  return Temporal.Instant.fromEpochMilliseconds(instant.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate()
    .toString();
}

async function put(hours: object[], actor = club.steward) {
  const { headers } = await actor.get(path).expect(200);
  return actor.put(path, { hours }).set('If-Match', String(headers['etag']));
}

describe('the hours of the week', () => {
  test('are none at first, are set as a whole, and everybody reads them in the order of the week', async () => {
    expect((await club.ada.get(path).expect(200)).body).toEqual({
      timeZone,
      hours: [],
    });
    const evening = { weekday: 3, opensMinute: 1020, closesMinute: 1320 };
    const saturday = { weekday: 6, opensMinute: 480, closesMinute: 720 };
    const monday = { weekday: 1, opensMinute: 0, closesMinute: 1440 };

    const set = await put([saturday, evening]);
    expect([set.status, set.body.hours]).toEqual([200, [evening, saturday]]);
    const shown = await club.ada.get(path).expect(200);
    expect([shown.body, shown.headers['etag']]).toEqual([set.body, set.headers['etag']]);

    expect((await put([monday])).body.hours).toEqual([monday]);
    const { body } = await club.steward.get(`${club.path}/audit?limit=1`).expect(200);
    expect(body.items[0]).toMatchObject({
      action: 'opening-hours.set',
      details: { from: [evening, saturday], to: [monday] },
    });
  });

  test('are set by a steward, from the state that was read', async () => {
    const { headers } = await club.steward.get(path);
    await put([{ weekday: 1, opensMinute: 0, closesMinute: 60 }]);

    const again = club.steward.put(path, { hours: [] }).set('If-Match', String(headers['etag']));
    await again.expect(412);
    await club.steward.put(path, { hours: [] }).expect(428);
    expect((await put([], club.ada)).status).toBe(403);
  });

  test.each([
    [{ weekday: 8, opensMinute: 0, closesMinute: 60 }, '#/hours/1/weekday'],
    [{ weekday: 2, opensMinute: 600, closesMinute: 600 }, '#/hours/1/closesMinute'],
    [{ weekday: 2, opensMinute: 600, closesMinute: 1441 }, '#/hours/1/closesMinute'],
    [{ weekday: 1, opensMinute: 599, closesMinute: 700 }, '#/hours/1'],
  ])('are not %j after Monday until 10:00', async (wrong, pointer) => {
    const { status, body } = await put([
      { weekday: 1, opensMinute: 480, closesMinute: 600 },
      wrong,
    ]);
    expect([status, body.errors[0].pointer]).toEqual([422, pointer]);
    expect((await club.ada.get(path)).body.hours).toEqual([]);
  });
});

describe('closed days', () => {
  test('are set, listed in order, and opened again', async () => {
    const days = `${club.path}/closed-days`;
    const { body: late } = await club.steward
      .post(days, { day: '2031-12-26', reason: 'Midwinter' })
      .expect(201);
    await club.steward.post(days, { day: '2031-12-24', reason: 'Midwinter' }).expect(201);

    const { body } = await club.ada.get(days).expect(200);
    expect(body.items.map(({ day }: { day: string }) => day)).toEqual(['2031-12-24', '2031-12-26']);
    const page = await club.ada.get(`${days}?limit=1`).expect(200);
    const rest = await club.ada.get(`${days}?limit=1&cursor=${page.body.nextCursor}`).expect(200);
    expect(rest.body.items).toEqual([late]);
    expect((await club.ada.get(`${days}?from=2031-12-25`)).body.items).toEqual([late]);
    expect((await club.ada.get(`${days}/${late.id}`).expect(200)).body).toEqual(late);

    const again = await club.steward.post(days, { day: '2031-12-26', reason: 'x' }).expect(409);
    expect(again.body).toMatchObject({
      type: '/problems/duplicate',
      errors: [{ pointer: '#/day' }],
    });
    expect((await club.steward.remove(`${days}/${late.id}`)).status).toBe(204);
    await club.ada.get(`${days}/${late.id}`).expect(404);
    expect((await club.ada.post(days, { day: '2031-12-26', reason: 'x' })).status).toBe(403);
  });
});

describe('a booking', () => {
  let stationId: string;
  let bookings: string;

  beforeEach(async () => {
    stationId = await aCabinet(club);
    bookings = `${club.path}/bookings`;
    await openOn(club, everyDay, 8 * 60, 18 * 60);
  });

  const wishFor = (startsAt: Date, endsAt: Date, different = {}) =>
    aWish(stationId, { startsAt, endsAt, ...different });

  test('starts and ends while the room is open; over the night it stays', async () => {
    await club.ada.post(bookings, wishFor(local(3, 8), local(4, 18))).expect(201);
  });

  test('that starts when the room is closed is told the next opening and the times that will do', async () => {
    const { body } = await club.ada.post(bookings, wishFor(local(3, 7), local(4, 9))).expect(409);

    expect(body).toMatchObject({
      type: '/problems/club-closed',
      nextOpening: { opensAt: local(3, 8).toISOString(), closesAt: local(3, 18).toISOString() },
    });
    expect(body.detail).toMatch(/starts when the room is closed/);
    // 26 hours: from 8 to 16 one day, until 10 to 18 the next.
    expect(body.freeTimes[0]).toMatchObject({
      firstStart: local(3, 8).toISOString(),
      lastStart: local(3, 16).toISOString(),
    });
    const startsAt = new Date(body.freeTimes[1].lastStart as string);
    await club.ada.post(bookings, wishFor(startsAt, hoursLater(startsAt, 26))).expect(201);
  });

  test('that ends when nobody can come to clear is refused, and so is one that starts at the closing', async () => {
    const late = await club.ada.post(bookings, wishFor(local(3, 9), local(3, 20))).expect(409);
    expect(late.body.detail).toMatch(/ends when the room is closed/);
    expect(late.body.nextOpening.opensAt).toBe(local(4, 8).toISOString());

    await club.ada.post(bookings, wishFor(local(3, 18), local(4, 18))).expect(409);
    expect(await service.prisma.booking.count({ where: { clubId: club.clubId } })).toBe(0);
  });

  test('on a closed day waits for the next', async () => {
    const day = dayOf(local(3, 12));
    await club.steward.post(`${club.path}/closed-days`, { day, reason: 'Market' }).expect(201);

    const { body } = await club.ada.post(bookings, wishFor(local(3, 8), local(4, 12))).expect(409);
    expect(body.freeTimes[0].firstStart).toBe(local(4, 8).toISOString());
  });

  test('of the bench lies within one opening: somebody stands there all the while', async () => {
    const bench = await club.steward.post(`${club.path}/stations`, {
      name: 'Bench',
      placeLoadKg: 50,
      changeoverMinutes: 0,
      duties: [{ duty: 'bench', minC: 15, maxC: 25 }],
      places: 1,
    });
    const at = (startsAt: Date, endsAt: Date) =>
      wishFor(startsAt, endsAt, { stationId: bench.body.id, duty: 'bench', minC: 18, maxC: 22 });

    await club.ada.post(bookings, at(local(3, 16), local(3, 18))).expect(201);
    const { body } = await club.ada.post(bookings, at(local(3, 17), local(4, 9))).expect(409);
    expect(body).toMatchObject({ type: '/problems/club-closed', freeTimes: [] });
    expect(body.detail).toMatch(/stands at the bench all the while/);
  });

  test('at closed hours is a steward’s to allow, and that is on record', async () => {
    const night = wishFor(local(3, 2), local(3, 23), { evenIfClosed: true });
    const { body } = await club.ada.post(bookings, night).expect(403);
    expect(body.type).toBe('/problems/not-yours');

    const made = await club.steward
      .post(bookings, { ...night, memberId: club.ada.memberId })
      .expect(201);
    const audit = await club.steward
      .get(`${club.path}/audit?subjectId=${made.body.id as string}`)
      .expect(200);
    expect(audit.body.items).toContainEqual(
      expect.objectContaining({
        action: 'booking.rules-set-aside',
        details: { evenIfClosed: true, overFairShare: false },
      }),
    );
  });

  test('on record stays when the hours change; moved, it keeps to the new ones', async () => {
    const { body } = await club.ada.post(bookings, wishFor(local(3, 8), local(4, 18))).expect(201);
    await openOn(club, everyDay, 10 * 60, 12 * 60);

    const one = `${bookings}/${body.id as string}`;
    expect((await club.ada.change(one, { note: 'Two pails' })).status).toBe(200);
    const moved = await club.ada.change(one, { endsAt: local(4, 11) });
    expect([moved.status, moved.body.type]).toEqual([409, '/problems/club-closed']);
    const both = { startsAt: local(3, 10), endsAt: local(4, 12) };
    expect((await club.ada.change(one, both)).status).toBe(200);
    expect(
      (await club.steward.change(one, { endsAt: local(4, 22), evenIfClosed: true })).status,
    ).toBe(200);
    expect((await club.ada.change(one, { ...both, evenIfClosed: true })).status).toBe(403);
  });
});

test('free times are such that somebody can come to load and to clear', async () => {
  const stationId = await aCabinet(club);
  await openOn(club, everyDay, 8 * 60, 18 * 60);
  const query = new URLSearchParams({
    from: ahead(3, 0).toISOString(),
    to: ahead(6, 0).toISOString(),
    places: '1',
    minutes: String(10 * 60),
    duty: 'warm',
    minC: '40',
    maxC: '45',
  });

  const { body } = await club.ada.get(
    `${club.path}/stations/${stationId}/free?${query.toString()}`,
  );
  const first = local(3, 8).toISOString();
  expect(body.items[0]).toMatchObject({ firstStart: first, lastStart: first });
  // In late, out early the next morning.
  const overNight = await club.ada.get(
    `${club.path}/stations/${stationId}/free?${query.toString().replace('minutes=600', 'minutes=900')}`,
  );
  expect(overNight.body.items[0]).toMatchObject({
    firstStart: local(3, 17).toISOString(),
    lastStart: new Date(local(3, 18).getTime() - 60_000).toISOString(),
  });
});
