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

describe('a look struck out as mistaken', () => {
  async function aBatchWith(states: [days: number, state: string][]) {
    const { ada, ben, steward, sourceId, ...club } = await aWorld();
    const { path, batchId } = await aSeededBatch(ada, club, sourceId, daysAgo(20));
    const checkIds: string[] = [];
    for (const [days, state] of states) {
      const { body } = await ben
        .post(`${path}/setting-checks`, { at: daysAgo(days), state })
        .expect(201);
      checkIds.push(String(body.id));
    }
    const strike = (actor: typeof ada, index: number, because = 'That was the batch beside it.') =>
      actor.post(`${path}/setting-checks/${checkIds[index]}/strike-out`, { because });
    return { ada, ben, steward, sourceId, club, path, batchId, checkIds, strike };
  }

  test('stays on record with who, when and why, and counts for nothing', async () => {
    const { ada, steward, club, path, batchId, checkIds, strike } = await aBatchWith([
      [15, 'liquid'],
      [10, 'thickening'],
      [5, 'set'],
    ]);

    const { body } = await strike(ada, 1).expect(200);

    expect(body.struckOut).toEqual({
      at: expect.any(String),
      by: { id: ada.memberId, name: expect.any(String) },
      because: 'That was the batch beside it.',
    });
    const { body: page } = await ada.get(`${path}/setting-checks`);
    expect(page.items.map(({ struckOut }: { struckOut: unknown }) => struckOut === null)).toEqual([
      true,
      false,
      true,
    ]);
    const { body: batch } = await ada.get(path);
    expect(batch.checks).toEqual(page.items);
    expect(batch.stage).toBe('set');
    const { body: times } = await ada.get(`${club.path}/setting-times`);
    expect(times.all.curve).toMatchObject([
      { leftDays: expect.closeTo(5, 3), rightDays: expect.closeTo(15, 3) },
    ]);
    const { body: history } = await steward.get(`${club.path}/audit`);
    expect(history.items).toContainEqual(
      expect.objectContaining({
        action: 'batch.check-struck-out',
        subjectId: batchId,
        details: { checkId: checkIds[1], because: 'That was the batch beside it.' },
      }),
    );
  });

  test('takes the step set back that it had filed, so that the batch can be seen set again', async () => {
    const { ada, ben, steward, club, path, batchId, strike } = await aBatchWith([[5, 'set']]);

    await strike(ben, 0).expect(200);

    const { body: undone } = await ada.get(path);
    expect(undone.stage).toBe('seeded');
    const { body: times } = await ada.get(`${club.path}/setting-times`);
    expect(times.all).toMatchObject({ batchCount: 1, observedCount: 0, setCount: 0 });
    const setAt = daysAgo(2);
    await ben.post(`${path}/setting-checks`, { at: daysAgo(4), state: 'thickening' }).expect(201);
    await ben.post(`${path}/setting-checks`, { at: setAt, state: 'set' }).expect(201);
    const { body: batch } = await ada.get(path);
    expect(batch.steps.at(-1)).toMatchObject({ kind: 'set', at: setAt });
    const { body: history } = await steward.get(`${club.path}/audit`);
    expect(history.items).toContainEqual(
      expect.objectContaining({ action: 'batch.step-taken-back', subjectId: batchId }),
    );
  });

  test('leaves the step set to another look that found the batch set', async () => {
    const { ada, path, strike } = await aBatchWith([
      [8, 'set'],
      [3, 'set'],
      [6, 'set'],
    ]);
    const setAt = async (): Promise<string> => (await ada.get(path)).body.steps.at(-1).at as string;
    const { body: before } = await ada.get(path);

    await strike(ada, 1).expect(200);
    expect(await setAt()).toBe(before.checks[0].at);
    await strike(ada, 0).expect(200);
    expect(await setAt()).toBe(before.checks[1].at);
    await strike(ada, 2).expect(200);

    expect((await ada.get(path)).body.stage).toBe('seeded');
  });

  test('does not leave the step set to a look from before the pots were filled', async () => {
    const { ada, path, strike } = await aBatchWith([
      [8, 'set'],
      [15, 'set'],
    ]);
    const pots = [{ netMassKg: 0.5, count: 40 }];
    await ada.post(`${path}/steps`, { kind: 'potted', at: daysAgo(12), pots }).expect(201);

    await strike(ada, 0).expect(200);

    expect((await ada.get(path)).body.stage).toBe('potted');
  });

  test('a batch wrongly seen set can be abandoned after it', async () => {
    const { ada, path, strike } = await aBatchWith([[5, 'set']]);
    const giveUp = () => ada.post(`${path}/steps`, { kind: 'abandoned', at: daysAgo(1) });
    await giveUp().expect(409);

    await strike(ada, 0).expect(200);

    await giveUp().expect(201);
  });

  test('is struck out by who recorded it, the batch’s member or a steward, and once', async () => {
    const { ada, ben, steward, sourceId, club, path, checkIds, strike } = await aBatchWith([
      [9, 'liquid'],
      [8, 'liquid'],
      [7, 'liquid'],
    ]);
    const { body: adas } = await ada.post(`${path}/setting-checks`, {
      at: daysAgo(6),
      state: 'liquid',
    });
    const other = await aSeededBatch(ada, club, sourceId, daysAgo(20));

    const stranger = await ben
      .post(`${path}/setting-checks/${String(adas.id)}/strike-out`, { because: 'No.' })
      .expect(403);
    await strike(ada, 0).expect(200);
    await strike(ben, 1).expect(200);
    await strike(steward, 2).expect(200);
    const again = await strike(ada, 0).expect(409);
    const wordless = await strike(ada, 0, '').expect(422);
    const elsewhere = await ada
      .post(`${other.path}/setting-checks/${checkIds[0]}/strike-out`, { because: 'No.' })
      .expect(404);

    expect(stranger.body.type).toBe('/problems/not-yours');
    expect(again.body.type).toBe('/problems/check-struck-out');
    expect(wordless.body.errors[0].pointer).toBe('#/because');
    expect(elsewhere.body.type).toBe('/problems/not-found');
  });
});
