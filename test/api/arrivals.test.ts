import { Database } from '../../src/platform/database';
import { sweepNoShows } from '../../src/no-shows/sweep-no-shows';
import { toldTo } from '../support/notices';
import { aPlannedBatch, aSeededBatch, aSource, minutesAgo } from '../support/lots';
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

/** The minute in which the tests began: the same all along. */
const thisMinute = new Date(new Date().setUTCSeconds(0, 0));

/** On a whole minute. */
function hoursAgo(hours: number): Date {
  return hoursLater(thisMinute, -hours);
}

/** Ada's booking, entered by a steward, so that it may have begun. */
async function adas(different: object): Promise<string> {
  const wish = aWish(stationId, { memberId: club.ada.memberId, ...different });
  const { body } = await club.steward.post(bookings, wish).expect(201);
  return `${bookings}/${String(body.id)}`;
}

describe('arrival', () => {
  test('is on record with the booking', async () => {
    const one = await adas({ startsAt: hoursAgo(1), endsAt: ahead(2) });
    expect((await club.ada.get(one)).body).toMatchObject({ arrivedAt: null, clearedAt: null });

    const { body } = await club.ada.post(`${one}/arrival`).expect(200);

    expect(Date.now() - new Date(body.arrivedAt as string).getTime()).toBeLessThan(60_000);
    expect((await club.ben.get(one)).body).toEqual(body);
    const again = await club.ada.post(`${one}/arrival`).expect(409);
    expect(again.body.type).toBe('/problems/arrived-already');
  });

  test('may be told late, and be up to two hours early', async () => {
    const one = await adas({ startsAt: hoursAgo(1), endsAt: ahead(2) });
    const at = hoursAgo(3.5);

    const { body } = await club.ada.post(`${one}/arrival`, { at }).expect(409);
    expect(body.type).toBe('/problems/booking-ahead');
    const early = await club.ada.post(`${one}/arrival`, { at: hoursAgo(3) }).expect(200);
    expect(early.body.arrivedAt).toBe(hoursAgo(3).toISOString());
  });

  test.each([
    ['ahead', { startsAt: ahead(3), endsAt: ahead(4) }, 'booking-ahead'],
    ['over', { startsAt: hoursAgo(30), endsAt: hoursAgo(1) }, 'booking-over'],
  ])('is refused for a booking that is %s', async (_, times, code) => {
    const one = await adas(times);

    const { body } = await club.ada.post(`${one}/arrival`).expect(409);

    expect(body.type).toBe(`/problems/${code}`);
  });

  test('is not told of the future, nor by others', async () => {
    const one = await adas({ startsAt: hoursAgo(1), endsAt: ahead(2) });

    const { body } = await club.ada.post(`${one}/arrival`, { at: ahead(1) }).expect(422);
    expect(body.errors[0].pointer).toBe('#/at');
    await club.ben.post(`${one}/arrival`).expect(403);
    await club.steward.post(`${one}/arrival`).expect(200);
  });
});

describe('the steps of a batch', () => {
  test('say where its honey is: nobody need say it twice', async () => {
    const source = await aSource(service, club.clubId);
    const { batchId } = await aSeededBatch(club.ada, club, source, minutesAgo(30));
    const steps = `${club.path}/batches/${batchId}/steps`;
    const cool = { duty: 'cool', minC: 10, maxC: 14, batchId };
    const shelf = await adas({ ...cool, startsAt: hoursAgo(1), endsAt: ahead(9) });
    const later = await adas({ ...cool, startsAt: ahead(9), endsAt: ahead(12) });
    const potted = { kind: 'potted', at: minutesAgo(20), pots: [{ netMassKg: 0.5, count: 4 }] };
    await club.ada.post(steps, potted).expect(201);
    expect((await club.ada.get(shelf)).body.arrivedAt).toBeNull();
    const at = minutesAgo(10);

    await club.ada.post(steps, { kind: 'shelved', at }).expect(201);

    expect((await club.ada.get(shelf)).body.arrivedAt).toBe(at);
    expect((await club.ada.get(later)).body.arrivedAt).toBeNull();
  });

  test('loading brings honey to the cabinet, stirring in seed takes it to the bench, potting clears the bench', async () => {
    const source = await aSource(service, club.clubId);
    const { batchId, seedId } = await aPlannedBatch(club.ada, club, source);
    const { body: bench } = await club.steward
      .post(`${club.path}/stations`, {
        name: 'Bench',
        placeLoadKg: 60,
        changeoverMinutes: 0,
        duties: [{ duty: 'bench', minC: 15, maxC: 25 }],
        places: 1,
      })
      .expect(201);
    const warm = await adas({ startsAt: hoursAgo(50), endsAt: ahead(1), batchId });
    const stir = await adas({
      stationId: bench.id,
      duty: 'bench',
      minC: 18,
      maxC: 22,
      startsAt: hoursAgo(1),
      endsAt: ahead(1),
      batchId,
    });
    const steps = `${club.path}/batches/${batchId}/steps`;
    await club.ada.post(steps, { kind: 'loaded', at: hoursAgo(49) }).expect(201);
    expect((await club.ada.get(warm)).body.arrivedAt).toBe(hoursAgo(49).toISOString());

    const seeded = { kind: 'seeded', at: minutesAgo(20), seed: [{ lotId: seedId, massKg: 2 }] };
    await club.ada.post(steps, seeded).expect(201);
    expect((await club.ada.get(warm)).body.clearedAt).toBe(seeded.at);
    expect((await club.ada.get(stir)).body).toMatchObject({
      arrivedAt: seeded.at,
      clearedAt: null,
    });

    const potted = { kind: 'potted', at: minutesAgo(2), pots: [{ netMassKg: 0.5, count: 4 }] };
    await club.ada.post(steps, potted).expect(201);

    expect((await club.ada.get(stir)).body.clearedAt).toBe(potted.at);
  });
});

describe('release', () => {
  test('says that the places are clear', async () => {
    const one = await adas({ startsAt: hoursAgo(5), endsAt: ahead(2) });
    await club.ada.post(`${one}/arrival`, { at: hoursAgo(5) }).expect(200);
    const clearedAt = hoursAgo(1);

    const { body } = await club.ada.post(`${one}/release`, { clearedAt }).expect(200);

    expect(body).toMatchObject({ state: 'released', clearedAt: clearedAt.toISOString() });
    expect(Date.now() - new Date(body.endsAt as string).getTime()).toBeLessThan(60_000);
  });

  test('after the end of the booking it says only when the places were cleared', async () => {
    const one = await adas({ startsAt: hoursAgo(30), endsAt: hoursAgo(2) });
    await service.prisma.booking.updateMany({
      where: { id: one.split('/').at(-1)! },
      data: { arrivedAt: hoursAgo(29) },
    });

    const { body } = await club.ada.post(`${one}/release`).expect(200);

    expect(body).toMatchObject({ state: 'booked', endsAt: hoursAgo(2).toISOString() });
    expect(body.clearedAt).not.toBeNull();
    const again = await club.ada.post(`${one}/release`).expect(409);
    expect(again.body.type).toBe('/problems/booking-over');
  });

  test.each([
    ['in the future', () => ahead(1)],
    ['before the honey came in', () => hoursAgo(4)],
  ])('is not %s', async (_, when) => {
    const one = await adas({ startsAt: hoursAgo(5), endsAt: ahead(2) });
    await club.ada.post(`${one}/arrival`, { at: hoursAgo(3) }).expect(200);

    const { body } = await club.ada.post(`${one}/release`, { clearedAt: when() }).expect(422);

    expect(body.errors[0].pointer).toBe('#/clearedAt');
  });

  test('by a steward tells the holder why', async () => {
    const one = await adas({ startsAt: hoursAgo(5), endsAt: ahead(2) });

    await club.steward.post(`${one}/release`, { reason: 'Nobody came' }).expect(200);

    expect(await toldTo(service, club.ada.memberId)).toMatchObject([
      { kind: 'booking.released', details: { reason: 'Nobody came' } },
    ]);
    const { body } = await club.steward.get(
      `${club.path}/audit?subjectId=${one.split('/').at(-1)!}`,
    );
    expect(body.items[0]).toMatchObject({
      action: 'booking.released',
      details: { reason: 'Nobody came' },
    });
  });
});

describe('a booking for which nobody came', () => {
  const list = async () => (await club.ben.get(`${club.path}/no-shows`).expect(200)).body.items;
  const sweep = () => sweepNoShows(service.app.get(Database), new Date());

  test('is listed four hours after its start, or when the club says', async () => {
    const one = await adas({ startsAt: hoursAgo(3), endsAt: ahead(2) });
    expect(await list()).toEqual([]);

    await club.steward.change(club.path, { noShowMinutes: 150 });

    expect(await list()).toEqual([
      expect.objectContaining({
        bookingId: one.split('/').at(-1),
        memberId: club.ada.memberId,
        stationName: 'Cabinet',
        places: [1],
        expectedBy: hoursAgo(0.5).toISOString(),
      }),
    ]);
    await club.ada.post(`${one}/arrival`).expect(200);
    expect(await list()).toEqual([]);
  });

  test('comes in pages, in order of start', async () => {
    for (const hours of [6, 7]) await adas({ startsAt: hoursAgo(hours), endsAt: ahead(2) });
    const noShows = `${club.path}/no-shows`;

    const first = await club.ben.get(`${noShows}?limit=1`).expect(200);
    const rest = await club.ben.get(`${noShows}?cursor=${String(first.body.nextCursor)}`);

    expect(first.body.items[0].startsAt).toBe(hoursAgo(7).toISOString());
    expect(rest.body.items[0].startsAt).toBe(hoursAgo(6).toISOString());
  });

  test('is told once to its holder and to the stewards, and stays booked', async () => {
    const one = await adas({ startsAt: hoursAgo(5), endsAt: ahead(2) });

    expect(await sweep()).toBeGreaterThan(0);
    expect(await sweep()).toBe(0);

    for (const { memberId } of [club.ada, club.steward]) {
      expect(await toldTo(service, memberId)).toEqual([
        expect.objectContaining({ kind: 'booking.no-show', subjectId: one.split('/').at(-1) }),
      ]);
    }
    expect(await toldTo(service, club.ben.memberId)).toEqual([]);
    expect((await club.ada.get(one)).body.state).toBe('booked');
  });

  test('is released by a steward, and what is left goes to who waits', async () => {
    const one = await adas({ startsAt: hoursAgo(5), endsAt: ahead(2), places: 2 });
    const wish = await club.ben
      .post(`${club.path}/waiting-list`, {
        stationId,
        duty: 'warm',
        minC: 40,
        maxC: 45,
        places: 2,
        minutes: 60,
        notBefore: hoursAgo(0),
        notAfter: hoursLater(ahead(2), -1),
      })
      .expect(201);

    await club.steward.post(`${one}/release`, { reason: 'Nobody came' }).expect(200);

    const { body } = await club.ben.get(`${club.path}/waiting-list/${String(wish.body.id)}`);
    expect(body.state).toBe('offered');
    expect(await list()).toEqual([]);
  });
});
