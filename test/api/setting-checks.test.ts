import { randomUUID } from 'node:crypto';
import { aPlannedBatch, aSeededBatch, aSource, daysAgo, minutesAgo } from '../support/lots';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

async function aWorld(): Promise<ClubWorld & { sourceId: string }> {
  const club = await aClub(service);
  return { ...club, sourceId: await aSource(service, club.clubId) };
}

test('any member may look, and the first who finds it set ends the setting', async () => {
  const { ada, ben, sourceId, ...club } = await aWorld();
  const { path } = await aSeededBatch(ada, club, sourceId, daysAgo(20));
  const setAt = daysAgo(5);

  const first = await ben
    .post(`${path}/setting-checks`, {
      at: daysAgo(10),
      state: 'thickening',
      texture: 'smooth',
      firmness: 'soft',
      temperatureC: 13.5,
      note: 'nearly',
    })
    .expect(201);
  await ben.post(`${path}/setting-checks`, { at: setAt, state: 'set' }).expect(201);
  await ada.post(`${path}/setting-checks`, { at: daysAgo(1), state: 'set' }).expect(201);

  expect(first.body).toMatchObject({
    state: 'thickening',
    texture: 'smooth',
    firmness: 'soft',
    temperatureC: 13.5,
    note: 'nearly',
    checkedBy: { id: ben.memberId },
  });
  const { body: batch } = await ada.get(path);
  expect(batch.stage).toBe('set');
  expect(batch.steps.at(-1)).toMatchObject({ kind: 'set', at: setAt });
  const page = await ada.get(`${path}/setting-checks?limit=2`).expect(200);
  const rest = await ada.get(`${path}/setting-checks?cursor=${String(page.body.nextCursor)}`);
  expect([...page.body.items, ...rest.body.items]).toEqual(batch.checks);
  await ada.get(`${path}/setting-checks?cursor=x.y`).expect(400);
  await ada.get(`${path}/setting-checks?limit=0`).expect(422);
});

test('a batch without seed in it cannot be looked at', async () => {
  const { ada, sourceId, ...club } = await aWorld();
  const { path } = await aPlannedBatch(ada, club, sourceId);

  const { body } = await ada
    .post(`${path}/setting-checks`, { at: minutesAgo(1), state: 'liquid' })
    .expect(409);

  expect(body.type).toBe('/problems/step-out-of-order');
  expect(body.nextSteps).toContain('seeded');
});

test('a batch seen set before its pots were written down can still be potted, as of then', async () => {
  const { ada, ben, sourceId, ...club } = await aWorld();
  const { path } = await aSeededBatch(ada, club, sourceId, daysAgo(20));
  await ben.post(`${path}/setting-checks`, { at: daysAgo(5), state: 'set' }).expect(201);
  const potted = { kind: 'potted', pots: [{ netMassKg: 0.5, count: 40 }] };

  const late = await ada.post(`${path}/steps`, { ...potted, at: daysAgo(4) }).expect(422);
  const shelved = await ada.post(`${path}/steps`, { kind: 'shelved', at: daysAgo(6) }).expect(409);
  await ada.post(`${path}/steps`, { ...potted, at: daysAgo(20) }).expect(201);

  expect(late.body.errors[0].pointer).toBe('#/at');
  expect(shelved.body.nextSteps).toEqual(['potted']);
  const { body: batch } = await ada.get(path);
  expect(batch).toMatchObject({ stage: 'set', creamed: { pottedMassKg: 20 } });
});

test('a look lies after the seeding, and not ahead', async () => {
  const { ada, sourceId, ...club } = await aWorld();
  const seededAt = daysAgo(9);
  const { path } = await aSeededBatch(ada, club, sourceId, seededAt);
  await ada.post(`${path}/steps`, { kind: 'shelved', at: daysAgo(8) }).expect(409);
  await ada
    .post(`${path}/steps`, {
      kind: 'potted',
      at: daysAgo(8),
      pots: [{ netMassKg: 1, count: 1 }],
    })
    .expect(201);
  const look = (at: string, state = 'set') => ada.post(`${path}/setting-checks`, { at, state });

  const before = await look(daysAgo(10), 'liquid').expect(422);
  const atOnce = await look(seededAt).expect(422);
  const beforePotting = await look(daysAgo(8.5)).expect(422);
  const ahead = await look('2098-01-01T00:00:00Z').expect(422);
  const word = await look(minutesAgo(1), 'hard').expect(422);
  const field = await ada
    .post(`${path}/setting-checks`, { at: minutesAgo(1), state: 'set', memberId: ada.memberId })
    .expect(422);
  await look(seededAt, 'liquid').expect(201);

  for (const { body } of [before, atOnce, beforePotting, ahead]) {
    expect(body.errors[0].pointer).toBe('#/at');
  }
  expect(word.body.errors[0].pointer).toBe('#/state');
  expect(field.body.errors[0].pointer).toBe('#/memberId');
  const { body: batch } = await ada.get(path);
  expect(batch).toMatchObject({ stage: 'potted', checks: [{ state: 'liquid' }] });
});

test('the same key files one look, and no look is filed with a batch that is not there', async () => {
  const { ada, sourceId, ...club } = await aWorld();
  const { path } = await aSeededBatch(ada, club, sourceId, daysAgo(9));
  const other = await aWorld();
  const foreign = await aSeededBatch(other.ada, other, other.sourceId, daysAgo(9));
  const body = { at: daysAgo(1), state: 'liquid' };
  const key = randomUUID();

  const first = await ada.post(`${path}/setting-checks`, body).set('Idempotency-Key', key);
  const again = await ada.post(`${path}/setting-checks`, body).set('Idempotency-Key', key);
  const atRandom = await ada
    .post(`${club.path}/batches/${randomUUID()}/setting-checks`, body)
    .expect(404);
  const atForeign = await ada
    .post(`${club.path}/batches/${foreign.batchId}/setting-checks`, body)
    .expect(404);

  expect(again.body).toEqual(first.body);
  expect(atForeign.body).toEqual(atRandom.body);
  const { body: page } = await ada.get(`${path}/setting-checks`);
  expect(page.items).toHaveLength(1);
});
