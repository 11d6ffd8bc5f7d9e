import { randomUUID } from 'node:crypto';
import { aLot, aPlannedBatch, aSource } from '../support/lots';
import { aCabinet, bookWarming, hoursLater } from '../support/room';
import { useService } from '../support/service';
import { aClub, nobody } from '../support/world';

const service = useService();

const loadedAt = new Date('2026-03-02T08:00:00.000Z');
const at = (hours: number) => hoursLater(loadedAt, hours).toISOString();

async function aBatch() {
  const club = await aClub(service);
  const { ada, path } = club;
  const lotId = await aLot(ada, club, await aSource(service, club.clubId));
  const { body } = await ada
    .post(`${path}/batches`, { name: 'Lime', honey: [{ lotId, massKg: 25 }] })
    .expect(201);
  const batchId = String(body.id);
  const batch = `${path}/batches/${batchId}`;
  const step = (kind: string, hours: number, more: object = {}) =>
    ada.post(`${batch}/steps`, { kind, at: at(hours), ...more }).expect(201);
  const temperatures = async () => (await ada.get(`${batch}/temperatures`).expect(200)).body;
  return { ...club, club, lotId, batch, batchId, step, temperatures };
}

type World = Awaited<ReturnType<typeof aBatch>>;

/** Books two days of warming at 45 °C for the batch, from when it was loaded on. */
async function book({ club, batchId, ada }: World): Promise<string> {
  const stationId = await aCabinet(club);
  await bookWarming(club, {
    stationId,
    memberId: ada.memberId,
    batchId,
    startsAt: at(0),
    endsAt: at(48),
  });
  return stationId;
}

async function logs(
  { ada, path }: World,
  spot: object,
  readings: [hours: number, temperatureC: number][],
): Promise<string> {
  const name = `Probe ${randomUUID().slice(0, 8)}`;
  const { body } = await ada
    .post(`${path}/probes`, { name, placedAt: at(-1), ...spot })
    .expect(201);
  await ada
    .post(`${path}/probes/${String(body.id)}/readings`, {
      readings: readings.map(([hours, temperatureC]) => ({ at: at(hours), temperatureC })),
    })
    .expect(200);
  return name;
}

/** Every ten minutes: up by a degree an hour from 12 °C to 44, held, and from hour 48 on down by one an hour. */
const dayAndNight = Array.from({ length: 74 * 6 }, (_, index): [number, number] => {
  const hours = index / 6;
  const temperatureC = hours < 48 ? Math.min(44, 12 + hours) : 44 - (hours - 48);
  return [hours, Math.round(temperatureC * 10) / 10];
});

test('a batch of which nothing is booked or done has nothing planned, and says why', async () => {
  const { temperatures } = await aBatch();

  const body = await temperatures();

  expect(body).toMatchObject({
    planned: null,
    whyNotPlanned: expect.stringContaining('no warming is booked'),
    logged: [],
    limits: { clearC: 40, seedC: 24, hottestC: 50, mostHmfMgPerKg: 40, leastDiastaseNumber: 8 },
  });
});

test('the planned course runs from loading to the end of its booking, then in the room', async () => {
  const world = await aBatch();
  await book(world);
  await world.step('loaded', 1, { temperatureC: 14 });

  const { planned, whyNotPlanned } = await world.temperatures();

  expect(whyNotPlanned).toBeNull();
  expect(planned).toMatchObject({
    startsAt: at(1),
    takenOutAt: at(48),
    airC: 45,
    roomC: 18,
  });
  expect(planned.points[0]).toMatchObject({ at: at(1), coldestC: 14, airC: 45 });
  expect(planned.clearAt > at(24) && planned.clearAt < at(48)).toBe(true);
  expect(planned.coolEnoughAt > at(60) && planned.coolEnoughAt < at(90)).toBe(true);
  expect(planned.costAtTheRim.diastaseLeftPercent).toBeLessThan(planned.cost.diastaseLeftPercent);
  expect(planned.assumptions.map(({ text }: { text: string }) => text).join(' ')).toContain(
    'taken out when its booking ends',
  );
  // The warming of the reckoning is the same one.
  const { body } = await world.ada.get(`${world.batch}/reckoning`).expect(200);
  const hours = (Date.parse(planned.clearAt) - Date.parse(at(1))) / 3_600_000;
  expect(hours).toBeCloseTo(body.warming.hoursUntilClear, 0);
});

test('a probe in the honey tells when it was clear, how warm it got and when it was cool', async () => {
  const world = await aBatch();
  const stationId = await book(world);
  await world.step('loaded', 0, { temperatureC: 12 });
  const inHoney = await logs(world, { batchId: world.batchId }, dayAndNight);
  const inAir = await logs(world, { stationId }, [
    [0, 40],
    [24, 45.5],
    [47, 45.2],
    // After the booking somebody else's honey stands there.
    [49, 30],
  ]);

  const { logged } = await world.temperatures();

  expect(logged).toMatchObject([
    {
      probeName: inHoney,
      place: 'honey',
      readings: dayAndNight.length,
      clearAt: at(28),
      coolEnoughAt: at(68),
      warmestC: 44,
      warmestAt: at(32),
    },
    { probeName: inAir, place: 'air', readings: 3, warmestC: 45.5, cost: null },
  ]);
  const points = logged[0].points as { at: string; temperatureC: number }[];
  expect(points.length).toBeLessThanOrEqual(241);
  expect(points.length).toBeGreaterThan(100);
  expect(points.map((point) => point.at)).toEqual(points.map((point) => point.at).sort());
  // White, Kushnir & Subers 1964: half of the diastase is left after 31 days at 40 °C; here it was a little more than a day near 44.
  expect(logged[0].cost.diastaseLeftPercent).toBeGreaterThan(90);
  expect(logged[0].cost.diastaseLeftPercent).toBeLessThan(98);
});

test('what is logged after the honey was cool is of the cool room, not of the warming', async () => {
  const world = await aBatch();
  await book(world);
  await world.step('loaded', 0, { temperatureC: 12 });
  await world.step('cleared', 48, { temperatureC: 44 });
  await world.step('cooled', 72, { temperatureC: 23 });
  await logs(world, { batchId: world.batchId }, [
    [0, 12],
    [48, 44],
    [72, 23],
    [500, 13],
  ]);

  const { logged } = await world.temperatures();

  expect(logged[0].readings).toBe(3);
});

test('of a club that one is not in there is no batch', async () => {
  const { batch } = await aBatch();
  const { ada } = await aClub(service);

  await ada.get(`${batch}/temperatures`).expect(404);
  await nobody(service).get(`${batch}/temperatures`).expect(401);
});

describe('the list of batches', () => {
  const found = async ({ ada, path }: World, query: string) =>
    (await ada.get(`${path}/batches?${query}`).expect(200)).body.items as {
      name: string;
      troubles: string[];
    }[];

  test('finds batches by a part of their name', async () => {
    const world = await aBatch();
    await aPlannedBatch(world.ada, world.club, await aSource(service, world.clubId));

    expect((await found(world, 'search=LIM')).map(({ name }) => name)).toEqual(['Lime']);
    // Signs that mean something to a pattern mean themselves.
    expect(await found(world, 'search=%25')).toEqual([]);
  });

  test('marks honey that got too hot, stands too long or is on hold', async () => {
    const world = await aBatch();
    expect(await found(world, '')).toMatchObject([{ troubles: [] }]);

    await book(world);
    await world.step('loaded', 0, { temperatureC: 12 });
    await world.ada
      .post(`${world.path}/lots/${world.lotId}/holds`, { reason: 'Smells odd', evidence: '' })
      .expect(201);
    await logs(world, { batchId: world.batchId }, [[20, 51.3]]);

    expect(await found(world, '')).toMatchObject([
      { troubles: ['on-hold', 'overstay', 'too-hot'] },
    ]);
  });
});
