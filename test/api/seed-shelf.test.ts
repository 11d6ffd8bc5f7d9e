import { randomUUID } from 'node:crypto';
import { aLot, aSeededBatch, aSource, countStatements, daysAgo, minutesAgo } from '../support/lots';
import { ahead } from '../support/room';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let shelf: string;
let lime: string;
let rape: string;

beforeEach(async () => {
  club = await aClub(service);
  shelf = `${club.path}/seed-shelf`;
  lime = await aSource(service, club.clubId, 'Lime');
  rape = await aSource(service, club.clubId, 'Rape');
});

interface Seed {
  lotId: string;
  name: string;
  texture: Record<string, number | null>;
  [field: string]: unknown;
}

async function shelfOf(actor: Actor, query = ''): Promise<Seed[]> {
  const { body } = await actor.get(`${shelf}${query}`).expect(200);
  return body.items as Seed[];
}

async function seedOf(actor: Actor, source: string, massKg: number, grain?: string) {
  const id = await aLot(actor, club, source, { kind: 'seed', massKg });
  if (grain !== undefined) await actor.change(`${club.path}/lots/${id}`, { grain });
  return id;
}

/** A batch of the actor with that seed in it, that became so. */
async function aBatchThatBecame(actor: Actor, seedId: string, texture: string) {
  const honeyId = await aLot(actor, club, lime, { massKg: 10 });
  const { body } = await actor
    .post(`${club.path}/batches`, { name: texture, honey: [{ lotId: honeyId, massKg: 10 }] })
    .expect(201);
  const batch = `${club.path}/batches/${String(body.id)}`;
  const seeded = {
    kind: 'seeded',
    at: minutesAgo(60),
    seed: [{ lotId: seedId, massKg: 0.1 }],
  };
  await actor.post(`${batch}/steps`, seeded).expect(201);
  const { body: check } = await actor
    .post(`${batch}/setting-checks`, { at: minutesAgo(9), state: 'thickening', texture })
    .expect(201);
  return { batch, check: `${batch}/setting-checks/${String(check.id)}` };
}

test('the shelf shows all seed of which something is left: whose, how much is free, reserved and lent, how old', async () => {
  const honeyId = await aLot(club.ada, club, lime);
  const seed = await seedOf(club.ada, lime, 4, 'fine');
  const empty = await seedOf(club.ada, lime, 1);
  await club.ada
    .post(`${club.path}/lots/${empty}/withdrawals`, {
      kind: 'lost',
      massKg: 1,
      at: minutesAgo(1),
    })
    .expect(201);
  await club.ada
    .post(`${club.path}/batches`, {
      name: 'Planned',
      honey: [{ lotId: honeyId, massKg: 10 }],
      seed: [{ lotId: seed, massKg: 1 }],
    })
    .expect(201);
  const { body: loan } = await club.ada
    .post(`${club.path}/loans`, {
      lotId: seed,
      borrowerId: club.ben.memberId,
      massKg: 0.5,
      at: minutesAgo(5),
    })
    .expect(201);

  const [lent, own, ...others] = await shelfOf(club.ben);

  expect(others).toEqual([]);
  expect(own).toMatchObject({
    lotId: seed,
    code: (await club.ada.get(`${club.path}/lots/${seed}`)).body.code,
    holder: { id: club.ada.memberId },
    remainingMassKg: 3.5,
    reservedMassKg: 1,
    freeMassKg: 2.5,
    lentOutMassKg: 0.5,
    onHold: false,
    grain: 'fine',
    floralComposition: [{ floralSourceId: lime, name: 'Lime', share: 1 }],
    originComposition: [{ countryCode: 'AT', share: 1 }],
    generation: 0,
    firstSeedShare: 1,
    ageDays: 0,
    texture: { batches: 0, score: null, pooledScore: null },
    standsAt: null,
  });
  expect(lent).toMatchObject({
    lotId: loan.toLot.id,
    holder: { id: club.ben.memberId },
    freeMassKg: 0.5,
    lentOutMassKg: 0,
    grain: 'fine',
    madeAt: own!['madeAt'],
    floralComposition: [{ floralSourceId: lime, share: 1 }],
  });
});

test('seed that a batch put by is known by what is in it, and stands where its batch does', async () => {
  const { batchId, path, seedId } = await aSeededBatch(club.ada, club, lime, daysAgo(3));
  await club.ada
    .post(`${path}/steps`, {
      kind: 'potted',
      at: daysAgo(2),
      pots: [{ netMassKg: 0.5, count: 30 }],
      seedPutByKg: 2,
      seedGrain: 'fine',
    })
    .expect(201);
  const { body: station } = await club.steward
    .post(`${club.path}/stations`, {
      name: 'Cool room',
      placeLoadKg: 30,
      changeoverMinutes: 0,
      places: 4,
      duties: [{ duty: 'cool', minC: 10, maxC: 18 }],
    })
    .expect(201);
  await club.steward
    .post(`${club.path}/bookings`, {
      stationId: station.id,
      duty: 'cool',
      minC: 12,
      maxC: 16,
      places: 2,
      batchId,
      memberId: club.ada.memberId,
      startsAt: ahead(-1),
      endsAt: ahead(9),
    })
    .expect(201);

  const [putBy] = (await shelfOf(club.ada)).filter(({ lotId }) => lotId !== seedId);

  expect(putBy).toMatchObject({
    generation: 1,
    ageDays: 2,
    grain: 'fine',
    standsAt: { stationName: 'Cool room', places: [1, 2] },
  });
  // 2 kg of seed in 22 kg.
  expect(putBy!['firstSeedShare']).toBeCloseTo(1 / 11, 12);
});

test('the texture is that of the batches it made, whoever held it; a look that was struck out does not count', async () => {
  const seed = await seedOf(club.ada, lime, 4);
  const other = await seedOf(club.ada, lime, 4);
  await aBatchThatBecame(club.ada, seed, 'smooth');
  await aBatchThatBecame(club.ada, seed, 'grainy');
  const { batch } = await aBatchThatBecame(club.ada, other, 'gritty');
  const mistaken = await aBatchThatBecame(club.ada, seed, 'gritty');
  await club.ada.post(`${mistaken.check}/strike-out`, { because: 'Wrong pail.' }).expect(200);
  const { body: loan } = await club.ada
    .post(`${club.path}/loans`, {
      lotId: seed,
      borrowerId: club.ben.memberId,
      massKg: 1,
      at: minutesAgo(90),
    })
    .expect(201);
  await aBatchThatBecame(club.ben, String(loan.toLot.id), 'smooth');
  // Looked at again, it is better than it seemed: the last look counts.
  await club.ada
    .post(`${batch}/setting-checks`, { at: minutesAgo(1), state: 'thickening', texture: 'grainy' })
    .expect(201);

  const byId = new Map((await shelfOf(club.ada)).map((one) => [one.lotId, one]));

  const texture = { batches: 3, smooth: 2, grainy: 1, gritty: 0, score: 0.833 };
  // The club’s mean is 3 of 4: (2.5 + 2 · 0.75) / 5.
  expect(byId.get(seed)?.texture).toEqual({ ...texture, pooledScore: 0.8 });
  expect(byId.get(String(loan.toLot.id))?.texture).toEqual({ ...texture, pooledScore: 0.8 });
  expect(byId.get(other)?.texture).toMatchObject({ batches: 1, score: 0.5, pooledScore: 0.667 });
});

test('it is filtered by holder, floral source and grain, comes in pages, and takes one statement', async () => {
  const fine = await seedOf(club.ada, lime, 2, 'fine');
  const mixed = await aLot(club.ben, club, lime, {
    kind: 'seed',
    massKg: 2,
    sources: [
      [lime, 40],
      [rape, 60],
    ],
  });
  const of = async (query: string) => (await shelfOf(club.ada, query)).map(({ lotId }) => lotId);
  expect(await of('')).toEqual([mixed, fine]);
  expect(await of('?mine=true')).toEqual([fine]);
  expect(await of('?grain=fine')).toEqual([fine]);
  expect(await of(`?floralSourceId=${rape}`)).toEqual([mixed]);
  expect(await of(`?floralSourceId=${randomUUID()}`)).toEqual([]);
  const { body: first } = await club.ada.get(`${shelf}?limit=1`).expect(200);
  const { body: second } = await club.ada.get(
    `${shelf}?limit=1&cursor=${String(first.nextCursor)}`,
  );
  expect([first.items[0].lotId, second.items[0].lotId]).toEqual([mixed, fine]);
  expect(second.nextCursor).toBeNull();
  await club.ada.get(`${shelf}?mine=true&cursor=${String(first.nextCursor)}`).expect(400);
  expect(await countStatements(() => club.ada.get(shelf).expect(200))).toBe(2);
});

describe('which seed fits', () => {
  interface Fitting {
    neededMassKg: number;
    coarsestGrain: string | null;
    inWords: string;
    items: {
      lotId: string;
      rank: number;
      fits: boolean;
      toBorrow: boolean;
      obstacles: string[];
      why: string[];
    }[];
  }

  test('a batch is told of all seed, the best first, with what speaks against the rest', async () => {
    const coarse = await seedOf(club.ada, lime, 4, 'coarse');
    const little = await seedOf(club.ada, lime, 0.999, 'fine');
    const bens = await seedOf(club.ben, lime, 4, 'fine');
    const ofRape = await seedOf(club.ada, rape, 4, 'fine');
    const honeyId = await aLot(club.ada, club, lime, { massKg: 20 });
    const own = await seedOf(club.ada, lime, 2.5, 'fine');
    const wish = { name: 'Lime', honey: [{ lotId: honeyId, massKg: 10 }] };
    await club.ada
      .post(`${club.path}/batches`, { ...wish, seed: [{ lotId: own, massKg: 1.9 }] })
      .expect(201);
    const { body: batch } = await club.ada
      .post(`${club.path}/batches`, { ...wish, seed: [{ lotId: own, massKg: 0.6 }] })
      .expect(201);
    const path = `${club.path}/batches/${String(batch.id)}/fitting-seed`;

    const { body } = await club.ada.get(path).expect(200);
    const { neededMassKg, coarsestGrain, inWords, items } = body as Fitting;
    const { body: less } = await club.ada.get(`${path}?seedPercent=6`).expect(200);

    expect([neededMassKg, coarsestGrain]).toEqual([1, 'fine']);
    expect(items.map(({ lotId, rank, obstacles }) => [rank, lotId, obstacles])).toEqual([
      [1, bens, []],
      [2, ofRape, []],
      [3, coarse, ['too-coarse']],
      [4, own, ['too-little']],
      [5, little, ['too-little']],
    ]);
    expect(items.map(({ fits, toBorrow }) => [fits, toBorrow])).toEqual([
      [true, true],
      [true, false],
      [false, false],
      [false, false],
      [false, false],
    ]);
    expect(inWords).toMatch(/fits best, to be borrowed from Person/);
    expect(items[0]!.why.join(' ')).toMatch(/Enough: 4 kg .* it must be borrowed/);
    expect(items[2]!.why.join(' ')).toContain('Too coarse: it is coarse');
    // The batch’s own reservation is free for it; that of the other batch is not.
    expect(items[3]!.why.join(' ')).toContain('Too little: 0.6 kg are free of the 1 kg');
    expect((less as Fitting).items.find(({ lotId }) => lotId === own)?.fits).toBe(true);
    await club.ada.get(`${club.path}/batches/${randomUUID()}/fitting-seed`).expect(404);
  });

  test('a wish without a batch says what the honey is; what cannot be so is refused', async () => {
    const ofLime = await seedOf(club.ada, lime, 4, 'medium');
    const ofRape = await seedOf(club.ada, rape, 4, 'medium');
    const path = `${club.path}/fitting-seed`;
    const ask = async (query: string) =>
      (await club.ada.get(`${path}?${query}`).expect(200)).body as Fitting;

    const some = await ask(`honeyMassKg=20&floralShares=${rape}:80,${lime}:20&grain=medium`);
    expect(some.items.map(({ lotId }) => lotId)).toEqual([ofRape, ofLime]);
    expect(some.neededMassKg).toBe(2);
    const strict = await ask(`honeyMassKg=20&floralShares=${rape}:100`);
    expect(strict.coarsestGrain).toBe('fine');
    expect(strict.items.map(({ fits }) => fits)).toEqual([false, false]);
    expect(strict.inWords).toMatch(/^No seed fits\. The nearest is .*: too-coarse\.$/);
    const open = await ask('honeyMassKg=20');
    expect(open.coarsestGrain).toBeNull();

    for (const bad of [
      'grain=fine',
      'honeyMassKg=0',
      'honeyMassKg=2&floralShares=lime:50',
      `honeyMassKg=2&floralShares=${randomUUID()}:50`,
      `honeyMassKg=2&floralShares=${lime}:50,${lime}:20`,
      `honeyMassKg=2&floralShares=${lime}:90,${rape}:20`,
    ]) {
      const { body } = await club.ada.get(`${path}?${bad}`).expect(422);
      expect(body.errors[0].parameter).toBe(
        bad.includes('floral') ? 'floralShares' : 'honeyMassKg',
      );
    }
  });

  test('of more seed than is compared what may fit comes first, and what was left out is told', async () => {
    const fits = await seedOf(club.ben, lime, 4, 'fine');
    const small = (massG: number) => ({
      clubId: club.clubId,
      kind: 'seed' as const,
      name: 'A spoon',
      holderId: club.ada.memberId,
      initialMassG: massG,
      remainingMassG: massG,
      grain: 'fine' as const,
    });
    const few = Array.from({ length: 498 }, () => small(100));
    await service.prisma.lot.createMany({ data: few });
    const coarse = await seedOf(club.ada, lime, 4, 'coarse');
    const wish = `${club.path}/fitting-seed?honeyMassKg=25&floralShares=${lime}:100`;

    const { body: all } = await club.ada.get(wish).expect(200);
    await service.prisma.lot.createMany({ data: [small(100), small(100), small(100)] });
    const { body: more } = await club.ada.get(wish).expect(200);

    expect(all.seedLots).toBe(500);
    expect(all.inWords).not.toContain('not compared');
    expect([more.items.length, more.seedLots]).toEqual([500, 503]);
    expect(more.items[0]).toMatchObject({ lotId: fits, fits: true, toBorrow: true });
    expect(more.items[1]).toMatchObject({ lotId: coarse, obstacles: ['too-coarse'] });
    expect(more.inWords).toMatch(/fits best.* 3 more lots of seed were not compared/);
  });

  test('a batch that has its seed is told so; a club without seed, too', async () => {
    const { body: none } = await club.ada.get(`${club.path}/fitting-seed?honeyMassKg=5`);
    expect((none as Fitting).inWords).toBe('Nobody in the club has seed on record: bring some in.');
    const { path } = await aSeededBatch(club.ada, club, lime, minutesAgo(9));
    const { body } = await club.ada.get(`${path}/fitting-seed`).expect(200);
    expect((body as Fitting).inWords).toMatch(/^Seed was stirred into this batch already\./);
  });
});
