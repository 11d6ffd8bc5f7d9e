import { aLot, aPlannedBatch, aSource, lotsOutOfBalance, minutesAgo } from '../support/lots';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';

const service = useService();

interface World extends ClubWorld {
  batches: string;
  sourceId: string;
  honeyId: string;
  /** Five kilograms. */
  seedId: string;
}

/** Ada has honey and five kilograms of seed. */
async function aWorld(): Promise<World> {
  const club = await aClub(service);
  const sourceId = await aSource(service, club.clubId);
  const honeyId = await aLot(club.ada, club, sourceId);
  const seedId = await aLot(club.ada, club, sourceId, { kind: 'seed', massKg: 5 });
  return { ...club, batches: `${club.path}/batches`, sourceId, honeyId, seedId };
}

/** A batch of Ada's that reserves so much of the seed. */
async function reserving({ ada, batches, honeyId, seedId }: World, massKg: number) {
  const { body } = await ada
    .post(batches, {
      name: 'Autumn',
      honey: [{ lotId: honeyId, massKg: 10 }],
      seed: [{ lotId: seedId, massKg }],
    })
    .expect(201);
  return { path: `${batches}/${String(body.id)}`, body };
}

async function seedOf({ ada, path, seedId }: World) {
  const { body } = await ada.get(`${path}/lots/${seedId}`).expect(200);
  return [body.remainingMassKg, body.reservedMassKg] as [number, number];
}

const stirIn = (actor: Actor, batchPath: string, seed?: object[]) =>
  actor.post(`${batchPath}/steps`, { kind: 'seeded', at: minutesAgo(1), seed });

test('a batch shows the seed reserved for it, and so does the lot', async () => {
  const world = await aWorld();

  const { path, body } = await reserving(world, 3);

  expect(body.seed).toMatchObject([{ lotId: world.seedId, massKg: 3 }]);
  expect((await world.ada.get(path)).body).toEqual(body);
  expect(await seedOf(world)).toEqual([5, 3]);
});

test('reserved seed is not withdrawn, lent or reserved once more; the refusal says what is free', async () => {
  const world = await aWorld();
  const { ada, ben, path, seedId, honeyId, sourceId } = world;
  await reserving(world, 3);
  const lot = `${path}/lots/${seedId}`;
  const other = await aPlannedBatch(ada, world, sourceId);
  const what = { kind: 'lost', at: minutesAgo(1) };
  const loan = { lotId: seedId, borrowerId: ben.memberId, at: minutesAgo(1) };
  const seed = [{ lotId: seedId, massKg: 2.001 }];

  const refused = [
    await ada.post(`${lot}/withdrawals`, { ...what, massKg: 2.001 }),
    await ada.post(`${path}/loans`, { ...loan, massKg: 2.001 }),
    await ada.post(world.batches, { name: 'B', honey: [{ lotId: honeyId, massKg: 1 }], seed }),
    await ada.change(other.path, { seed }),
    await stirIn(ada, other.path, seed),
  ];

  for (const { status, body } of refused) {
    expect(status).toBe(409);
    expect(body).toMatchObject({
      type: '/problems/seed-reserved',
      lotId: seedId,
      remainingMassKg: 5,
      reservedMassKg: 3,
      freeMassKg: 2,
    });
  }
  const pointers = refused.map(({ body }) => body.errors[0].pointer as string);
  expect(pointers).toEqual(['#/massKg', '#/massKg', ...Array(3).fill('#/seed/0/massKg')]);
  expect(await seedOf(world)).toEqual([5, 3]);
  // What is free goes, to the gram; and more than there is is not a matter of reservations.
  await ada.post(`${lot}/withdrawals`, { ...what, massKg: 2 }).expect(201);
  const tooMuch = await ada.post(`${lot}/withdrawals`, { ...what, massKg: 3.001 }).expect(409);
  expect(tooMuch.body.type).toBe('/problems/not-enough-mass');
  expect(await seedOf(world)).toEqual([3, 3]);
});

test('seeding draws the reserved seed without naming it, and lets the reservation go', async () => {
  const world = await aWorld();
  const { path } = await reserving(world, 3);

  await stirIn(world.ada, path).expect(201);

  const { body } = await world.ada.get(path);
  expect(body.seed).toMatchObject([{ lotId: world.seedId, massKg: 3 }]);
  expect(await seedOf(world)).toEqual([2, 0]);
  expect(await lotsOutOfBalance(service)).toEqual([]);
});

test('what of the reserved seed does not go in is free again', async () => {
  const world = await aWorld();
  const { path } = await reserving(world, 3);
  const otherId = await aLot(world.ada, world, world.sourceId, { kind: 'seed', massKg: 1 });

  await stirIn(world.ada, path, [
    { lotId: world.seedId, massKg: 1 },
    { lotId: otherId, massKg: 1 },
  ]).expect(201);

  expect(await seedOf(world)).toEqual([4, 0]);
  expect((await world.ada.get(path)).body.seed).toHaveLength(2);
});

test('a batch may draw more of a lot than it reserved, as far as others leave it free', async () => {
  const world = await aWorld();
  const { path } = await reserving(world, 1);
  await reserving(world, 2);

  const tooMuch = await stirIn(world.ada, path, [{ lotId: world.seedId, massKg: 3.5 }]).expect(409);
  expect(tooMuch.body).toMatchObject({ type: '/problems/seed-reserved', freeMassKg: 3 });
  // Refused, it kept what it had.
  expect(await seedOf(world)).toEqual([5, 3]);

  await stirIn(world.ada, path, [{ lotId: world.seedId, massKg: 3 }]).expect(201);
  expect(await seedOf(world)).toEqual([2, 2]);
});

test('abandoning a batch lets its seed go', async () => {
  const world = await aWorld();
  const { path } = await reserving(world, 5);

  await world.ada.post(`${path}/steps`, { kind: 'abandoned', at: minutesAgo(1) }).expect(201);

  expect(await seedOf(world)).toEqual([5, 0]);
  expect((await world.ada.get(path)).body.seed).toEqual([]);
});

test('other seed is reserved in place of what was; none lets it go; after seeding it is too late', async () => {
  const world = await aWorld();
  const { ada, seedId } = world;
  const { path } = await reserving(world, 5);

  const less = await ada.change(path, { seed: [{ lotId: seedId, massKg: 4.5 }] });
  expect([less.status, less.body.seed[0].massKg]).toEqual([200, 4.5]);
  const named = await ada.change(path, { name: 'Late autumn' });
  expect(named.body.seed[0].massKg).toBe(4.5);
  const none = await ada.change(path, { seed: [] });
  expect([none.status, none.body.seed]).toEqual([200, []]);
  expect(await seedOf(world)).toEqual([5, 0]);

  const nothingNamed = await stirIn(ada, path).expect(422);
  expect(nothingNamed.body.errors[0].pointer).toBe('#');
  await stirIn(ada, path, [{ lotId: seedId, massKg: 1 }]).expect(201);
  const late = await ada.change(path, { seed: [{ lotId: seedId, massKg: 1 }] });
  expect([late.status, late.body.type]).toEqual([409, '/problems/step-out-of-order']);
});

test('seed is reserved for a batch of whoever holds it, and is seed', async () => {
  const world = await aWorld();
  const { ada, ben, steward, batches, honeyId, seedId, sourceId } = world;
  const bensHoney = await aLot(ben, world, sourceId);
  const honey = [{ lotId: bensHoney, massKg: 5 }];

  const bens = await ben
    .post(batches, { name: 'B', honey, seed: [{ lotId: seedId, massKg: 1 }] })
    .expect(409);
  const notSeed = await ada
    .post(batches, {
      name: 'B',
      honey: [{ lotId: honeyId, massKg: 1 }],
      seed: [{ lotId: honeyId, massKg: 1 }],
    })
    .expect(409);
  const bySteward = await steward.post(batches, {
    name: 'For Ada',
    memberId: ada.memberId.toUpperCase(),
    honey,
    seed: [{ lotId: seedId.toUpperCase(), massKg: 1 }],
  });

  expect(bens.body.type).toBe('/problems/lot-unsuitable');
  expect(bens.body.errors[0].pointer).toBe('#/seed/0/lotId');
  expect(notSeed.body.type).toBe('/problems/lot-unsuitable');
  expect(bySteward.status).toBe(201);
});

test('of many who reserve the same seed at once, only as many get it as it lasts for', async () => {
  const world = await aWorld();
  const { ada, batches, honeyId, seedId } = world;
  const seed = [{ lotId: seedId, massKg: 1 }];
  const honey = [{ lotId: honeyId, massKg: 1 }];

  const answers = await Promise.all(
    Array.from({ length: 20 }, (_, index) =>
      index % 2 === 0
        ? ada.post(batches, { name: 'Race', honey, seed })
        : ada.post(`${world.path}/lots/${seedId}/withdrawals`, {
            kind: 'lost',
            massKg: 1,
            at: minutesAgo(0.1),
          }),
    ),
  );

  const made = answers.filter(({ status }) => status === 201);
  expect(made).toHaveLength(5);
  expect(answers.filter(({ status }) => status === 409)).toHaveLength(15);
  const [remaining, reserved] = await seedOf(world);
  expect(remaining).toBe(reserved);
});
