import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let stationId: string;
let bookings: string;

beforeEach(async () => {
  club = await aClub(service);
  stationId = await aCabinet(club, 40);
  bookings = `${club.path}/bookings`;
});

function limit(placeDaysAhead: number | null) {
  return club.steward.change(club.path, { placeDaysAhead });
}

/** So many places for so many days, from a day on. */
function asked(from: number, days: number, places: number, different: object = {}) {
  return aWish(stationId, {
    startsAt: ahead(from),
    endsAt: ahead(from + days),
    places,
    ...different,
  });
}

async function shareOf(actor: Actor) {
  const { body } = await club.ben.get(`${club.path}/fair-shares`).expect(200);
  const items = body.items as { memberId: string; bookedPlaceDays: number }[];
  return items.find(({ memberId }) => memberId === actor.memberId);
}

test('without a limit a member books what is free', async () => {
  await club.ada.post(bookings, asked(3, 30, 40)).expect(201);
  expect(await shareOf(club.ada)).toMatchObject({ bookedPlaceDays: 1200, mostPlaceDays: null });
});

test('a member books up to the limit, and is told what is used, needed and left', async () => {
  await limit(14);
  await club.ada.post(bookings, asked(3, 2, 5)).expect(201);

  const { body } = await club.ada.post(bookings, asked(10, 1, 5)).expect(409);
  expect(body).toMatchObject({
    type: '/problems/fair-share',
    usedPlaceDays: 10,
    neededPlaceDays: 5,
    mostPlaceDays: 14,
  });
  expect(body.detail).toMatch(/10 of at most 14 place-days .* needs 5, and 4 are left/);

  await club.ada.post(bookings, asked(10, 1, 4)).expect(201);
  await club.ben.post(bookings, asked(10, 1, 14)).expect(201);
  expect(await shareOf(club.ada)).toMatchObject({ bookedPlaceDays: 14, mostPlaceDays: 14 });
  expect(await shareOf(club.steward)).toMatchObject({ bookedPlaceDays: 0 });
});

test('what is over, cancelled or released counts no more; of a running booking the rest counts', async () => {
  const { body: cancelled } = await club.ada.post(bookings, asked(3, 2, 5)).expect(201);
  await club.ada.remove(`${bookings}/${cancelled.id as string}`);
  const mine = { memberId: club.ada.memberId };
  await club.steward.post(bookings, asked(-5, 2, 5, mine)).expect(201);
  const now = new Date();
  now.setUTCSeconds(0, 0);
  const running = await club.steward
    .post(
      bookings,
      aWish(stationId, {
        ...mine,
        startsAt: hoursLater(now, -24),
        endsAt: hoursLater(now, 48),
        places: 3,
      }),
    )
    .expect(201);

  const share = await shareOf(club.ada);
  expect(share?.bookedPlaceDays).toBeGreaterThan(5.9);
  expect(share?.bookedPlaceDays).toBeLessThanOrEqual(6);
  await club.ada.post(`${bookings}/${running.body.id as string}/release`).expect(200);
  expect(await shareOf(club.ada)).toMatchObject({ bookedPlaceDays: 0 });
});

test('a move that needs more is held to the limit; one that needs less never is', async () => {
  const { body } = await club.ada.post(bookings, asked(3, 4, 5)).expect(201);
  await limit(10);
  const one = `${bookings}/${body.id as string}`;

  const more = await club.ada.change(one, { endsAt: ahead(8) });
  expect([more.status, more.body.type, more.body.neededPlaceDays]).toEqual([
    409,
    '/problems/fair-share',
    25,
  ]);
  expect((await club.ada.change(one, { note: 'Two pails' })).status).toBe(200);
  expect((await club.ada.change(one, { startsAt: ahead(20), endsAt: ahead(24) })).status).toBe(200);
  expect((await club.ada.change(one, { places: 3 })).status).toBe(200);
  expect((await club.ada.change(one, { places: 2 })).status).toBe(200);
  expect((await club.ada.change(one, { places: 3 })).status).toBe(409);
});

test('a steward lets a member go beyond it, and that is on record', async () => {
  await limit(5);
  const beyond = asked(3, 6, 1, { overFairShare: true });
  expect((await club.ada.post(bookings, beyond).expect(403)).body.type).toBe('/problems/not-yours');
  const forAda = { ...beyond, memberId: club.ada.memberId };
  await club.steward.post(bookings, { ...forAda, overFairShare: false }).expect(409);

  const { body } = await club.steward.post(bookings, forAda).expect(201);

  const audit = await club.steward.get(`${club.path}/audit?subjectId=${body.id as string}`);
  expect(audit.body.items).toContainEqual(
    expect.objectContaining({
      action: 'booking.rules-set-aside',
      details: { evenIfClosed: false, overFairShare: true },
    }),
  );
  const one = `${bookings}/${body.id as string}`;
  expect((await club.steward.change(one, { places: 2 })).status).toBe(409);
  expect((await club.steward.change(one, { places: 2, overFairShare: true })).status).toBe(200);
});

test('of many bookings at once only as many slip in as the limit bears', async () => {
  await limit(4);
  const answers = await Promise.all(
    Array.from({ length: 12 }, (_, index) => club.ada.post(bookings, asked(3 + index, 1, 1))),
  );

  const statuses = answers.map(({ status }) => status);
  expect(statuses.filter((status) => status === 201)).toHaveLength(4);
  expect(statuses.filter((status) => status === 409)).toHaveLength(8);
  expect(await shareOf(club.ada)).toMatchObject({ bookedPlaceDays: 4 });
});

test('at two stations at once it is the same share', async () => {
  await limit(3);
  const { body: other } = await club.steward.post(`${club.path}/stations`, {
    name: 'Cool room',
    placeLoadKg: 30,
    changeoverMinutes: 0,
    duties: [{ duty: 'cool', minC: 8, maxC: 16 }],
    places: 10,
  });
  const cool = { stationId: String(other.id), duty: 'cool', minC: 10, maxC: 14 };
  const answers = await Promise.all(
    Array.from({ length: 10 }, (_, index) =>
      club.ada.post(bookings, asked(3 + index, 1, 1, index % 2 === 0 ? cool : {})),
    ),
  );
  expect(answers.filter(({ status }) => status === 201)).toHaveLength(3);
});

test('the shares are listed by name, page by page, for every member', async () => {
  const whole = await club.ben.get(`${club.path}/fair-shares`).expect(200);
  const first = await club.ben.get(`${club.path}/fair-shares?limit=2`).expect(200);
  const rest = await club.ben
    .get(`${club.path}/fair-shares?limit=2&cursor=${first.body.nextCursor as string}`)
    .expect(200);
  expect([...first.body.items, ...rest.body.items]).toEqual(whole.body.items);
  expect(whole.body.items).toHaveLength(3);
});

test.each([
  [{ placeDaysAhead: 0 }, '#/placeDaysAhead'],
  [{ offerMinutes: 14 }, '#/offerMinutes'],
  [{ noShowMinutes: 20_161 }, '#/noShowMinutes'],
  [{ noShowMinutes: null }, '#/noShowMinutes'],
])('a club is not set to %j', async (wrong, pointer) => {
  const { status, body } = await club.steward.change(club.path, wrong);
  expect([status, body.errors[0].pointer]).toEqual([422, pointer]);
});

test('the rules of sharing are set by a steward, read by everybody, and taken away again', async () => {
  const rules = { placeDaysAhead: 30, offerMinutes: 60, noShowMinutes: 120 };
  expect((await club.steward.change(club.path, rules)).body).toMatchObject(rules);
  expect((await club.ada.get(club.path)).body).toMatchObject(rules);
  expect((await limit(null)).body).toMatchObject({ ...rules, placeDaysAhead: null });
});
