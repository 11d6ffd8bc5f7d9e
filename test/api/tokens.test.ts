import { randomUUID } from 'node:crypto';
import { Database } from '../../src/platform/database';
import { isWellFormedToken, newToken } from '../../src/platform/secrets';
import { anAccount, aBrowserOf } from '../support/account';
import { useService } from '../support/service';
import { Actor, aClub, aPerson, nobody, withScopes } from '../support/world';

const service = useService();

const wish = { name: 'cabinet log', scopes: ['read', 'record'] };

async function aMemberAtABrowser() {
  const club = await aClub(service);
  return { ...club, browser: await aBrowserOf(service, club.ada.personId) };
}

describe('making a token', () => {
  test('shows it once, and it works', async () => {
    const { browser, path } = await aMemberAtABrowser();

    const { body, headers } = await browser.post('/tokens', wish).expect(201);

    expect(body).toMatchObject({
      name: 'cabinet log',
      scopes: ['read', 'record'],
      lastUsedOn: null,
    });
    expect(isWellFormedToken(body.token as string)).toBe(true);
    expect(body.ending).toBe((body.token as string).slice(-4));
    expect(headers['cache-control']).toBe('no-store');
    expect(headers['location']).toBe(`/api/v1/tokens/${body.id as string}`);
    const days = (Date.parse(body.expiresAt) - Date.parse(body.createdAt)) / 86_400_000;
    expect(days).toBeCloseTo(90, 1);
    await new Actor(service, body.token as string).get(path).expect(200);
    const again = await browser.get(`/tokens/${body.id as string}`).expect(200);
    expect(again.body).not.toHaveProperty('token');
    expect(again.text).not.toContain(body.token);
  });

  test('keeps it as a hash alone', async () => {
    const { browser } = await anAccount(service);
    const { body } = await browser.post('/tokens', wish).expect(201);
    const kept = await service.database.query<{ row: string }>(
      `select row_to_json(t)::text || encode(t.secret_hash, 'escape') as row from token t`,
    );
    expect(kept.some(({ row }) => row.includes(body.token as string))).toBe(false);
  });

  test.each([
    ['no scope', { scopes: [] }, '#/scopes'],
    ['a scope that there is not', { scopes: ['everything'] }, '#/scopes'],
    ['no end', { expiresInDays: null }, '#/expiresInDays'],
    ['a life of more than a year', { expiresInDays: 366 }, '#/expiresInDays'],
    ['a life of no day', { expiresInDays: 0 }, '#/expiresInDays'],
    ['no name', { name: '' }, '#/name'],
    ['a secret of one’s own choice', { token: 'x' }, '#/token'],
    ['another owner', { personId: randomUUID() }, '#/personId'],
  ])('is refused with %s', async (_, more, pointer) => {
    const { browser, personId } = await anAccount(service);
    const { body } = await browser.post('/tokens', { ...wish, ...more }).expect(422);
    expect(body.errors).toMatchObject([{ pointer }]);
    expect(await service.prisma.token.count({ where: { personId } })).toBe(0);
  });

  test('once more with the same Idempotency-Key shows the same token, encrypted until then', async () => {
    const { browser, personId } = await anAccount(service);
    const key = `"${randomUUID()}"`;
    const first = await browser.post('/tokens', wish).set('Idempotency-Key', key).expect(201);
    const again = await browser.post('/tokens', wish).set('Idempotency-Key', key).expect(201);

    expect(again.body).toEqual(first.body);
    expect(again.headers['idempotent-replayed']).toBe('true');
    expect(await service.prisma.token.count({ where: { personId } })).toBe(1);
    const kept = await service.database.query<{ answer: string }>(
      `select encode(answer, 'escape') as answer from idempotency_key where person_id = $1`,
      [personId],
    );
    expect(kept).toHaveLength(1);
    expect(kept[0]!.answer).not.toContain(first.body.token);
  });

  test('under the Idempotency-Key of somebody else shows nothing of theirs', async () => {
    const ada = await anAccount(service);
    const ben = await anAccount(service);
    const key = `"${randomUUID()}"`;
    const hers = await ada.browser.post('/tokens', wish).set('Idempotency-Key', key).expect(201);
    const his = await ben.browser.post('/tokens', wish).set('Idempotency-Key', key).expect(201);
    expect(his.headers['idempotent-replayed']).toBeUndefined();
    expect(his.body.token).not.toBe(hers.body.token);
  });
});

describe('a token', () => {
  test('neither makes nor shows nor removes tokens', async () => {
    const ada = await aPerson(service);
    const { id } = await service.prisma.token.findFirstOrThrow({
      where: { personId: ada.personId },
    });
    for (const answer of [
      await ada.post('/tokens', wish),
      await ada.get('/tokens'),
      await ada.get(`/tokens/${id}`),
      await ada.delete(`/tokens/${id}`).set('If-Match', '*'),
    ]) {
      expect([answer.status, answer.body.type]).toEqual([403, '/problems/not-allowed']);
    }
    expect(await service.prisma.token.count({ where: { personId: ada.personId } })).toBe(1);
  });

  test('does what its scopes say and no more', async () => {
    const { path, steward } = await aClub(service);
    const reader = await withScopes(service, steward, ['read', 'record', 'book']);
    await reader.get(path).expect(200);
    const { body } = await reader
      .post(`${path}/floral-sources`, { name: 'lime', grain: 'medium', sets: true })
      .expect(403);
    expect(body.detail).toMatch(/scope "steward"/);
    const writer = await withScopes(service, steward, ['steward']);
    await writer.get(path).expect(403);
  });

  test('of every scope makes nobody a steward', async () => {
    const { path, ada } = await aClub(service);
    await ada.post(`${path}/invitations`).expect(403);
  });

  test('is worth nothing when its time is over', async () => {
    const ada = await aPerson(service);
    await ada.get('/session').expect(200);
    await service.database.query('update token set expires_at = now() where person_id = $1', [
      ada.personId,
    ]);
    const { headers } = await ada.get('/session').expect(401);
    expect(headers['www-authenticate']).toBe('Bearer error="invalid_token"');
  });

  test('that nobody has is refused, also beside a good cookie', async () => {
    const { browser } = await anAccount(service);
    await browser.get('/session').set('Authorization', `Bearer ${newToken()}`).expect(401);
    await nobody(service).get('/session').set('Authorization', 'Bearer rubbish').expect(401);
    await nobody(service).get('/session').set('Authorization', 'Basic YTpi').expect(401);
  });

  test('that was mistyped is known as such without asking the database', async () => {
    const asked = jest.spyOn(service.app.get(Database), 'rows');
    const token = newToken();
    const mistyped = token.slice(0, 10) + (token[10] === 'x' ? 'y' : 'x') + token.slice(11);
    try {
      await new Actor(service, mistyped).get('/session').expect(401);
      expect(asked).not.toHaveBeenCalled();
      await new Actor(service, token).get('/session').expect(401);
      expect(asked).toHaveBeenCalledTimes(1);
    } finally {
      asked.mockRestore();
    }
  });

  // RFC 6750 allows both; addresses and bodies end up in logs and histories (OWASP ASVS 5.0, 14.2.1).
  test('is taken from the header alone', async () => {
    const { path, ada } = await aClub(service);
    await nobody(service).get(`${path}?access_token=${ada.token!}`).expect(401);
    await nobody(service).post('/clubs', { access_token: ada.token! }).expect(401);
    const { body } = await ada.get(`${path}?access_token=${ada.token!}`).expect(401);
    expect(body.detail).toMatch(/header/);
  });
});

describe('one’s tokens', () => {
  test('are listed page by page, to their owner alone', async () => {
    const { browser } = await anAccount(service);
    for (const name of ['first', 'second', 'third']) {
      await browser.post('/tokens', { ...wish, name }).expect(201);
    }
    const page = await browser.get('/tokens?limit=2').expect(200);
    const rest = await browser.get(`/tokens?limit=2&cursor=${page.body.nextCursor as string}`);

    const names = [...page.body.items, ...rest.body.items].map(({ name }) => name as string);
    expect(names).toEqual(['third', 'second', 'first']);
    const stranger = await anAccount(service);
    expect((await stranger.browser.get('/tokens').expect(200)).body.items).toEqual([]);
    await stranger.browser.get(`/tokens?cursor=${page.body.nextCursor as string}`).expect(400);
  });

  test('show the day of the last use, so that use does not make an ETag stale within the day', async () => {
    const { browser } = await anAccount(service);
    const { body } = await browser.post('/tokens', wish).expect(201);
    const script = new Actor(service, body.token as string);
    await script.get('/session').expect(200);
    // The use is noted beside the request.
    let shown = await browser.get(`/tokens/${body.id as string}`);
    for (let time = 0; shown.body.lastUsedOn === null && time < 50; time++) {
      shown = await browser.get(`/tokens/${body.id as string}`);
    }
    expect(shown.body.lastUsedOn).toMatch(/^\d{4}-\d\d-\d\d$/);
    await service.database.query(
      `update token set last_used_at = last_used_at + interval '1 millisecond' where id = $1`,
      [body.id],
    );
    await browser
      .get(`/tokens/${body.id as string}`)
      .set('If-None-Match', String(shown.headers['etag']))
      .expect(304);
  });

  test('end at once when they are removed', async () => {
    const { browser } = await anAccount(service);
    const { body } = await browser.post('/tokens', wish).expect(201);
    const address = `/tokens/${body.id as string}`;
    await browser.delete(address).expect(428);
    await browser.delete(address).set('If-Match', '"another"').expect(412);
    const script = new Actor(service, body.token as string);
    await script.get('/session').expect(200);
    // Its first use may still be on its way into the row.
    let gone = await browser.remove(address);
    if (gone.status === 412) gone = await browser.remove(address);

    expect(gone.status).toBe(204);
    await script.get('/session').expect(401);
    await browser.get(address).expect(404);
  });

  test('of somebody else cannot be told from one that does not exist', async () => {
    const ada = await anAccount(service);
    const ben = await anAccount(service);
    const { body } = await ben.browser.post('/tokens', wish).expect(201);
    for (const send of [
      (id: string) => ada.browser.get(`/tokens/${id}`),
      (id: string) => ada.browser.delete(`/tokens/${id}`).set('If-Match', '"any"'),
    ]) {
      const theirs = await send(body.id as string).expect(404);
      const none = await send(randomUUID()).expect(404);
      expect(theirs.body).toEqual(none.body);
    }
    await ben.browser.get(`/tokens/${body.id as string}`).expect(200);
  });
});
