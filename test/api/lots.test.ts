import { createHash, randomUUID } from 'node:crypto';
import {
  aLot,
  aLotBody,
  aSource,
  countStatements,
  lotsOutOfBalance,
  minutesAgo,
} from '../support/lots';
import { useService } from '../support/service';
import { aClub, aMember, type ClubWorld } from '../support/world';

const service = useService();

async function aWorld(): Promise<ClubWorld & { lots: string; sourceId: string }> {
  const club = await aClub(service);
  const sourceId = await aSource(service, club.clubId);
  return { ...club, lots: `${club.path}/lots`, sourceId };
}

async function countLots(clubId: string): Promise<number> {
  return service.prisma.lot.count({ where: { clubId } });
}

describe('bringing in', () => {
  test('honey is held by the one who brings it in, with all its mass left', async () => {
    const { ada, lots, sourceId } = await aWorld();
    const body = { ...aLotBody(sourceId, { massKg: 25.375 }), extractedOn: '2026-07-01' };

    const { body: lot, headers } = await ada.post(lots, body).expect(201);

    expect(lot).toMatchObject({
      kind: 'honey',
      holder: { id: ada.memberId },
      initialMassKg: 25.375,
      remainingMassKg: 25.375,
      usedMassKg: 0,
      lentMassKg: 0,
      pottedMassKg: 0,
      lostMassKg: 0,
      inputMassKg: 0,
      depth: 0,
      moisturePercent: 17.4,
      moistureKnownBy: 'stated',
      refractometer: null,
      extractedOn: '2026-07-01',
      floralShares: [{ floralSourceId: sourceId, percent: 100 }],
      originShares: [{ countryCode: 'AT', percent: 100 }],
      batchId: null,
    });
    expect(headers['location']).toBe(`/api/v1${lots}/${String(lot.id)}`);
    const { body: read } = await ada.get(`${lots}/${String(lot.id)}`).expect(200);
    expect(read).toEqual(lot);
  });

  test('the moisture of honey is reckoned from a refractometer reading', async () => {
    const { ada, lots, sourceId } = await aWorld();
    const body = { ...aLotBody(sourceId), moisturePercent: undefined };
    const refractometer = { refractiveIndex: 1.49, temperatureC: 20 };

    const { body: lot } = await ada.post(lots, { ...body, refractometer }).expect(201);

    // Chataway's table, in Bogdanov, Book of Honey, ch. 4: 1.4900 at 20 °C is 18.6 % water.
    expect(lot.moisturePercent).toBeCloseTo(18.6, 1);
    expect(lot).toMatchObject({ moistureKnownBy: 'refractometer', refractometer });
  });

  test('bought seed has a grain, and may come without a moisture', async () => {
    const { ada, lots, sourceId } = await aWorld();
    const body = { ...aLotBody(sourceId, { kind: 'seed' }), moisturePercent: undefined };

    const { body: lot } = await ada.post(lots, { ...body, grain: 'fine' }).expect(201);

    expect(lot).toMatchObject({ kind: 'seed', grain: 'fine', moisturePercent: null });
  });

  test('a steward brings in a lot for another member, a member does not', async () => {
    const { steward, ada, ben, lots, sourceId } = await aWorld();
    const body = { ...aLotBody(sourceId), holderId: ben.memberId };

    const { body: lot } = await steward.post(lots, body).expect(201);
    const { body: refused } = await ada.post(lots, body).expect(403);

    expect(lot.holder.id).toBe(ben.memberId);
    expect(refused.type).toBe('/problems/not-allowed');
  });

  test.each<[string, (sourceId: string) => object, string]>([
    ['creamed honey', () => ({ kind: 'creamed' }), '#/kind'],
    [
      'floral shares short of 100',
      (floralSourceId) => ({ floralShares: [{ floralSourceId, percent: 99.99 }] }),
      '#/floralShares',
    ],
    [
      'one floral source twice',
      (id) => ({
        floralShares: [
          { floralSourceId: id, percent: 50 },
          { floralSourceId: id.toUpperCase(), percent: 50 },
        ],
      }),
      '#/floralShares/1',
    ],
    [
      'a floral source that the club has not got',
      () => ({ floralShares: [{ floralSourceId: randomUUID(), percent: 100 }] }),
      '#/floralShares/0/floralSourceId',
    ],
    [
      'origin shares beyond 100',
      () => ({
        originShares: [
          { countryCode: 'AT', percent: 60 },
          { countryCode: 'SI', percent: 40.01 },
        ],
      }),
      '#/originShares',
    ],
    [
      'a country that there is not',
      () => ({ originShares: [{ countryCode: 'XX', percent: 100 }] }),
      '#/originShares/0/countryCode',
    ],
    ['no moisture for honey', () => ({ moisturePercent: undefined }), '#'],
    [
      'moisture known twice',
      () => ({ refractometer: { refractiveIndex: 1.49, temperatureC: 20 } }),
      '#/refractometer',
    ],
    ['grain of honey', () => ({ grain: 'fine' }), '#/grain'],
    ['a fourth decimal of a kilogram', () => ({ massKg: 1.0001 }), '#/massKg'],
    ['no mass', () => ({ massKg: 0 }), '#/massKg'],
    ['honey extracted next year', () => ({ extractedOn: '2098-07-01' }), '#/extractedOn'],
    ['an unknown field', () => ({ remainingMassKg: 3 }), '#/remainingMassKg'],
  ])('%s is refused', async (_, change, pointer) => {
    const { ada, lots, sourceId, clubId } = await aWorld();

    const { body } = await ada
      .post(lots, { ...aLotBody(sourceId), ...change(sourceId) })
      .expect(422);

    expect(body.type).toBe('/problems/invalid');
    expect(body.errors[0].pointer).toBe(pointer);
    expect(await countLots(clubId)).toBe(0);
  });

  test('a reading beyond the table is refused, and the range is told', async () => {
    const { ada, lots, sourceId } = await aWorld();
    const body = { ...aLotBody(sourceId), moisturePercent: undefined };
    const readings = [
      { refractiveIndex: 1.51, temperatureC: 20 },
      { refractiveIndex: 1.49, temperatureC: 55 },
    ];

    for (const refractometer of readings) {
      const { body: refused } = await ada.post(lots, { ...body, refractometer }).expect(422);
      expect(refused.errors[0].pointer).toMatch(
        /^#\/refractometer\/(refractiveIndex|temperatureC)$/,
      );
      expect(refused.detail).toMatch(/from [\d.]+ to [\d.]+/);
    }
  });

  test('another club’s floral source or member is as unknown as none', async () => {
    const { steward, lots, sourceId } = await aWorld();
    const other = await aWorld();

    const source = await steward.post(lots, aLotBody(other.sourceId)).expect(422);
    const holder = await steward
      .post(lots, { ...aLotBody(sourceId), holderId: other.ada.memberId })
      .expect(422);

    expect(source.body.errors[0].pointer).toBe('#/floralShares/0/floralSourceId');
    expect(holder.body.errors[0].pointer).toBe('#/holderId');
  });

  test('the same key brings it in once', async () => {
    const { ada, lots, sourceId, clubId } = await aWorld();
    const body = aLotBody(sourceId);

    const first = await ada.post(lots, body).set('Idempotency-Key', '"pail 7"').expect(201);
    const again = await ada.post(lots, body).set('Idempotency-Key', '"pail 7"').expect(201);

    expect(again.body).toEqual(first.body);
    expect(again.headers['idempotent-replayed']).toBe('true');
    expect(await countLots(clubId)).toBe(1);
  });
});

test('while the same request is being worked on, its repeat is asked to wait', async () => {
  const { ada, lots, sourceId, clubId } = await aWorld();
  const route = 'POST /api/v1/clubs/:clubId/lots';
  const keyHash = createHash('sha256').update('pail 8').digest();
  await service.database.query(
    'insert into idempotency_key (person_id, route, key_hash, fingerprint) values ($1, $2, $3, $3)',
    [ada.personId, route, keyHash],
  );

  const { body, headers } = await ada
    .post(lots, aLotBody(sourceId))
    .set('Idempotency-Key', '"pail 8"')
    .expect(409);

  expect(body.type).toBe('/problems/request-running');
  expect(headers['retry-after']).toBe('1');
  expect(await countLots(clubId)).toBe(0);
});

describe('looking', () => {
  test('another club’s lot is as if it were not there', async () => {
    const { ada, lots } = await aWorld();
    const other = await aWorld();
    const lotId = await aLot(other.ada, other, other.sourceId);

    for (const path of ['', '/withdrawals', '/ancestors', '/descendants']) {
      const foreign = await ada.get(`${lots}/${lotId}${path}`).expect(404);
      const random = await ada.get(`${lots}/${randomUUID()}${path}`).expect(404);
      expect(foreign.body).toEqual(random.body);
    }
  });

  test('the list is walked page by page, the newest first, and filtered', async () => {
    const { ada, ben, lots, sourceId, ...club } = await aWorld();
    const made: string[] = [];
    for (let count = 0; count < 5; count++) made.push(await aLot(ada, club, sourceId));
    const seedId = await aLot(ben, club, sourceId, { kind: 'seed', massKg: 1 });
    await ben
      .post(`${lots}/${seedId}/withdrawals`, { kind: 'used', massKg: 1, at: minutesAgo(1) })
      .expect(201);

    const seen: string[] = [];
    let path = `${lots}?limit=2&holderId=${ada.memberId}`;
    for (;;) {
      const { body } = await ada.get(path).expect(200);
      seen.push(...body.items.map((lot: { id: string }) => lot.id));
      if (body.nextCursor === null) break;
      path = `${lots}?limit=2&holderId=${ada.memberId}&cursor=${String(body.nextCursor)}`;
    }
    const seed = await ada.get(`${lots}?kind=seed`).expect(200);
    const left = await ada.get(`${lots}?kind=seed&withMass=true`).expect(200);
    const foreignCursor = await ada.get(`${lots}?cursor=abc.def`).expect(400);

    expect(seen).toEqual(made.reverse());
    expect(seed.body.items).toMatchObject([{ id: seedId, remainingMassKg: 0 }]);
    expect(left.body.items).toEqual([]);
    expect(foreignCursor.body.type).toBe('/problems/bad-cursor');
    await ada.get(`${lots}?kind=wax`).expect(422);
  });

  test('a page of fifty lots takes one statement, and one to know the caller', async () => {
    const { ada, lots, sourceId, ...club } = await aWorld();
    for (let count = 0; count < 50; count++) await aLot(ada, club, sourceId);

    const count = await countStatements(() => ada.get(`${lots}?limit=50`).expect(200));

    expect(count).toBe(2);
  });
});

test('who has read it is told that nothing has changed, and a list takes sensible pages only', async () => {
  const { ada, lots, sourceId, ...club } = await aWorld();
  const path = `${lots}/${await aLot(ada, club, sourceId)}`;

  for (const read of [
    lots,
    path,
    `${path}/withdrawals`,
    `${path}/ancestors`,
    `${path}/descendants`,
  ]) {
    const { headers } = await ada.get(read).expect(200);
    await ada.get(read).set('If-None-Match', String(headers['etag'])).expect(304);
  }
  await ada.get(`${path}/withdrawals?cursor=x.y`).expect(400);
  await ada.get(`${path}/withdrawals?limit=none`).expect(422);
});

describe('changing', () => {
  test('its holder renames a lot, and a stale change is refused', async () => {
    const { ada, lots, sourceId, ...club } = await aWorld();
    const path = `${lots}/${await aLot(ada, club, sourceId, { kind: 'seed' })}`;
    const { headers } = await ada.get(path);

    const changed = await ada.change(path, { name: 'Fine seed', grain: 'medium', note: '' });
    const stale = await ada
      .patch(path, { name: 'Other' })
      .set('If-Match', String(headers['etag']))
      .expect(412);
    const cleared = await ada.change(path, { grain: null });

    expect(changed.status).toBe(200);
    expect(changed.body).toMatchObject({ name: 'Fine seed', grain: 'medium' });
    expect(stale.body.type).toBe('/problems/stale');
    expect(cleared.body).toMatchObject({ name: 'Fine seed', grain: null });
    const read = await ada.get(path).expect(200);
    expect(read.body).toEqual(cleared.body);
  });

  test('another member may not change it, a steward may', async () => {
    const { steward, ada, ben, lots, sourceId, ...club } = await aWorld();
    const path = `${lots}/${await aLot(ada, club, sourceId)}`;

    const refused = await ben.change(path, { name: 'Mine' });
    const byAnother = await ada.get(path);
    const changed = await steward.change(path, { name: 'Lime 2' });

    expect(refused.body.type).toBe('/problems/not-yours');
    expect(byAnother.body.name).not.toBe('Mine');
    expect(changed.body.name).toBe('Lime 2');
  });

  test('masses cannot be changed, honey gets no grain, and If-Match is needed', async () => {
    const { ada, lots, sourceId, ...club } = await aWorld();
    const path = `${lots}/${await aLot(ada, club, sourceId)}`;

    const mass = await ada.change(path, { initialMassKg: 30 });
    const grain = await ada.change(path, { grain: 'fine' });
    await ada.patch(path, { name: 'New' }).expect(428);
    await ada.patch(`${lots}/${randomUUID()}`, { name: 'New' }).set('If-Match', '"x"').expect(404);

    expect(mass.body.errors[0].pointer).toBe('#/initialMassKg');
    expect(grain.body.errors[0].pointer).toBe('#/grain');
  });
});

describe('taking out', () => {
  test('what is taken out is gone from the lot, and stays on its list', async () => {
    const { ada, lots, sourceId, ...club } = await aWorld();
    const path = `${lots}/${await aLot(ada, club, sourceId, { massKg: 25 })}`;
    const at = minutesAgo(60);

    const { body } = await ada
      .post(`${path}/withdrawals`, { kind: 'potted', massKg: 12.5, at, note: '25 pots' })
      .expect(201);
    await ada.post(`${path}/withdrawals`, { kind: 'lost', massKg: 0.125, at }).expect(201);
    await ada.post(`${path}/withdrawals`, { kind: 'used', massKg: 0.25, at }).expect(201);

    expect(body).toMatchObject({
      kind: 'potted',
      massKg: 12.5,
      at,
      note: '25 pots',
      intoLot: null,
      recordedBy: { id: ada.memberId },
    });
    const { body: lot } = await ada.get(path);
    expect(lot).toMatchObject({
      initialMassKg: 25,
      remainingMassKg: 12.125,
      usedMassKg: 0.25,
      pottedMassKg: 12.5,
      lostMassKg: 0.125,
    });
    const first = await ada.get(`${path}/withdrawals?limit=2`).expect(200);
    const rest = await ada.get(
      `${path}/withdrawals?limit=2&cursor=${String(first.body.nextCursor)}`,
    );
    expect([...first.body.items, ...rest.body.items].map(({ kind }) => kind as string)).toEqual([
      'potted',
      'lost',
      'used',
    ]);
    expect(await lotsOutOfBalance(service)).toEqual([]);
  });

  test('more than is left is refused, and what is left is told', async () => {
    const { ada, lots, sourceId, ...club } = await aWorld();
    const path = `${lots}/${await aLot(ada, club, sourceId, { massKg: 3 })}`;

    const { body } = await ada
      .post(`${path}/withdrawals`, { kind: 'used', massKg: 3.001, at: minutesAgo(1) })
      .expect(409);

    expect(body).toMatchObject({ type: '/problems/not-enough-mass', remainingMassKg: 3 });
    expect(body.detail).toContain('3 kg left');
    const { body: lot } = await ada.get(path);
    expect(lot.remainingMassKg).toBe(3);
    const { body: page } = await ada.get(`${path}/withdrawals`);
    expect(page.items).toEqual([]);
  });

  test.each<[string, object, string]>([
    ['a loan', { kind: 'lent' }, '#/kind'],
    ['what will be', { at: '2098-01-01T00:00:00Z' }, '#/at'],
    ['a time without its offset', { at: '2026-01-01T00:00:00' }, '#/at'],
    ['an unknown field', { intoLotId: randomUUID() }, '#/intoLotId'],
  ])('%s cannot be filed as taken out', async (_, change, pointer) => {
    const { ada, lots, sourceId, ...club } = await aWorld();
    const path = `${lots}/${await aLot(ada, club, sourceId)}`;
    const good = { kind: 'used', massKg: 1, at: minutesAgo(1) };

    const { body } = await ada.post(`${path}/withdrawals`, { ...good, ...change }).expect(422);

    expect(body.errors[0].pointer).toBe(pointer);
  });

  test('only the holder and a steward take out of a lot', async () => {
    const { steward, ada, ben, lots, sourceId, ...club } = await aWorld();
    const path = `${lots}/${await aLot(ada, club, sourceId)}/withdrawals`;
    const body = { kind: 'used', massKg: 1, at: minutesAgo(1) };

    const refused = await ben.post(path, body).expect(403);
    await steward.post(path, body).expect(201);
    await ada.post(`${lots}/${randomUUID()}/withdrawals`, body).expect(404);

    expect(refused.body.type).toBe('/problems/not-yours');
  });

  test('the same key takes out once, however often it is sent', async () => {
    const { ada, lots, sourceId, ...club } = await aWorld();
    const path = `${lots}/${await aLot(ada, club, sourceId, { massKg: 3 })}`;
    const body = { kind: 'used', massKg: 2, at: minutesAgo(1) };
    const key = randomUUID();

    const first = await ada.post(`${path}/withdrawals`, body).set('Idempotency-Key', key);
    const again = await ada.post(`${path}/withdrawals`, body).set('Idempotency-Key', key);

    expect(again.body).toEqual(first.body);
    const { body: lot } = await ada.get(path);
    expect(lot.remainingMassKg).toBe(1);
  });

  test('of forty who take the last kilogram at once, one gets it', async () => {
    const { steward, lots, sourceId, clubId, ...club } = await aWorld();
    const path = `${lots}/${await aLot(steward, club, sourceId, { massKg: 1 })}`;
    const other = await aMember(service, clubId, 'steward');

    const answers = await Promise.all(
      Array.from({ length: 40 }, (_, index) =>
        (index % 2 === 0 ? steward : other).post(`${path}/withdrawals`, {
          kind: 'used',
          massKg: 1,
          at: minutesAgo(1),
        }),
      ),
    );

    const statuses = answers.map(({ status }) => status).sort();
    expect(statuses).toEqual([201, ...Array.from({ length: 39 }, () => 409)]);
    expect(await lotsOutOfBalance(service)).toEqual([]);
  });
});
