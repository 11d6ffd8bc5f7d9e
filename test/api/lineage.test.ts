import { checkLedger } from '../../src/core/lineage/mass-balance';
import { seededRandom } from '../../src/core/random';
import { enumeratePaths } from '../core/lineage/path-enumeration';
import {
  aLot,
  aPlannedBatch,
  aSource,
  countStatements,
  lotsOutOfBalance,
  minutesAgo,
} from '../support/lots';
import { aSeedLine } from '../support/seed-line';
import { useService } from '../support/service';
import { aClub, type Actor, type ClubWorld } from '../support/world';

const service = useService();

async function aWorld(): Promise<ClubWorld & { lots: string; sourceId: string }> {
  const club = await aClub(service);
  const sourceId = await aSource(service, club.clubId);
  return { ...club, lots: `${club.path}/lots`, sourceId };
}

async function edgesOf(clubId: string) {
  return service.database.query<{ childId: string; parentId: string; massG: number }>(
    `select child_id as "childId", parent_id as "parentId", mass_g as "massG" from lot_input where club_id = $1`,
    [clubId],
  );
}

test('what is in a pot is told exactly, by lot, by flower, by country and by seed line', async () => {
  const { ada, lots, sourceId, ...club } = await aWorld();
  const lime = await aSource(service, club.clubId, 'Lime');
  const { path, honeyId, seedId } = await aPlannedBatch(ada, club, sourceId, 20);
  const limeId = await aLot(ada, club, lime, {
    sources: [
      [lime, 75],
      [sourceId, 25],
    ],
    countries: [
      ['SI', 60],
      ['AT', 40],
    ],
  });
  await ada
    .post(`${path}/steps`, {
      kind: 'seeded',
      at: minutesAgo(90),
      honey: [
        { lotId: honeyId, massKg: 12 },
        { lotId: limeId, massKg: 6 },
      ],
      seed: [{ lotId: seedId, massKg: 2 }],
      lossKg: 1,
    })
    .expect(201);
  const potted = await ada
    .post(`${path}/steps`, {
      kind: 'potted',
      at: minutesAgo(60),
      pots: [{ netMassKg: 0.5, count: 20 }],
      seedPutByKg: 3,
    })
    .expect(201);
  const nextSeedId = String(potted.body.madeLotId);

  const { body } = await ada.get(`${lots}/${nextSeedId}/ancestors`).expect(200);

  // By hand: of 20 kg, 12 are the first honey, 6 the second, 2 the seed; 3 kg of it were put by.
  const parts = Object.fromEntries(
    body.items.map((item: { lotId: string }) => [item.lotId, item]),
  ) as Record<string, object>;
  expect(Object.keys(parts)).toHaveLength(4);
  expect(parts[honeyId]).toMatchObject({
    share: 0.6,
    shareFraction: '3/5',
    massKg: 1.8,
    nearestSteps: 2,
    farthestSteps: 2,
    kind: 'honey',
    holder: { id: ada.memberId },
  });
  expect(parts[limeId]).toMatchObject({ share: 0.3, shareFraction: '3/10', massKg: 0.9 });
  expect(parts[seedId]).toMatchObject({ share: 0.1, shareFraction: '1/10', massKg: 0.3 });
  expect(body.items[0]).toMatchObject({ shareFraction: '1/1', massKg: 3, nearestSteps: 1 });
  // 0.3 x 0.75 of lime; 0.3 x 0.6 from SI.
  expect(body.floralComposition).toEqual([
    { floralSourceId: sourceId, name: expect.any(String), share: 0.775, shareFraction: '31/40' },
    { floralSourceId: lime, name: 'Lime', share: 0.225, shareFraction: '9/40' },
  ]);
  expect(body.originComposition).toEqual([
    { countryCode: 'AT', share: 0.82, shareFraction: '41/50' },
    { countryCode: 'SI', share: 0.18, shareFraction: '9/50' },
  ]);
  expect(body).toMatchObject({
    generation: 1,
    firstSeedShare: 0.1,
    firstSeedShareFraction: '1/10',
  });
  const { body: down } = await ada.get(`${lots}/${limeId}/descendants`).expect(200);
  // Of the creamed lot 19 kg were left: 5.7 kg of them are from the second honey.
  expect(down.items).toMatchObject([
    { kind: 'creamed', shareFraction: '3/10', massKg: 5.7, nearestSteps: 1 },
    { lotId: nextSeedId, shareFraction: '3/10', massKg: 0.9, nearestSteps: 2 },
  ]);
});

test('a lot that was brought in has no ancestors, and is what it was said to be', async () => {
  const { ada, lots, sourceId, ...club } = await aWorld();
  const honeyId = await aLot(ada, club, sourceId);
  const seedId = await aLot(ada, club, sourceId, { kind: 'seed' });

  const { body: honey, headers } = await ada.get(`${lots}/${honeyId}/ancestors`).expect(200);
  const { body: seed } = await ada.get(`${lots}/${seedId}/ancestors`).expect(200);
  const { body: down } = await ada.get(`${lots}/${seedId}/descendants`).expect(200);

  expect(honey).toMatchObject({
    items: [],
    floralComposition: [{ floralSourceId: sourceId, share: 1, shareFraction: '1/1' }],
    originComposition: [{ countryCode: 'AT', shareFraction: '1/1' }],
    generation: null,
    firstSeedShare: 0,
  });
  expect(seed).toMatchObject({ generation: 0, firstSeedShare: 1 });
  expect(down.items).toEqual([]);
  await ada
    .get(`${lots}/${honeyId}/ancestors`)
    .set('If-None-Match', String(headers['etag']))
    .expect(304);
});

test('after whatever members did, every ledger closes and every share is that of all its paths', async () => {
  const { steward, ada, ben, lots, sourceId, ...club } = await aWorld();
  const random = seededRandom(4);
  const members: Actor[] = [steward, ada, ben];
  const pick = <T>(list: T[]): T => list[Math.floor(random() * list.length)]!;
  const mass = (max: number) => Math.max(1, Math.floor(random() * max * 1000)) / 1000;
  const lotsOf = async (member: Actor, kind: string): Promise<string[]> => {
    const { body } = await member.get(
      `${lots}?kind=${kind}&holderId=${member.memberId}&withMass=true&limit=200`,
    );
    return body.items.map(({ id }: { id: string }) => id);
  };
  // A lot is used after it was made: each deed comes later than the one before.
  let minutesLeft = 1000;
  const later = () => minutesAgo((minutesLeft -= 1));
  const two = (ids: string[]) => [...new Set([pick(ids), pick(ids)])];

  const operations: Record<string, (member: Actor) => Promise<number>> = {
    async batch(member) {
      const honey = two(await lotsOf(member, 'honey')).map((lotId) => ({ lotId, massKg: mass(5) }));
      const seed = two(await lotsOf(member, 'seed')).map((lotId) => ({ lotId, massKg: mass(1) }));
      const planned = await member.post(`${club.path}/batches`, { name: 'Batch', honey });
      if (planned.status !== 201) return planned.status;
      const steps = `${club.path}/batches/${String(planned.body.id)}/steps`;
      const lossKg = mass(0.1);
      const seeded = { kind: 'seeded', at: later(), seed, lossKg };
      const { status } = await member.post(steps, seeded);
      if (status !== 201) return status;
      const pots = [{ netMassKg: mass(0.5), count: 1 + Math.floor(random() * 5) }];
      const potted = { kind: 'potted', at: later(), pots, seedPutByKg: mass(3), lossKg };
      return (await member.post(steps, potted)).status;
    },
    async loan(member) {
      const lotId = pick(await lotsOf(member, 'seed'));
      const borrowerId = pick(members.filter((other) => other !== member)).memberId;
      const loan = { lotId, borrowerId, massKg: mass(2), at: later() };
      return (await member.post(`${club.path}/loans`, loan)).status;
    },
    async withdrawal(member) {
      const lotId = pick(await lotsOf(member, pick(['honey', 'seed'])));
      const kind = pick(['used', 'lost', 'potted']);
      const body = { kind, massKg: mass(4), at: later() };
      return (await member.post(`${lots}/${lotId}/withdrawals`, body)).status;
    },
  };

  for (const member of members) {
    for (const kind of ['honey', 'honey', 'seed', 'seed'] as const) {
      await aLot(member, club, sourceId, { kind, massKg: 40 });
    }
  }
  const statuses: number[] = [];
  for (let count = 0; count < 60; count++) {
    statuses.push(await operations[pick(['batch', 'batch', 'loan', 'withdrawal'])]!(pick(members)));
  }

  expect(new Set(statuses)).toEqual(new Set([201, 409]));
  expect(await lotsOutOfBalance(service)).toEqual([]);
  const all: { id: string }[] = [];
  for (let cursor: string | null = ''; cursor !== null;) {
    const page = await ada.get(`${lots}?limit=200${cursor && `&cursor=${cursor}`}`);
    all.push(...page.body.items);
    cursor = page.body.nextCursor as string | null;
  }
  const edges = await edgesOf(club.clubId);
  expect(edges.length).toBeGreaterThan(60);
  const found = new Map<string, Map<string, string>>();
  for (const lot of all) {
    const grams = Object.fromEntries(
      Object.entries(lot)
        .filter(([name]) => name.endsWith('MassKg') && name !== 'inputMassKg')
        .map(([name, kg]) => [name.replace('Kg', 'G'), Math.round(Number(kg) * 1000)]),
    );
    expect(checkLedger(grams as never)).toEqual({ closes: true, unaccountedG: 0 });

    const { body } = await ada.get(`${lots}/${lot.id}/ancestors`).expect(200);
    const told = body.items.map((item: Record<string, unknown>) => [
      item['lotId'],
      {
        share: item['shareFraction'],
        nearest: item['nearestSteps'],
        farthest: item['farthestSteps'],
      },
    ]);
    const wanted = [...enumeratePaths(edges, lot.id)].map(
      ([id, { share, nearest, farthest }]) => [id, { share, nearest, farthest }] as const,
    );
    expect(Object.fromEntries(told)).toEqual(Object.fromEntries(wanted));
    for (const [id, { share }] of wanted) {
      found.set(id, (found.get(id) ?? new Map<string, string>()).set(lot.id, share));
    }
  }
  for (const { id } of all) {
    const { body } = await ada.get(`${lots}/${id}/descendants`).expect(200);
    const told = body.items.map((item: Record<string, unknown>) => [
      item['lotId'],
      item['shareFraction'],
    ]);
    expect(Object.fromEntries(told)).toEqual(Object.fromEntries(found.get(id) ?? []));
  }
});

test('a line of a thousand lots is traced both ways in one statement, and one to know the caller', async () => {
  const { ada, clubId, lots, sourceId } = await aWorld();
  const line = await aSeedLine(service, clubId, ada.memberId, sourceId, 333);
  let up: Record<string, unknown[]> = {};
  let down: Record<string, unknown[]> = {};
  await ada.get(lots).expect(200);

  const upStatements = await countStatements(async () => {
    up = (await ada.get(`${lots}/${line.lastSeedId}/ancestors`).expect(200)).body as typeof up;
  });
  const downStatements = await countStatements(async () => {
    down = (await ada.get(`${lots}/${line.firstSeedId}/descendants`).expect(200)).body as typeof up;
  });

  expect({ upStatements, downStatements }).toEqual({ upStatements: 2, downStatements: 2 });
  expect(line.count).toBe(1000);
  expect(up['items']).toHaveLength(999);
  expect(down['items']).toHaveLength(666);
  expect(up).toMatchObject({
    generation: 333,
    floralComposition: [{ floralSourceId: sourceId, share: 1, shareFraction: '1/1' }],
    originComposition: [{ countryCode: 'AT' }, { countryCode: 'SI' }],
  });
  // The last batch is 20 kg of honey in 22.003 kg; what is too long to read is not written out.
  expect(up['items']).toContainEqual(
    expect.objectContaining({ kind: 'honey', nearestSteps: 2, shareFraction: '20000/22003' }),
  );
  expect(up['items']!.at(-1)).toMatchObject({ shareFraction: null, nearestSteps: 666 });
});
