import { Database } from '../../src/platform/database';
import { seededBatches, type WantedBatches } from '../../src/setting-times/seeded-batch-rows';
import { aLotBody, aSource } from '../support/lots';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();
const seededAt = Date.parse('2026-03-10T08:00:00Z');
const dayMs = 86_400_000;
const hourMs = 3_600_000;
const day = (days: number) => new Date(seededAt + days * dayMs);

interface World extends ClubWorld {
  sourceId: string;
}

async function aWorld(): Promise<World> {
  const club = await aClub(service);
  return { ...club, sourceId: await aSource(service, club.clubId, 'Rape') };
}

async function aLot({ ada, path, sourceId }: World, change: object): Promise<string> {
  const body = { ...aLotBody(sourceId), ...change };
  return (await ada.post(`${path}/lots`, body).expect(201)).body.id as string;
}

interface Masses {
  honey: [lotId: string, massKg: number][];
  seed: [lotId: string, massKg: number][];
}

async function aBatch({ ada, path }: World, { honey, seed }: Masses, at = day(0)): Promise<string> {
  const parts = (masses: [string, number][]) =>
    masses.map(([lotId, massKg]) => ({ lotId, massKg }));
  const { body } = await ada
    .post(`${path}/batches`, { name: 'Batch', honey: parts(honey) })
    .expect(201);
  await ada
    .post(`${path}/batches/${String(body.id)}/steps`, { kind: 'seeded', at, seed: parts(seed) })
    .expect(201);
  return body.id as string;
}

/** As it came from the paper diary. */
async function forgetMoisture({ clubId }: World, id: string): Promise<void> {
  await service.prisma.lot.update({
    where: { clubId_id: { clubId, id } },
    data: { moistureCentiPercent: null },
  });
}

async function anyBatch(world: World, at = day(0)): Promise<string> {
  const honey = await aLot(world, {});
  const seed = await aLot(world, { kind: 'seed', massKg: 5 });
  return aBatch(world, { honey: [[honey, 10]], seed: [[seed, 1]] }, at);
}

async function read({ clubId }: World, wanted: Partial<WantedBatches> = {}) {
  const all = { withTemperature: true, ...wanted };
  return seededBatches(service.app.get(Database), clubId, all);
}

test('a batch tells its seed, moisture and age by mass, as far as they are known', async () => {
  const world = await aWorld();
  const dry = await aLot(world, { moisturePercent: 17, extractedOn: '2026-03-01' });
  const wet = await aLot(world, { moisturePercent: 20, extractedOn: '2026-02-01' });
  const unknown = await aLot(world, {});
  await forgetMoisture(world, unknown);
  const fine = await aLot(world, { kind: 'seed', grain: 'fine', name: 'Fine seed' });
  const coarse = await aLot(world, { kind: 'seed', grain: 'coarse' });
  const honey: Masses['honey'] = [
    [dry, 20],
    [wet, 10],
    [unknown, 15],
  ];
  const seed: Masses['seed'] = [
    [fine, 3],
    [coarse, 2],
  ];
  const batchId = await aBatch(world, { honey, seed });

  const [batch] = await read(world);

  expect(batch).toEqual({
    batchId,
    seededAt,
    season: 'March to May',
    isAbandoned: false,
    floralSourceId: world.sourceId,
    floralSourceName: 'Rape',
    checks: [],
    seedFraction: 0.1,
    seedGrain: 'fine',
    waterPercent: expect.closeTo((20 * 17 + 10 * 20) / 30, 10),
    // From midnight of the day of extraction until eight in the morning: 9 and 37 days and 8 hours.
    honeyAgeDays: expect.closeTo((20 * 9 + 10 * 37) / 30 + 8 / 24, 10),
    seedLineId: fine,
    seedLineName: 'Fine seed',
    stationId: null,
    stationName: null,
    settingTemperature: null,
  });
});

test('a batch of which little was written down says so', async () => {
  const world = await aWorld();
  const honey = await aLot(world, {});
  await forgetMoisture(world, honey);
  const seed = await aLot(world, { kind: 'seed' });
  await aBatch(world, { honey: [[honey, 10]], seed: [[seed, 1]] });

  expect((await read(world))[0]).toMatchObject({
    seedGrain: null,
    waterPercent: null,
    honeyAgeDays: null,
  });
});

test('a seed line goes back over the heaviest seed of each batch to the lot that began it', async () => {
  const world = await aWorld();
  const { ada, path } = world;
  const first = await aLot(world, { kind: 'seed', name: 'Bought seed' });
  let seed = first;
  for (const generation of [0, 1, 2]) {
    const other = await aLot(world, { kind: 'seed', name: 'Other seed' });
    const honey = await aLot(world, {});
    const masses: Masses = {
      honey: [[honey, 10]],
      seed: [
        [seed, 2],
        [other, 1],
      ],
    };
    const batchId = await aBatch(world, masses, day(generation));
    const potted = { kind: 'potted', at: day(generation + 0.5), seedPutByKg: 5 };
    await ada
      .post(`${path}/batches/${batchId}/steps`, { ...potted, pots: [{ netMassKg: 1, count: 1 }] })
      .expect(201);
    seed = (await service.prisma.lot.findFirstOrThrow({ where: { batchId, kind: 'seed' } })).id;
  }

  const batches = await read(world);

  expect(batches.map(({ seedLineId }) => seedLineId)).toEqual([first, first, first]);
  expect(batches[2]?.seedLineName).toBe('Bought seed');
});

describe('the setting temperature of a batch', () => {
  async function aStation({ steward, path }: World, name: string): Promise<string> {
    const { body } = await steward
      .post(`${path}/stations`, {
        name,
        placeLoadKg: 200,
        changeoverMinutes: 0,
        duties: [{ duty: 'cool', minC: 5, maxC: 20 }],
        places: 4,
      })
      .expect(201);
    return body.id as string;
  }

  async function aCoolBooking(
    { clubId, ada }: World,
    booking: {
      stationId: string;
      batchId: string;
      from: number;
      to: number;
      band: [number, number];
    },
  ): Promise<void> {
    await service.prisma.booking.create({
      data: {
        clubId,
        stationId: booking.stationId,
        duty: 'cool',
        memberId: ada.memberId,
        batchId: booking.batchId,
        minDeciC: booking.band[0] * 10,
        maxDeciC: booking.band[1] * 10,
        startsAt: day(booking.from),
        endsAt: day(booking.to),
        changeoverMinutes: 0,
      },
    });
  }

  /** Readings of one probe, in a place from day 0 on: one every so many hours. */
  async function readings(
    { clubId, ada }: World,
    place: { stationId: string } | { batchId: string },
    {
      from = 0,
      to,
      everyHours,
      temperatureC,
    }: {
      from?: number;
      to: number;
      everyHours: number;
      temperatureC: (days: number) => number;
    },
  ): Promise<void> {
    const probe = await service.prisma.probe.create({
      data: { clubId, name: `Probe ${JSON.stringify(place)} ${from}` },
    });
    await service.prisma.probePlacement.create({
      data: { clubId, probeId: probe.id, startsAt: day(-1), ...place },
    });
    const times = Array.from(
      { length: Math.floor(((to - from) * 24) / everyHours) },
      (_, index) => from + (index * everyHours) / 24,
    );
    await service.prisma.reading.createMany({
      data: times.map((days) => ({
        clubId,
        probeId: probe.id,
        at: day(days),
        temperatureDeciC: Math.round(temperatureC(days) * 10),
        recordedById: ada.memberId,
      })),
    });
  }

  async function aBatchThatSet(world: World, { setAfterDays }: { setAfterDays: number }) {
    const batchId = await anyBatch(world);
    await world.ada
      .post(`${world.path}/batches/${batchId}/setting-checks`, {
        at: day(setAfterDays),
        state: 'set',
      })
      .expect(201);
    return batchId;
  }

  test('is the middle of the band of the cool booking in which it stood the longest', async () => {
    const world = await aWorld();
    const batchId = await aBatchThatSet(world, { setAfterDays: 10 });
    const small = await aStation(world, 'Cupboard');
    const large = await aStation(world, 'Cool room');
    // Before the seeding it only cooled down; the second booking goes on long after the batch had set.
    await aCoolBooking(world, { stationId: large, batchId, from: -2, to: 0, band: [15, 20] });
    await aCoolBooking(world, { stationId: small, batchId, from: 0, to: 4, band: [16, 18] });
    await aCoolBooking(world, { stationId: large, batchId, from: 4, to: 40, band: [12, 14] });

    const [batch] = await read(world);

    expect(batch).toMatchObject({
      stationId: large,
      stationName: 'Cool room',
      settingTemperature: { meanC: 13, from: 'band' },
    });
    expect((await read(world, { withTemperature: false }))[0]).toMatchObject({
      stationId: large,
      settingTemperature: null,
    });
  });

  test('is the mean over time of thermometers in its station, not the mean of the readings', async () => {
    const world = await aWorld();
    const batchId = await aBatchThatSet(world, { setAfterDays: 10 });
    const stationId = await aStation(world, 'Cool room');
    await aCoolBooking(world, { stationId, batchId, from: 0, to: 20, band: [10, 16] });
    // Twelve times as many readings in the warm half.
    await readings(world, { stationId }, { to: 5, everyHours: 4, temperatureC: () => 12 });
    await readings(
      world,
      { stationId },
      { from: 5, to: 12, everyHours: 1 / 3, temperatureC: () => 16 },
    );

    const [batch] = await read(world);

    expect(batch?.settingTemperature).toEqual({ meanC: expect.closeTo(14, 1), from: 'readings' });
  });

  test('follows a straight line between readings a few hours apart', async () => {
    const world = await aWorld();
    const batchId = await aBatchThatSet(world, { setAfterDays: 10 });
    // From 10 to 20 degrees in ten days.
    await readings(
      world,
      { batchId },
      { to: 10.5, everyHours: 6, temperatureC: (days) => 10 + days },
    );

    const [batch] = await read(world);

    expect(batch?.settingTemperature).toEqual({ meanC: expect.closeTo(15, 1), from: 'readings' });
  });

  test('goes by thermometers in the honey before those in the station', async () => {
    const world = await aWorld();
    const batchId = await aBatchThatSet(world, { setAfterDays: 10 });
    const stationId = await aStation(world, 'Cool room');
    await aCoolBooking(world, { stationId, batchId, from: 0, to: 20, band: [10, 16] });
    await readings(world, { stationId }, { to: 12, everyHours: 1, temperatureC: () => 12 });
    await readings(world, { batchId }, { to: 12, everyHours: 1, temperatureC: () => 13.4 });

    expect((await read(world))[0]?.settingTemperature).toEqual({
      meanC: expect.closeTo(13.4, 6),
      from: 'readings',
    });
  });

  test.each([
    ['less than half of the time', { to: 4.5, everyHours: 1 }],
    ['single moments more than six hours apart', { to: 12, everyHours: 8 }],
  ])('does not go by readings that tell of %s', async (_, wish) => {
    const world = await aWorld();
    const batchId = await aBatchThatSet(world, { setAfterDays: 10 });
    const stationId = await aStation(world, 'Cool room');
    await aCoolBooking(world, { stationId, batchId, from: 0, to: 20, band: [10, 16] });
    await readings(world, { stationId }, { ...wish, temperatureC: () => 19 });

    expect((await read(world))[0]?.settingTemperature).toEqual({ meanC: 13, from: 'band' });
  });
});

test('batches are those asked for, and of other clubs none', async () => {
  const world = await aWorld();
  const other = await aWorld();
  const first = await anyBatch(world, day(0));
  const second = await anyBatch(world, new Date(seededAt + hourMs));
  const foreign = await anyBatch(other);
  const ids = async (wanted: Partial<WantedBatches>) =>
    (await read(world, wanted)).map(({ batchId }) => batchId);

  expect(await ids({})).toEqual([first, second]);
  expect(await ids({ batchIds: [second, foreign] })).toEqual([second]);
  expect(await ids({ batchIds: [] })).toEqual([]);
  expect(await ids({ until: new Date(seededAt + hourMs) })).toEqual([first]);
});
