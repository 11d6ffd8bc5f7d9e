import { aFullClub, type Things } from '../support/full-club';
import { operationsOf, valuesOf, type Operation } from '../support/from-schema';
import { addressOf, declaredRoutes, type DeclaredRoute } from '../support/routes';
import { useService } from '../support/service';
import { aClub, aSessionCookieOf, nobody, type ClubWorld } from '../support/world';
import { checksumOf } from '../support/checksum';
import fc from 'fast-check';

// RFC 9110: 8.8.3 (ETag), 13.1 (conditions), 15.4.5 (304).

const service = useService();

let club: ClubWorld;
let things: Things;
let routes: DeclaredRoute[];
let cookie: string;

beforeAll(async () => {
  club = await aClub(service);
  things = await aFullClub(service, club);
  routes = declaredRoutes(service);
  cookie = await aSessionCookieOf(service, club.steward.personId);
});

const queries: Record<string, string> = {
  'GET /clubs/:clubId/diary': '?from=2031-05-01T00:00:00Z&to=2031-05-09T00:00:00Z',
  'GET /clubs/:clubId/fitting-seed': '?honeyMassKg=25',
  'GET /clubs/:clubId/lots/:id/label.pdf': '?for=pail',
  'GET /clubs/:clubId/setting-forecast': '?startsAt=2031-05-01T00:00:00Z',
  'GET /clubs/:clubId/stations/:id/free':
    '?from=2031-05-01T00:00:00Z&to=2031-05-09T00:00:00Z&places=1&minutes=60&duty=warm&minC=40&maxC=45',
};

function send(route: DeclaredRoute) {
  const address = addressOf(route, things) + (queries[route.name] ?? '');
  return nobody(service)
    .send(route.method, address)
    .set('Cookie', cookie)
    .set('Origin', service.url);
}

const reads = () => routes.filter(({ method }) => method === 'get');
const needMatch = () => routes.filter(({ behaviour }) => behaviour.needsMatch === true);

test('one thing has a strong ETag, a list a weak one', async () => {
  for (const route of reads()) {
    const { status, headers } = await send(route);
    const pattern = route.behaviour.lists === true ? /^W\/"[\w-]{27}"$/ : /^"[\w-]{27}(;gzip)?"$/;
    expect([route.name, status]).toEqual([route.name, 200]);
    expect([route.name, headers['etag']]).toEqual([route.name, expect.stringMatching(pattern)]);
    expect(headers['cache-control']).toBe('private, no-cache');
  }
});

test('whoever has it already is told so, without a body', async () => {
  for (const route of reads()) {
    const { headers } = await send(route);
    const tag = headers['etag']!;
    const weak = `W/${tag.replace('W/', '')}`;
    for (const known of [tag, weak, `"another", ${tag}`]) {
      const again = await send(route).set('If-None-Match', known);
      expect([route.name, again.status, again.text]).toEqual([route.name, 304, '']);
      expect(again.headers['etag']).toBe(tag);
      expect(again.headers['cache-control']).toBe(headers['cache-control']);
      expect(again.headers['content-type']).toBeUndefined();
      expect(again.headers['x-content-type-options']).toBe('nosniff');
    }
    await send(route).set('If-None-Match', '"another"').expect(200);
  }
});

test('the same reading twice has the same ETag', async () => {
  for (const route of reads()) {
    const [first, second] = [await send(route), await send(route)];
    expect([route.name, second.headers['etag']]).toEqual([route.name, first.headers['etag']]);
  }
});

test('every change of a thing, and every removal, asks under which ETag it was read', () => {
  // A session and a person's own signing out have nothing that could have changed.
  const without = ['DELETE /session', 'DELETE /sessions/:id'];
  const changes = routes.filter(({ method }) => ['patch', 'put', 'delete'].includes(method));
  expect(changes.filter((route) => !needMatch().includes(route)).map(({ name }) => name)).toEqual(
    without,
  );
});

test('without If-Match it is refused, with a stale one too, and nothing changes', async () => {
  const operations = operationsOf(service.document);
  const before = await checksumOf(service);
  for (const route of needMatch()) {
    const operation = operations.find(({ name }) => name === route.name)!;
    const body = operation.body === null ? {} : aBody(operation);
    const none = await send(route).send(body);
    expect([route.name, none.status, none.body.type]).toEqual([
      route.name,
      428,
      '/problems/match-needed',
    ]);
    for (const stale of ['"of another time"', '*', 'W/"x"', 'no tag', `"${'x'.repeat(5000)}"`]) {
      const answer = await send(route).set('If-Match', stale).send(body);
      expect([route.name, stale.slice(0, 20), answer.status, answer.body.type]).toEqual([
        route.name,
        stale.slice(0, 20),
        412,
        '/problems/stale',
      ]);
    }
  }
  expect(await checksumOf(service)).toEqual(before);
});

function aBody({ body }: Operation): object {
  const [value] = fc.sample(valuesOf(body!, service.document, things), { seed: 3, numRuns: 1 });
  return value as object;
}

test('the ETag of a thing is what a change of it needs, and changes with it', async () => {
  const source = `${club.path}/floral-sources/${things['floral-sources']!}`;
  const before = await club.steward.get(source);

  const changed = await club.steward
    .patch(source, { note: 'Late this year' })
    .set('If-Match', `"of another time", ${before.headers['etag']!}`)
    .expect(200);

  const after = await club.steward.get(source);
  expect(after.headers['etag']).not.toBe(before.headers['etag']);
  expect(changed.headers['etag']).toBe(after.headers['etag']);
  expect(changed.body).toEqual(after.body);
  await club.steward
    .patch(source, { note: 'x' })
    .set('If-Match', before.headers['etag']!)
    .expect(412);
  const back = await club.steward
    .patch(source, { note: String(before.body.note) })
    .set('If-Match', after.headers['etag']!);
  expect(back.headers['etag']).toBe(before.headers['etag']);
});

test('what shows a secret is kept by nobody and has no ETag', async () => {
  const secrets = routes.filter(({ behaviour }) => behaviour.showsSecret === true);
  expect(secrets.length).toBeGreaterThanOrEqual(3);
  const { headers } = await club.steward.post(`${club.path}/invitations`).expect(201);
  expect(headers['cache-control']).toBe('no-store');
  expect(headers['etag']).toBeUndefined();
});
