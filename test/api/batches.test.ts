import { randomUUID } from 'node:crypto';
import {
  aLot,
  aPlannedBatch,
  aSeededBatch,
  aSource,
  countStatements,
  daysAgo,
  lotsOutOfBalance,
  minutesAgo,
} from '../support/lots';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

async function aWorld(): Promise<ClubWorld & { batches: string; lots: string; sourceId: string }> {
  const club = await aClub(service);
  const sourceId = await aSource(service, club.clubId);
  return { ...club, batches: `${club.path}/batches`, lots: `${club.path}/lots`, sourceId };
}

describe('planning', () => {
  test('a planned batch shows the honey meant for it, and draws nothing yet', async () => {
    const { ada, sourceId, lots, ...club } = await aWorld();

    const { path, honeyId } = await aPlannedBatch(ada, club, sourceId, 20);

    const { body } = await ada.get(path).expect(200);
    expect(body).toMatchObject({
      name: 'Spring',
      member: { id: ada.memberId },
      stage: 'planned',
      honey: [{ lotId: honeyId, massKg: 20 }],
      floralShares: [{ floralSourceId: sourceId, percent: 100 }],
      seed: [],
      creamed: null,
      pots: [],
      seedPutBy: null,
      steps: [],
      checks: [],
    });
    const { body: lot } = await ada.get(`${lots}/${honeyId}`);
    expect(lot.remainingMassKg).toBe(25);
  });

  test('the floral shares of a batch are those of its honey, by mass', async () => {
    const { ada, sourceId, batches, ...club } = await aWorld();
    const other = await aSource(service, club.clubId);
    const plain = await aLot(ada, club, sourceId);
    const mixed = await aLot(ada, club, sourceId, {
      sources: [
        [sourceId, 50],
        [other, 50],
      ],
    });
    const honey = [
      { lotId: plain, massKg: 10 },
      { lotId: mixed, massKg: 5 },
    ];

    const { body } = await ada.post(batches, { name: 'Mixed', honey }).expect(201);

    // 12.5 of 15 kg and 2.5 of 15 kg.
    expect(body.floralShares).toMatchObject([
      { floralSourceId: sourceId, percent: 83.33 },
      { floralSourceId: other, percent: 16.67 },
    ]);
  });

  test('a steward plans for a member, with honey of others; a member does neither', async () => {
    const { steward, ada, ben, sourceId, batches, ...club } = await aWorld();
    const honey = [{ lotId: await aLot(ben, club, sourceId), massKg: 5 }];

    const byAda = await ada.post(batches, { name: 'Not mine', honey }).expect(403);
    const forBen = await ada
      .post(batches, { name: 'For Ben', honey, memberId: ben.memberId })
      .expect(403);
    const { body } = await steward
      .post(batches, { name: 'For Ada', honey, memberId: ada.memberId })
      .expect(201);

    expect(byAda.body.type).toBe('/problems/not-yours');
    expect(forBen.body.type).toBe('/problems/not-allowed');
    expect(body.member.id).toBe(ada.memberId);
  });

  test('a batch cannot be planned with what is not there', async () => {
    const { steward, ada, sourceId, batches, ...club } = await aWorld();
    const other = await aWorld();
    const honeyId = await aLot(ada, club, sourceId, { massKg: 3 });
    const seedId = await aLot(ada, club, sourceId, { kind: 'seed' });
    const foreignId = await aLot(other.ada, other, other.sourceId);
    const plan = (honey: object[], more: object = {}) =>
      ada.post(batches, { name: 'Spring', honey, ...more });

    const tooMuch = await plan([{ lotId: honeyId, massKg: 3.001 }]).expect(409);
    const seed = await plan([{ lotId: seedId, massKg: 1 }]).expect(409);
    const unknown = await plan([{ lotId: randomUUID(), massKg: 1 }]).expect(422);
    const foreign = await plan([{ lotId: foreignId, massKg: 1 }]).expect(422);
    const twice = await plan([
      { lotId: honeyId, massKg: 1 },
      { lotId: honeyId.toUpperCase(), massKg: 1 },
    ]).expect(422);
    const none = await plan([]).expect(422);
    const field = await plan([{ lotId: honeyId, massKg: 1 }], { stage: 'set' }).expect(422);
    const stranger = await steward
      .post(batches, {
        name: 'For nobody',
        honey: [{ lotId: honeyId, massKg: 1 }],
        memberId: other.ada.memberId,
      })
      .expect(422);

    expect(tooMuch.body).toMatchObject({ type: '/problems/not-enough-mass', remainingMassKg: 3 });
    expect(seed.body.type).toBe('/problems/lot-unsuitable');
    expect(unknown.body).toEqual(foreign.body);
    expect(unknown.body.errors[0].pointer).toBe('#/honey/0/lotId');
    expect(twice.body.errors[0].pointer).toBe('#/honey/1/lotId');
    expect(none.body.errors[0].pointer).toBe('#/honey');
    expect(field.body.errors[0].pointer).toBe('#/stage');
    expect(stranger.body.errors[0].pointer).toBe('#/memberId');
    const { body: page } = await ada.get(batches);
    expect(page.items).toEqual([]);
  });

  test('the same key plans once', async () => {
    const { ada, sourceId, batches, ...club } = await aWorld();
    const honey = [{ lotId: await aLot(ada, club, sourceId), massKg: 5 }];
    const key = randomUUID();

    const first = await ada.post(batches, { name: 'One', honey }).set('Idempotency-Key', key);
    const again = await ada.post(batches, { name: 'One', honey }).set('Idempotency-Key', key);

    expect(again.body).toEqual(first.body);
    const { body: page } = await ada.get(batches);
    expect(page.items).toHaveLength(1);
  });

  test('until it is seeded, a batch may get other honey; its member and a steward change it', async () => {
    const { steward, ada, ben, sourceId, ...club } = await aWorld();
    const { path } = await aPlannedBatch(ada, club, sourceId);
    const otherId = await aLot(ada, club, sourceId);
    const bensId = await aLot(ben, club, sourceId);
    const seedId = await aLot(ada, club, sourceId, { kind: 'seed' });

    const changed = await ada.change(path, {
      name: 'Late spring',
      honey: [{ lotId: otherId, massKg: 7 }],
    });
    const byBen = await ben.change(path, { name: 'Mine' });
    const bens = await ada.change(path, { honey: [{ lotId: bensId, massKg: 1 }] });
    const seed = await ada.change(path, { honey: [{ lotId: seedId, massKg: 1 }] });
    const tooMuch = await ada.change(path, { honey: [{ lotId: otherId, massKg: 25.5 }] });
    const bySteward = await steward.change(path, { honey: [{ lotId: bensId, massKg: 2 }] });
    const field = await ada.change(path, { memberId: ben.memberId });
    const stale = await ada.patch(path, { name: 'Old' }).set('If-Match', '"old"').expect(412);
    await ada.patch(path, { name: 'Old' }).expect(428);
    await ada
      .patch(`${club.path}/batches/${randomUUID()}`, { name: 'Old' })
      .set('If-Match', '"old"')
      .expect(404);

    expect(changed.body).toMatchObject({
      name: 'Late spring',
      honey: [{ lotId: otherId, massKg: 7 }],
    });
    expect(byBen.body.type).toBe('/problems/not-yours');
    expect(bens.body.type).toBe('/problems/not-yours');
    expect(seed.body.type).toBe('/problems/lot-unsuitable');
    expect(tooMuch.body.type).toBe('/problems/not-enough-mass');
    expect(bySteward.body.honey).toMatchObject([{ lotId: bensId, massKg: 2 }]);
    expect(field.body.errors[0].pointer).toBe('#/memberId');
    expect(stale.body.type).toBe('/problems/stale');
  });
});

describe('steps', () => {
  test('a whole batch closes to the gram, from pails to pots and seed put by', async () => {
    const { ada, sourceId, lots, ...club } = await aWorld();
    const { path, honeyId, seedId } = await aPlannedBatch(ada, club, sourceId, 20);
    const step = (body: object) => ada.post(`${path}/steps`, body).expect(201);

    await step({ kind: 'loaded', at: daysAgo(12) });
    await step({ kind: 'cleared', at: daysAgo(10), temperatureC: 42.5, note: 'clear at last' });
    await step({ kind: 'cooled', at: daysAgo(9.5), temperatureC: 24 });
    const seeded = await step({
      kind: 'seeded',
      at: daysAgo(9),
      seed: [{ lotId: seedId, massKg: 2.2 }],
      lossKg: 0.137,
    });
    const potted = await step({
      kind: 'potted',
      at: daysAgo(8.9),
      pots: [
        { netMassKg: 0.5, count: 30 },
        { netMassKg: 0.25, count: 15 },
      ],
      seedPutByKg: 2.5,
      seedName: 'Spring seed',
      seedGrain: 'fine',
      lossKg: 0.063,
    });
    await step({ kind: 'shelved', at: daysAgo(8.8), temperatureC: 14 });
    await ada.post(`${path}/setting-checks`, { at: daysAgo(2), state: 'set' }).expect(201);

    const { body } = await ada.get(path).expect(200);
    // 20 + 2.2 = 22.2 went in, 0.137 lost: 22.063. Of that 15 + 3.75 potted, 2.5 put by, 0.063 lost: 0.75 left.
    expect(body).toMatchObject({
      stage: 'set',
      seed: [{ lotId: seedId, massKg: 2.2 }],
      creamed: {
        lotId: seeded.body.madeLotId,
        inputMassKg: 22.2,
        initialMassKg: 22.063,
        remainingMassKg: 0.75,
        usedMassKg: 2.5,
        pottedMassKg: 18.75,
        lostMassKg: 0.063,
      },
      pots: [
        { netMassKg: 0.25, count: 15 },
        { netMassKg: 0.5, count: 30 },
      ],
      seedPutBy: { lotId: potted.body.madeLotId, name: 'Spring seed', massKg: 2.5 },
      checks: [{ state: 'set' }],
    });
    expect(body.steps.map(({ kind }: { kind: string }) => kind)).toEqual([
      'loaded',
      'cleared',
      'cooled',
      'seeded',
      'potted',
      'shelved',
      'set',
    ]);
    const { body: honey } = await ada.get(`${lots}/${honeyId}`);
    expect(honey).toMatchObject({ remainingMassKg: 5, usedMassKg: 20 });
    const { body: seed } = await ada.get(`${lots}/${String(potted.body.madeLotId)}`);
    expect(seed).toMatchObject({ kind: 'seed', grain: 'fine', depth: 2, initialMassKg: 2.5 });
    const { body: creamed } = await ada.get(`${lots}/${String(seeded.body.madeLotId)}`);
    expect(creamed).toMatchObject({ kind: 'creamed', name: 'Spring', depth: 1, floralShares: [] });
    expect(await lotsOutOfBalance(service)).toEqual([]);
    const steps = await ada.get(`${path}/steps?limit=3`).expect(200);
    const rest = await ada.get(`${path}/steps?cursor=${String(steps.body.nextCursor)}`);
    expect([...steps.body.items, ...rest.body.items]).toEqual(body.steps);
    await ada.get(`${path}/steps?cursor=x.y`).expect(400);
    await ada.get(`${path}/steps?limit=-1`).expect(422);
    // Every gram that went in is with a lot that is still there, or is written down as gone.
    const [sum] = await service.database.query<{ whole: number; found: number }>(
      `select (select sum(initial_mass_g) from lot where club_id = $1 and depth = 0)::int as whole,
        (select sum(remaining_mass_g + potted_mass_g + lost_mass_g) from lot where club_id = $1)::int
        + (select sum(input_mass_g - initial_mass_g) from lot where club_id = $1 and depth > 0)::int as found`,
      [club.clubId],
    );
    expect(sum?.found).toBe(sum?.whole);
  });

  test('the honey that really went in takes the place of what was meant', async () => {
    const { ada, sourceId, lots, ...club } = await aWorld();
    const { path, honeyId, seedId } = await aPlannedBatch(ada, club, sourceId, 20);
    const otherId = await aLot(ada, club, sourceId);

    await ada
      .post(`${path}/steps`, {
        kind: 'seeded',
        at: minutesAgo(5),
        seed: [{ lotId: seedId, massKg: 2 }],
        honey: [
          { lotId: honeyId, massKg: 19.5 },
          { lotId: otherId, massKg: 1 },
        ],
      })
      .expect(201);

    const { body } = await ada.get(path);
    expect(body.honey).toMatchObject([
      { lotId: honeyId, massKg: 19.5 },
      { lotId: otherId, massKg: 1 },
    ]);
    expect(body.creamed).toMatchObject({ inputMassKg: 22.5, remainingMassKg: 22.5 });
    const { body: lot } = await ada.get(`${lots}/${honeyId}`);
    expect(lot.remainingMassKg).toBe(5.5);
  });

  test('a step that does not come next is refused, and those that do are told', async () => {
    const { ada, sourceId, ...club } = await aWorld();
    const { path } = await aPlannedBatch(ada, club, sourceId);
    const pots = [{ netMassKg: 0.5, count: 2 }];

    const early = await ada
      .post(`${path}/steps`, { kind: 'potted', at: minutesAgo(1), pots })
      .expect(409);
    await ada.post(`${path}/steps`, { kind: 'cleared', at: minutesAgo(9) }).expect(201);
    const back = await ada
      .post(`${path}/steps`, { kind: 'loaded', at: minutesAgo(10) })
      .expect(409);
    const twice = await ada
      .post(`${path}/steps`, { kind: 'cleared', at: minutesAgo(8) })
      .expect(409);

    expect(early.body).toMatchObject({
      type: '/problems/step-out-of-order',
      nextSteps: ['loaded', 'cleared', 'cooled', 'seeded', 'abandoned'],
    });
    expect(early.body.detail).toContain('loaded or cleared or cooled or seeded or abandoned');
    expect(back.body.nextSteps).toEqual(['cooled', 'seeded', 'abandoned']);
    expect(twice.body.nextSteps).toEqual(['cooled', 'seeded', 'abandoned']);
    const { body } = await ada.get(path);
    expect(body.steps).toHaveLength(1);
  });

  test('after a batch is abandoned, nothing more is done to it', async () => {
    const { ada, ben, sourceId, ...club } = await aWorld();
    const { path } = await aSeededBatch(ada, club, sourceId, daysAgo(3));
    await ada.post(`${path}/steps`, { kind: 'abandoned', at: daysAgo(1) }).expect(201);

    const step = await ada
      .post(`${path}/steps`, { kind: 'shelved', at: minutesAgo(1) })
      .expect(409);
    const check = await ben
      .post(`${path}/setting-checks`, { state: 'liquid', at: minutesAgo(1) })
      .expect(409);
    const honey = await ada.change(path, { honey: [{ lotId: randomUUID(), massKg: 1 }] });

    expect(step.body).toMatchObject({ type: '/problems/step-out-of-order', nextSteps: [] });
    expect(check.body.type).toBe('/problems/step-out-of-order');
    expect(honey.body.type).toBe('/problems/step-out-of-order');
  });

  test.each<[string, object, string]>([
    ['a batch that set by itself', { kind: 'set' }, '#/kind'],
    ['seeding without seed', { kind: 'seeded' }, '#'],
    ['potting without pots', { kind: 'potted' }, '#'],
    [
      'pots when seed is stirred in',
      { kind: 'loaded', pots: [{ netMassKg: 1, count: 1 }] },
      '#/pots',
    ],
    ['loss when loading', { kind: 'loaded', lossKg: 1 }, '#/lossKg'],
    [
      'a name for seed that was not put by',
      { kind: 'potted', pots: [{ netMassKg: 1, count: 1 }], seedName: 'Seed' },
      '#/seedName',
    ],
    [
      'one size of pot twice',
      {
        kind: 'potted',
        pots: [
          { netMassKg: 1, count: 1 },
          { netMassKg: 1, count: 2 },
        ],
      },
      '#/pots/1/netMassKg',
    ],
    ['a step of next week', { kind: 'loaded', at: '2098-01-01T00:00:00Z' }, '#/at'],
    ['a temperature that honey never has', { kind: 'loaded', temperatureC: 200 }, '#/temperatureC'],
    ['an unknown field', { kind: 'loaded', stage: 'set' }, '#/stage'],
  ])('%s is refused', async (_, change, pointer) => {
    const { ada, sourceId, ...club } = await aWorld();
    const { path } = await aPlannedBatch(ada, club, sourceId);

    const { body } = await ada.post(`${path}/steps`, { at: minutesAgo(1), ...change }).expect(422);

    expect(body.errors[0].pointer).toBe(pointer);
    const { body: batch } = await ada.get(path);
    expect(batch.stage).toBe('planned');
  });

  test('time does not run backwards along the steps', async () => {
    const { ada, sourceId, ...club } = await aWorld();
    const { path } = await aPlannedBatch(ada, club, sourceId);
    const at = minutesAgo(60);
    await ada.post(`${path}/steps`, { kind: 'loaded', at }).expect(201);

    const { body } = await ada
      .post(`${path}/steps`, { kind: 'cleared', at: minutesAgo(61) })
      .expect(422);
    await ada.post(`${path}/steps`, { kind: 'cleared', at }).expect(201);

    expect(body.errors[0].pointer).toBe('#/at');
    expect(body.detail).toContain(at);
  });

  test('seed is of the right kind, held by the batch’s member, and there', async () => {
    const { steward, ada, ben, sourceId, lots, ...club } = await aWorld();
    const { path, honeyId, seedId } = await aPlannedBatch(ada, club, sourceId);
    const bensId = await aLot(ben, club, sourceId, { kind: 'seed' });
    const bensHoneyId = await aLot(ben, club, sourceId);
    const otherHoneyId = await aLot(ada, club, sourceId);
    const seeded = (seed: object[], more: object = {}) => ({
      kind: 'seeded',
      at: minutesAgo(1),
      seed,
      ...more,
    });
    const good = [{ lotId: seedId, massKg: 2 }];

    const bens = await ada.post(`${path}/steps`, seeded([{ lotId: bensId, massKg: 1 }]));
    const bySteward = await steward.post(`${path}/steps`, seeded([{ lotId: bensId, massKg: 1 }]));
    const honey = await ada.post(`${path}/steps`, seeded([{ lotId: otherHoneyId, massKg: 1 }]));
    const tooMuch = await ada.post(`${path}/steps`, seeded([{ lotId: seedId, massKg: 5.001 }]));
    const unknown = await ada.post(`${path}/steps`, seeded([{ lotId: randomUUID(), massKg: 1 }]));
    const bensHoney = await ada.post(
      `${path}/steps`,
      seeded(good, { honey: [{ lotId: bensHoneyId, massKg: 1 }] }),
    );
    const noHoney = await ada.post(
      `${path}/steps`,
      seeded(good, { honey: [{ lotId: seedId, massKg: 1 }] }),
    );
    const allLost = await ada.post(`${path}/steps`, seeded(good, { lossKg: 22 }));
    const byBen = await ben.post(`${path}/steps`, seeded(good));
    await ada.post(`${club.path}/batches/${randomUUID()}/steps`, seeded(good)).expect(404);

    expect(bens.body.type).toBe('/problems/lot-unsuitable');
    expect(bens.body.detail).toContain('lent');
    expect(bySteward.body.type).toBe('/problems/lot-unsuitable');
    expect(honey.body.type).toBe('/problems/lot-unsuitable');
    expect(tooMuch.body).toMatchObject({ type: '/problems/not-enough-mass', remainingMassKg: 5 });
    expect(unknown.body.errors[0].pointer).toBe('#/seed/0/lotId');
    expect(bensHoney.body.type).toBe('/problems/not-yours');
    expect(noHoney.body.type).toBe('/problems/lot-unsuitable');
    expect(allLost.body.errors[0].pointer).toBe('#/lossKg');
    expect(byBen.body.type).toBe('/problems/not-yours');
    const { body: page } = await ada.get(`${lots}/${honeyId}/withdrawals`);
    expect(page.items).toEqual([]);
    const { body: batch } = await ada.get(path);
    expect(batch).toMatchObject({ stage: 'planned', creamed: null });
  });

  test('honey that is gone since it was planned stops the seeding, and nothing is drawn', async () => {
    const { ada, sourceId, lots, ...club } = await aWorld();
    const { path, honeyId, seedId } = await aPlannedBatch(ada, club, sourceId, 20);
    await ada
      .post(`${lots}/${honeyId}/withdrawals`, { kind: 'potted', massKg: 6, at: minutesAgo(9) })
      .expect(201);

    const { body } = await ada
      .post(`${path}/steps`, {
        kind: 'seeded',
        at: minutesAgo(1),
        seed: [{ lotId: seedId, massKg: 2 }],
      })
      .expect(409);

    expect(body).toMatchObject({ type: '/problems/not-enough-mass', remainingMassKg: 19 });
    const { body: seed } = await ada.get(`${lots}/${seedId}`);
    expect(seed.remainingMassKg).toBe(5);
  });

  test('more than the batch made cannot be potted', async () => {
    const { ada, sourceId, ...club } = await aWorld();
    const { path } = await aSeededBatch(ada, club, sourceId, minutesAgo(90));
    const potted = { kind: 'potted', at: minutesAgo(1), pots: [{ netMassKg: 1, count: 20 }] };

    const { body } = await ada
      .post(`${path}/steps`, { ...potted, seedPutByKg: 2, lossKg: 0.001 })
      .expect(409);
    await ada.post(`${path}/steps`, { ...potted, seedPutByKg: 2 }).expect(201);

    expect(body).toMatchObject({ type: '/problems/not-enough-mass', remainingMassKg: 22 });
    const { body: batch } = await ada.get(path);
    expect(batch.creamed).toMatchObject({ remainingMassKg: 0, pottedMassKg: 20, usedMassKg: 2 });
    expect(batch.seedPutBy).toMatchObject({ name: 'Seed of Spring', massKg: 2 });
  });

  test('the same key files a step once; twenty at once with different keys, one', async () => {
    const { ada, sourceId, lots, ...club } = await aWorld();
    const { path, seedId } = await aPlannedBatch(ada, club, sourceId);
    const body = { kind: 'seeded', at: minutesAgo(5), seed: [{ lotId: seedId, massKg: 1 }] };

    const answers = await Promise.all(
      Array.from({ length: 20 }, () =>
        ada.post(`${path}/steps`, body).set('Idempotency-Key', randomUUID()),
      ),
    );
    const loaded = { kind: 'shelved', at: minutesAgo(5) };
    const refused = await ada.post(`${path}/steps`, loaded).set('Idempotency-Key', '"a"');
    const again = await ada.post(`${path}/steps`, loaded).set('Idempotency-Key', '"a"');

    expect(answers.filter(({ status }) => status === 201)).toHaveLength(1);
    expect(answers.filter(({ status }) => status === 409)).toHaveLength(19);
    expect(again.body).toEqual(refused.body);
    const { body: seed } = await ada.get(`${lots}/${seedId}`);
    expect(seed.remainingMassKg).toBe(4);
    expect(await lotsOutOfBalance(service)).toEqual([]);
  });

  test('batches that draw on the same lots at once wait for each other, and the ledger closes', async () => {
    const { ada, sourceId, batches, lots, ...club } = await aWorld();
    const lotIds = [await aLot(ada, club, sourceId), await aLot(ada, club, sourceId)];
    const seedIds = [
      await aLot(ada, club, sourceId, { kind: 'seed' }),
      await aLot(ada, club, sourceId, { kind: 'seed' }),
    ];
    const paths: string[] = [];
    for (let count = 0; count < 12; count++) {
      const order = count % 2 === 0 ? lotIds : [...lotIds].reverse();
      const honey = order.map((lotId) => ({ lotId, massKg: 2.5 }));
      const { body } = await ada.post(batches, { name: `Batch ${count}`, honey }).expect(201);
      paths.push(`${batches}/${String(body.id)}`);
    }

    // Ten draw 2.5 kg each from 25 kg; two go empty.
    const answers = await Promise.all(
      paths.map((path, count) => {
        const order = count % 2 === 0 ? seedIds : [...seedIds].reverse();
        const seed = order.map((lotId) => ({ lotId, massKg: 0.1 }));
        return ada.post(`${path}/steps`, { kind: 'seeded', at: minutesAgo(1), seed });
      }),
    );

    expect(answers.map(({ status }) => status).sort()).toEqual([
      ...Array.from({ length: 10 }, () => 201),
      409,
      409,
    ]);
    for (const lotId of lotIds) {
      const { body } = await ada.get(`${lots}/${lotId}`);
      expect(body).toMatchObject({ remainingMassKg: 0, usedMassKg: 25 });
    }
    expect(await lotsOutOfBalance(service)).toEqual([]);
  });
});

describe('looking', () => {
  test('another club’s batch is as if it were not there', async () => {
    const { ada, batches } = await aWorld();
    const other = await aWorld();
    const { batchId } = await aPlannedBatch(other.ada, other, other.sourceId);

    for (const path of ['', '/steps', '/setting-checks']) {
      const foreign = await ada.get(`${batches}/${batchId}${path}`).expect(404);
      const random = await ada.get(`${batches}/${randomUUID()}${path}`).expect(404);
      expect(foreign.body).toEqual(random.body);
    }
  });

  test('batches are found by member, by stage and by what the bees worked', async () => {
    const { ada, ben, sourceId, batches, ...club } = await aWorld();
    const lime = await aSource(service, club.clubId);
    const planned = await aPlannedBatch(ada, club, sourceId);
    const seeded = await aSeededBatch(ben, club, lime, minutesAgo(9));
    const ids = async (query: string) => {
      const { body } = await ada.get(`${batches}?${query}`).expect(200);
      return body.items.map(({ id }: { id: string }) => id);
    };

    expect(await ids(`memberId=${ben.memberId}`)).toEqual([seeded.batchId]);
    expect(await ids('stage=planned')).toEqual([planned.batchId]);
    expect(await ids('stage=seeded')).toEqual([seeded.batchId]);
    expect(await ids('stage=potted')).toEqual([]);
    expect(await ids(`floralSourceId=${lime}`)).toEqual([seeded.batchId]);
    const first = await ada.get(`${batches}?limit=1`).expect(200);
    const second = await ada.get(`${batches}?limit=1&cursor=${String(first.body.nextCursor)}`);
    expect(first.body.items[0]).toMatchObject({
      id: seeded.batchId,
      stage: 'seeded',
      honeyMassKg: 20,
    });
    expect(second.body).toMatchObject({ items: [{ id: planned.batchId }], nextCursor: null });
    await ada.get(`${batches}?stage=eaten`).expect(422);
    await ada.get(`${batches}?cursor=x.y`).expect(400);
  });

  test('a page of batches and one whole batch take one statement, and one to know the caller', async () => {
    const { ada, sourceId, batches, ...club } = await aWorld();
    const { path } = await aSeededBatch(ada, club, sourceId, daysAgo(3));
    for (let count = 0; count < 20; count++) {
      await ada.post(`${path}/setting-checks`, { at: daysAgo(1), state: 'liquid' }).expect(201);
      await aPlannedBatch(ada, club, sourceId);
    }

    const list = await countStatements(() => ada.get(batches).expect(200));
    const one = await countStatements(() => ada.get(path).expect(200));

    expect({ list, one }).toEqual({ list: 2, one: 2 });
  });

  test('who has read it is told that nothing has changed', async () => {
    const { ada, sourceId, batches, ...club } = await aWorld();
    const { path } = await aSeededBatch(ada, club, sourceId, daysAgo(3));

    for (const read of [batches, path, `${path}/steps`, `${path}/setting-checks`]) {
      const { headers } = await ada.get(read).expect(200);
      await ada.get(read).set('If-None-Match', String(headers['etag'])).expect(304);
    }
  });
});
