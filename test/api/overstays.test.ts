import { Database } from '../../src/platform/database';
import { sweepOverstays } from '../../src/overstays/sweep-overstays';
import { toldTo } from '../support/notices';
import { aSeededBatch, aSource, minutesAgo } from '../support/lots';
import { aCabinet, ahead, aWish, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let coolRoom: string;
let bookings: string;
/** Ada's, whose honey stands on place 1 an hour past its end. */
let over: string;

const cooling = { duty: 'cool', minC: 10, maxC: 14 };

beforeEach(async () => {
  club = await aClub(service);
  coolRoom = await aRoom('Cool room', 2);
  bookings = `${club.path}/bookings`;
  over = await stays({});
});

/** The minute in which the tests began: the same all along. */
const thisMinute = new Date(new Date().setUTCSeconds(0, 0));

/** On a whole minute. */
function hoursAgo(hours: number): Date {
  return hoursLater(thisMinute, -hours);
}

async function aRoom(name: string, places: number): Promise<string> {
  const { body } = await club.steward
    .post(`${club.path}/stations`, {
      name,
      placeLoadKg: 60,
      changeoverMinutes: 0,
      duties: [{ duty: 'cool', minC: 8, maxC: 16 }],
      places,
    })
    .expect(201);
  return String(body.id);
}

async function stays(different: object): Promise<string> {
  const id = await booked({
    startsAt: hoursAgo(240),
    endsAt: hoursAgo(1),
    memberId: club.ada.memberId,
    ...different,
  });
  await service.prisma.booking.updateMany({ where: { id }, data: { arrivedAt: hoursAgo(239) } });
  return id;
}

/** A cool booking, entered by a steward, so that it may have begun. */
async function booked(different: object): Promise<string> {
  const wish = { ...aWish(coolRoom, cooling), memberId: club.ben.memberId, ...different };
  const { body } = await club.steward.post(bookings, wish).expect(201);
  return String(body.id);
}

const list = async () => (await club.ben.get(`${club.path}/overstays`).expect(200)).body.items;
const sweep = () => sweepOverstays(service.app.get(Database), new Date());

test('everybody sees what stands past its end, since when and whose, and where else there is room', async () => {
  const cabinet = await aCabinet(club);

  const items = await list();

  expect(items).toEqual([
    expect.objectContaining({
      bookingId: over,
      stationName: 'Cool room',
      memberId: club.ada.memberId,
      places: [1],
      since: hoursAgo(1).toISOString(),
      batch: null,
      next: [],
    }),
  ]);
  expect(items[0].otherPlaces.minutes).toBe(7 * 24 * 60);
  expect(
    items[0].otherPlaces.stations.map(({ stationId }: { stationId: string }) => stationId),
  ).toEqual([cabinet, coolRoom]);
  const daysAhead =
    (new Date(items[0].longestExtension as string).getTime() - Date.now()) / 86_400_000;
  expect(daysAhead).toBeGreaterThan(59.9);
});

test('whoever has cleared, was never there or still has time is not listed', async () => {
  await booked({ startsAt: hoursAgo(50), endsAt: hoursAgo(40) });
  const running = await booked({ startsAt: hoursAgo(1), endsAt: ahead(2) });
  await club.ben.post(`${bookings}/${running}/arrival`, { placesAreClear: true }).expect(200);
  await club.ada.post(`${bookings}/${over}/release`).expect(200);

  expect(await list()).toEqual([]);
});

test('it tells who comes next on these places, and for how long it could stay', async () => {
  const next = await booked({ startsAt: ahead(4), endsAt: ahead(9), places: 2 });
  await booked({ startsAt: ahead(10), endsAt: ahead(12), places: 1 });

  const [item] = await list();

  expect(item.next[0]).toMatchObject({
    bookingId: next,
    memberId: club.ben.memberId,
    startsAt: ahead(4).toISOString(),
    places: [1],
  });
  expect(item.longestExtension).toBe(ahead(4).toISOString());
  const longer = await club.ada.change(`${bookings}/${over}`, { endsAt: ahead(4, 9) });
  expect(longer.status).toBe(409);
  const { status, body } = await club.ada.change(`${bookings}/${over}`, { endsAt: ahead(4) });
  expect([status, body.places]).toEqual([200, [1]]);
  expect(await list()).toEqual([]);
});

test('it cannot stay at all where somebody else’s time has begun, not even on other places', async () => {
  await service.prisma.booking.deleteMany({ where: { clubId: club.clubId, id: { not: over } } });
  const next = await booked({ startsAt: hoursAgo(1), endsAt: ahead(2), places: 2 });
  await club.steward.change(`${bookings}/${next}`, { places: 1 });
  const { body: theirs } = await club.ben.get(`${bookings}/${next}`);
  expect(theirs.places).toEqual([1]);

  const [item] = await list();
  expect(item.longestExtension).toBeNull();
  const { status, body } = await club.ada.change(`${bookings}/${over}`, { endsAt: ahead(1) });

  expect([status, body.type]).toEqual([409, '/problems/place-taken']);
});

test('a booking that is over and was cleared, or never filled, is not extended', async () => {
  await club.ada.post(`${bookings}/${over}/release`).expect(200);

  const { status, body } = await club.ada.change(`${bookings}/${over}`, { endsAt: ahead(1) });

  expect([status, body.type]).toEqual([409, '/problems/booking-over']);
});

test('of a batch it tells the stage, and by when it has likely set', async () => {
  const source = await aSource(service, club.clubId);
  const { batchId } = await aSeededBatch(club.ada, club, source, hoursAgo(238).toISOString());
  await service.prisma.booking.updateMany({ where: { id: over }, data: { batchId } });

  const [item] = await list();

  expect(item.batch).toMatchObject({ id: batchId, setAt: null });
  expect(new Date(item.batch.likelyUntil as string).getTime()).toBeGreaterThan(Date.now());
  await club.ada
    .post(`${club.path}/batches/${batchId}/setting-checks`, {
      at: minutesAgo(5),
      state: 'set',
      texture: 'smooth',
      firmness: 'spreadable',
    })
    .expect(201);
  const [set] = await list();
  expect(set.batch).toMatchObject({ stage: 'set', likelyUntil: null });
  expect(set.batch.setAt).not.toBeNull();
});

test('comes in pages, what stands longest first', async () => {
  const longer = await stays({ endsAt: hoursAgo(20), startsAt: hoursAgo(100) });

  const first = await club.ben.get(`${club.path}/overstays?limit=1`).expect(200);
  const rest = await club.ben.get(`${club.path}/overstays?cursor=${String(first.body.nextCursor)}`);

  expect([first.body.items[0].bookingId, rest.body.items[0].bookingId]).toEqual([longer, over]);
});

describe('whoever comes next', () => {
  let next: string;

  beforeEach(async () => {
    next = await booked({ startsAt: hoursAgo(0.5), endsAt: ahead(2), places: 2 });
  });

  test('is told once that the places are not clear, and the holder once that the time is over', async () => {
    expect(await sweep()).toBeGreaterThan(0);
    expect(await sweep()).toBe(0);

    expect(await toldTo(service, club.ada.memberId)).toEqual([
      expect.objectContaining({ kind: 'booking.overstay', subjectId: over }),
    ]);
    expect(await toldTo(service, club.ben.memberId)).toEqual([
      expect.objectContaining({ kind: 'booking.places-not-cleared', subjectId: next }),
    ]);
  });

  test('is refused the arrival and told whose honey it is, and where else there is room', async () => {
    const other = await aRoom('Second cool room', 2);

    const { body } = await club.ben.post(`${bookings}/${next}/arrival`).expect(409);

    expect(body).toMatchObject({
      type: '/problems/places-not-cleared',
      uncleared: [{ bookingId: over, places: [1] }],
      hasOtherPlacesHere: false,
      elsewhere: [{ stationId: other }],
    });
    const moved = await club.ben.change(`${bookings}/${next}`, { stationId: other });
    expect(moved.status).toBe(200);
    await club.ben.post(`${bookings}/${next}/arrival`).expect(200);
  });

  test('may take other places of the station where there are enough', async () => {
    await club.steward.change(`${bookings}/${next}`, { places: 1 });
    expect((await club.ben.get(`${bookings}/${next}`)).body.places).toEqual([1]);
    const refused = await club.ben.post(`${bookings}/${next}/arrival`).expect(409);
    expect(refused.body.hasOtherPlacesHere).toBe(true);

    const { body } = await club.ben
      .post(`${bookings}/${next}/arrival`, { otherPlaces: true })
      .expect(200);

    expect(body.places).toEqual([2]);
    expect(body.arrivedAt).not.toBeNull();
  });

  test('is not given other places where there are none', async () => {
    const { body } = await club.ben
      .post(`${bookings}/${next}/arrival`, { otherPlaces: true })
      .expect(409);

    expect(body.type).toBe('/problems/places-not-cleared');
  });

  test('may say that the places are clear all the same', async () => {
    await club.ben.post(`${bookings}/${next}/arrival`, { placesAreClear: true }).expect(200);
  });

  test('comes in as soon as the places are cleared', async () => {
    await club.ada.post(`${bookings}/${over}/release`).expect(200);

    await club.ben.post(`${bookings}/${next}/arrival`).expect(200);
  });
});

test('who is a few minutes late with clearing is not reminded', async () => {
  await club.ada.post(`${bookings}/${over}/release`).expect(200);
  await stays({ startsAt: hoursAgo(20), endsAt: hoursAgo(0.1) });

  await sweep();

  expect(await toldTo(service, club.ada.memberId)).toEqual([]);
});

test('extended and past its end again, its holder is told again', async () => {
  await sweep();
  await service.prisma.booking.updateMany({ where: { id: over }, data: { endsAt: hoursAgo(0.5) } });

  await sweep();

  expect(await toldTo(service, club.ada.memberId)).toHaveLength(2);
});
