import { aLot, aSeededBatch, aSource, countStatements, daysAgo } from '../support/lots';
import { seededBatches } from '../support/seeded-batches';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';
import { observationsOf, resultsOfKind, tolerance } from '../core/setting/reference-cases';

const service = useService();

async function aWorld(): Promise<ClubWorld & { times: string; sourceId: string }> {
  const club = await aClub(service);
  const sourceId = await aSource(service, club.clubId, 'Rape');
  return { ...club, times: `${club.path}/setting-times`, sourceId };
}

// Source of every expected number: test/references/survival, R 4.2.2 and npsurv 0.5-0, at the tolerances stated there. The interval-censored
// times of Finkelstein and Wolfe (Biometrics 41, 1985) stand in for setting times: 46 of one kind and 48 of another, days for months.
test('published interval-censored times, filed as looks at batches, give the published curve of each source', async () => {
  const { ada, clubId, times, sourceId } = await aWorld();
  const { reference, result } = resultsOfKind('turnbull').find(
    (one) => one.reference.id === 'public-cosmesis' && one.result.groupColumn !== null,
  )!;
  const lime = await aSource(service, clubId, 'Lime');
  for (const [group, id] of [
    ['RT', sourceId],
    ['RCT', lime],
  ] as const) {
    await seededBatches(
      service,
      { clubId, memberId: ada.memberId, sourceId: id, from: new Date('2024-03-01T09:00:00Z') },
      observationsOf(reference, result.groupColumn, group),
    );
  }

  const { body } = await ada.get(times).expect(200);

  for (const [group, id] of [
    ['RT', sourceId],
    ['RCT', lime],
  ] as const) {
    const expected = result.expected.groups.find((one) => one.group === group)!;
    const told = body.groups.find((one: { floralSourceId: string }) => one.floralSourceId === id);
    expect(told.batchCount).toBe(expected.n);
    expect(told.observedCount).toBe(expected.n);
    expect(told.tooFew).toBeNull();
    expect(
      told.curve.map(({ leftDays, rightDays }: Record<string, unknown>) => [leftDays, rightDays]),
    ).toEqual(expected.npmle.left.map((left, index) => [left, expected.npmle.right[index]]));
    for (const [index, mass] of expected.npmle.mass.entries()) {
      expect(Math.abs(told.curve[index].mass - mass)).toBeLessThan(
        tolerance(result, 'npmleMassAbs'),
      );
    }
    const quantile = (p: number) => {
      const { left, right } = expected.quantileIntervals.find((one) => one.p === p)!;
      return { leftDays: left, rightDays: right };
    };
    expect(told.median).toMatchObject(quantile(0.5));
    expect(told.lowerQuartile).toMatchObject(quantile(0.25));
    expect(told.upperQuartile).toMatchObject(quantile(0.75));
    expect(told.median.lowerDays).toBeLessThanOrEqual(told.median.quotedDays);
    if (told.median.upperDays !== null) {
      expect(told.median.upperDays).toBeGreaterThanOrEqual(told.median.quotedDays);
    }
  }
  // Counted in the data: 21 of 46 and 35 of 48 were seen, 38 were not.
  expect(body.all).toMatchObject({ batchCount: 94, setCount: 56, stillSettingCount: 38 });
  expect(body.method).toMatch(/seeded.*Turnbull/);
});

test('the same batches give the same answer, in one statement and one to know the caller', async () => {
  const { ada, ben, clubId, times, sourceId } = await aWorld();
  await seededBatches(
    service,
    { clubId, memberId: ada.memberId, sourceId, from: new Date('2025-03-01T09:00:00Z') },
    [7, 9, 10, 12, 15, 20].map((upper) => ({ lower: upper - 3, upper })),
  );
  await ada.get(times).expect(200);

  const first = await ada.get(times).expect(200);
  const statements = await countStatements(() => ada.get(times).expect(200));
  const bens = await ben.get(times).expect(200);

  expect(bens.body).toEqual(first.body);
  expect(statements).toBe(2);
  await ada.get(times).set('If-None-Match', String(first.headers['etag'])).expect(304);
  expect(first.body.all.median).toMatchObject({ quotedDays: expect.any(Number) });
});

test('what nobody looked at, what still sets and what was abandoned is told apart', async () => {
  const { ada, clubId, times, sourceId, ...club } = await aWorld();
  const world = { clubId, ...club };
  await aSeededBatch(ada, world, sourceId, daysAgo(3));
  const looked = await aSeededBatch(ada, world, sourceId, daysAgo(9));
  const given = await aSeededBatch(ada, world, sourceId, daysAgo(30));
  const set = await aSeededBatch(ada, world, sourceId, daysAgo(30));
  const look = (path: string, days: number, state: string) =>
    ada.post(`${path}/setting-checks`, { at: daysAgo(days), state }).expect(201);
  await look(looked.path, 2, 'thickening');
  await look(given.path, 20, 'liquid');
  await ada.post(`${given.path}/steps`, { kind: 'abandoned', at: daysAgo(5) }).expect(201);
  await look(set.path, 20, 'liquid');
  await look(set.path, 15, 'set');

  const { body } = await ada.get(times).expect(200);

  expect(body.all).toMatchObject({
    batchCount: 4,
    observedCount: 3,
    setCount: 1,
    stillSettingCount: 2,
    abandonedCount: 1,
    median: null,
    lowerQuartile: null,
    upperQuartile: null,
    tooFew: expect.stringContaining('Fewer than 3'),
  });
  expect(body.groups).toMatchObject([{ floralSourceId: sourceId, name: 'Rape', batchCount: 4 }]);
});

test('a batch counts to the source of more than half of its honey, else it is mixed', async () => {
  const { ada, clubId, times, sourceId, ...club } = await aWorld();
  const lime = await aSource(service, clubId, 'Lime');
  const seedId = await aLot(ada, club, lime, { kind: 'seed', massKg: 50 });
  for (const massKg of [5, 5.001]) {
    const honey = [
      { lotId: await aLot(ada, club, sourceId), massKg },
      { lotId: await aLot(ada, club, lime), massKg: 5 },
    ];
    const { body } = await ada.post(`${club.path}/batches`, { name: 'Batch', honey }).expect(201);
    await ada
      .post(`${club.path}/batches/${String(body.id)}/steps`, {
        kind: 'seeded',
        at: daysAgo(5),
        seed: [{ lotId: seedId, massKg: 5 }],
      })
      .expect(201);
  }

  const { body } = await ada.get(times).expect(200);

  expect(body.groups).toMatchObject([
    { floralSourceId: sourceId, name: 'Rape', batchCount: 1 },
    { floralSourceId: null, name: 'mixed', batchCount: 1 },
  ]);
  expect(body.all.tooFew).toContain('Nobody has looked');
});

test('only batches seeded in the time asked for count, the end not included', async () => {
  const { ada, clubId, times, sourceId } = await aWorld();
  const other = await aWorld();
  for (const world of [
    { clubId, memberId: ada.memberId, sourceId },
    { clubId: other.clubId, memberId: other.ada.memberId, sourceId: other.sourceId },
  ]) {
    await seededBatches(service, { ...world, from: new Date('2025-03-01T09:00:00Z') }, [
      { lower: 5, upper: 6 },
      { lower: 5, upper: null },
      { lower: 0, upper: 8 },
    ]);
  }
  const count = async (query: string) =>
    (await ada.get(`${times}?${query}`).expect(200)).body.all.batchCount as number;

  expect(await count('')).toBe(3);
  expect(await count('from=2025-03-02T09:00:00Z')).toBe(2);
  expect(await count('from=2025-03-02T09:00:00Z&until=2025-03-03T09:00:00Z')).toBe(1);
  expect(await count('until=2025-03-01T09:00:00Z')).toBe(0);
  const { body } = await ada.get(`${times}?from=yesterday`).expect(422);
  expect(body.errors[0].parameter).toBe('from');
});

test('a club without batches has no times, and says so', async () => {
  const { ada, times } = await aWorld();

  const { body } = await ada.get(times).expect(200);

  expect(body.groups).toEqual([]);
  expect(body.all).toMatchObject({ batchCount: 0, curve: [], median: null });
});
