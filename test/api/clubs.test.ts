import { randomUUID } from 'node:crypto';
import { aBrowserOf } from '../support/account';
import { whileItRuns } from '../support/running';
import { useService } from '../support/service';
import { aClub, aPerson, nobody } from '../support/world';

const service = useService();

const wish = { name: 'The Linden Yard', timeZone: 'Europe/Vienna' };

describe('founding a club', () => {
  test('makes the founder its steward', async () => {
    const ada = await aPerson(service);

    const { body, headers } = await ada.post('/clubs', wish).expect(201);

    expect(Object.keys(body).sort()).toEqual([
      'createdAt',
      'id',
      'name',
      'noShowMinutes',
      'offerMinutes',
      'placeDaysAhead',
      'timeZone',
    ]);
    expect(body).toMatchObject(wish);
    expect(headers['location']).toBe(`/api/v1/clubs/${body.id as string}`);
    const path = `/clubs/${body.id as string}`;
    expect((await ada.get(path).expect(200)).headers['etag']).toBe(headers['etag']);
    const { body: session } = await ada.get('/session');
    expect(session.clubs).toMatchObject([{ clubId: body.id, role: 'steward' }]);
    const { body: history } = await ada.get(`${path}/audit`).expect(200);
    expect(history.items).toMatchObject([
      { action: 'club.founded', subjectId: body.id, details: wish },
    ]);
  });

  test.each([
    ['a zone that there is not', { timeZone: 'Europe/Atlantis' }, '#/timeZone'],
    ['an offset, which knows no summer time', { timeZone: '+01:00' }, '#/timeZone'],
    ['a blank name', { name: ' ' }, '#/name'],
    ['a name of 101 characters', { name: 'x'.repeat(101) }, '#/name'],
    ['an id of one’s own choice', { id: randomUUID() }, '#/id'],
  ])('is refused with %s', async (_, more, pointer) => {
    const ada = await aPerson(service);
    const { body } = await ada.post('/clubs', { ...wish, ...more }).expect(422);
    expect(body.errors).toMatchObject([{ pointer }]);
    expect((await ada.get('/clubs')).body.items).toEqual([]);
  });

  test('once more with the same Idempotency-Key founds no second one', async () => {
    const ada = await aPerson(service);
    const key = `"${randomUUID()}"`;
    const first = await ada.post('/clubs', wish).set('Idempotency-Key', key).expect(201);
    const again = await ada.post('/clubs', wish).set('Idempotency-Key', key).expect(201);

    expect(again.body).toEqual(first.body);
    expect(again.headers['location']).toBe(first.headers['location']);
    expect((await ada.get('/clubs')).body.items).toHaveLength(1);
    const other = { ...wish, name: 'Another' };
    const { body } = await ada.post('/clubs', other).set('Idempotency-Key', key).expect(422);
    expect(body.type).toBe('/problems/key-reused');
  });

  test('under a key that somebody else used founds one’s own', async () => {
    const [ada, ben] = [await aPerson(service), await aPerson(service)];
    const key = `"${randomUUID()}"`;
    const hers = await ada.post('/clubs', wish).set('Idempotency-Key', key).expect(201);
    const his = await ben.post('/clubs', wish).set('Idempotency-Key', key).expect(201);
    expect(his.body.id).not.toBe(hers.body.id);
    await ben.get(`/clubs/${hers.body.id as string}`).expect(404);
  });

  test('needs an account', async () => {
    await nobody(service).post('/clubs', wish).expect(401);
  });
});

test('a person sees the clubs that they are in, by name and page by page', async () => {
  await aClub(service);
  const ada = await aPerson(service);
  for (const name of ['Clover', 'Acacia', 'Buckwheat']) {
    await ada.post('/clubs', { ...wish, name }).expect(201);
  }
  const page = await ada.get('/clubs?limit=2').expect(200);
  expect(page.headers['link']).toBe(
    `</api/v1/clubs?limit=2&cursor=${page.body.nextCursor as string}>; rel="next"`,
  );
  const rest = await ada.get(`/clubs?limit=2&cursor=${page.body.nextCursor as string}`).expect(200);

  const names = [...page.body.items, ...rest.body.items].map(({ name }) => name as string);
  expect(names).toEqual(['Acacia', 'Buckwheat', 'Clover']);
  expect(rest.headers['link']).toBeUndefined();
  const ben = await aPerson(service);
  expect((await ben.get('/clubs').expect(200)).body.items).toEqual([]);
  await ben.get(`/clubs?cursor=${page.body.nextCursor as string}`).expect(400);
});

describe('changing a club', () => {
  test('is a steward’s, from the state that was read', async () => {
    const { path, clubId, steward, ada } = await aClub(service);
    const { headers } = await steward.get(path).expect(200);
    const changed = await steward.change(path, { timeZone: 'America/Halifax' });
    expect(changed.status).toBe(200);
    expect(changed.body.timeZone).toBe('America/Halifax');

    const send = (actor: typeof ada) => actor.patch(path, { name: 'X' });
    await send(steward).expect(428);
    await send(steward).set('If-Match', String(headers['etag'])).expect(412);
    await send(ada).set('If-Match', String(changed.headers['etag'])).expect(403);

    expect((await steward.get(path)).body).toEqual(changed.body);
    const { body } = await steward.get(`${path}/audit?subjectId=${clubId}`).expect(200);
    expect(body.items).toMatchObject([
      {
        action: 'club.changed',
        details: { from: { timeZone: 'Europe/Vienna' }, to: { timeZone: 'America/Halifax' } },
      },
    ]);
  });

  test.each([
    [{ timeZone: 'Mars/Olympus' }, '#/timeZone'],
    [{ name: null }, '#/name'],
    [{ createdAt: '2026-01-01T00:00:00Z' }, '#/createdAt'],
  ])('is refused with %j', async (wrong, pointer) => {
    const { path, steward } = await aClub(service);
    const { status, body } = await steward.change(path, wrong);
    expect([status, body.errors[0].pointer]).toEqual([422, pointer]);
  });

  test('of fifty who change it from one state, one does', async () => {
    const { path, steward } = await aClub(service);
    const { headers } = await steward.get(path);
    const answers = await Promise.all(
      Array.from({ length: 50 }, (_, number) =>
        steward.patch(path, { name: `Name ${number}` }).set('If-Match', String(headers['etag'])),
      ),
    );
    const statuses = answers.map(({ status }) => status);
    expect(statuses.filter((status) => status === 200)).toHaveLength(1);
    expect(statuses.filter((status) => status === 412)).toHaveLength(49);
  });
});

test('another club cannot be told from one that does not exist', async () => {
  const { path } = await aClub(service);
  const { steward } = await aClub(service);
  const theirs = await steward.get(path).expect(404);
  const none = await steward.get(`/clubs/${randomUUID()}`).expect(404);
  expect(theirs.body).toEqual(none.body);
  await steward.patch(path, { name: 'X' }).set('If-Match', '"any"').expect(404);
});

test.each([
  ['/clubs', wish],
  ['/tokens', { name: 'x', scopes: ['read'] }],
  ['/clubs/:clubId/invitations', {}],
  ['/people/me/password', { currentPassword: 'x', newPassword: 'slow spoon' }],
])('a repeat does not run while the first is still being worked on: %s', async (route, body) => {
  const { clubId, steward } = await aClub(service);
  const browser = await aBrowserOf(service, steward.personId);
  const request = { personId: steward.personId, route: `POST /api/v1${route}`, key: 'again' };

  await whileItRuns(service, request, async () => {
    const answer = await browser
      .post(route.replace(':clubId', clubId), body)
      .set('Idempotency-Key', '"again"')
      .expect(409);
    expect(answer.body.type).toBe('/problems/request-running');
    expect(answer.headers['retry-after']).toBe('1');
  });
});
