import net from 'node:net';
import request from 'supertest';
import { refusals } from '../../src/core/refusal';
import { aFullClub, type Things } from '../support/full-club';
import { addressOf, declaredRoutes } from '../support/routes';
import { useService } from '../support/service';
import { aClub, nobody, type ClubWorld } from '../support/world';

const service = useService();

let club: ClubWorld;
let things: Things;

beforeAll(async () => {
  club = await aClub(service);
  things = await aFullClub(service, club);
});

/** RFC 9457, and what this service adds to it. */
function expectProblem(answer: request.Response, status: number, code: string): void {
  expect(answer.status).toBe(status);
  expect(answer.headers['content-type']).toBe('application/problem+json; charset=utf-8');
  expect(answer.headers['cache-control']).toBe('no-store');
  expect(answer.headers['x-request-id']).toMatch(/^[\w.-]{8,64}$/);
  const problem = (
    typeof answer.body === 'object' ? answer.body : JSON.parse(answer.text)
  ) as Record<string, unknown>;
  expect(problem).toMatchObject({ type: `/problems/${code}`, status });
  expect(problem['title']).toBe(refusals[code as keyof typeof refusals]);
  expect(String(problem['detail']).length).toBeGreaterThan(0);
}

describe('the catalogue of problems', () => {
  test('lists exactly what the service can refuse with, and each has a page of its own', async () => {
    const { body } = await request(service.url).get('/problems').expect(200);
    const { items } = body as { items: { type: string; title: string; status: number }[] };

    expect(items.map(({ type }) => type)).toEqual(
      Object.keys(refusals).map((code) => `/problems/${code}`),
    );
    for (const item of items) {
      expect(item.status).toBeGreaterThanOrEqual(400);
      await request(service.url).get(item.type).expect(200, item);
    }
  });

  test.each(['nothing-like-it', 'toString', '__proto__'])('has no page for %s', async (code) => {
    expectProblem(await request(service.url).get(`/problems/${code}`), 404, 'not-found');
  });
});

describe('whatever cannot be answered', () => {
  test.each(['/api', '/api/v1', '/api/v2/clubs', '/api/v1/club', '/favicon.ico', '/.env'])(
    'is a problem at %s, where there is nothing',
    async (path) => {
      expectProblem(await request(service.url).get(path), 404, 'not-found');
    },
  );

  test.each(['/api/v1/clubs/%zz', '/%c0%ae', '/api/v1/clubs/%'])(
    'is a problem at %s, which cannot be read',
    async (path) => {
      expectProblem(await request(service.url).get(path), 400, 'malformed');
    },
  );

  test('is a problem with every method that an address does not take, and those it takes are told', async () => {
    const routes = declaredRoutes(service);
    const methods = ['get', 'post', 'patch', 'put', 'delete', 'options'] as const;
    for (const path of new Set(routes.map((route) => route.path))) {
      const taken = routes.filter((route) => route.path === path).map(({ method }) => method);
      const address = `/api/v1${addressOf({ path }, things)}`;
      for (const method of methods.filter((one) => !taken.some((other) => other === one))) {
        const answer = await request(service.url)[method](address);
        expectProblem(answer, 405, 'method-not-allowed');
        const all = taken.includes('get') ? [...taken, 'head'] : taken;
        expect(answer.headers['allow']).toBe(
          all
            .map((one) => one.toUpperCase())
            .sort()
            .join(', '),
        );
      }
    }
  });

  test('is found in the log under the id that the caller gave it, if that can be one', async () => {
    const given = await nobody(service).get('/clubs').set('X-Request-Id', 'pail-7.warming');
    expect(given.headers['x-request-id']).toBe('pail-7.warming');
    const nonsense = await nobody(service).get('/clubs').set('X-Request-Id', 'x y{}');
    expect(nonsense.headers['x-request-id']).toMatch(/^[0-9a-f-]{36}$/);
  });

  test.each([
    ['what is no HTTP', 'GARBAGE\r\n\r\n', 400],
    [
      'headers without end',
      `GET / HTTP/1.1\r\nHost: a\r\n${`X-Wax: ${'x'.repeat(1000)}\r\n`.repeat(20)}\r\n`,
      431,
    ],
  ])('is a problem even for %s', async (_, text, status) => {
    const answer = await overSocket(text);
    expect(answer).toMatch(new RegExp(`^HTTP/1.1 ${status} `));
    expect(answer).toContain('Content-Type: application/problem+json');
    const body = answer.split('\r\n\r\n')[1] ?? '';
    expect(JSON.parse(body)).toMatchObject({ type: 'about:blank', status });
  });
});

async function overSocket(text: string): Promise<string> {
  const { port } = new URL(service.url);
  return new Promise((resolve, reject) => {
    let answer = '';
    const socket = net.connect(Number(port), '127.0.0.1', () => socket.write(text));
    socket.setEncoding('utf8');
    socket.on('data', (part: string) => (answer += part));
    socket.on('close', () => resolve(answer));
    socket.on('error', reject);
  });
}

describe('signing in', () => {
  test('is asked for in a way that clients understand (RFC 6750, 3)', async () => {
    const none = await nobody(service).get('/clubs');
    expectProblem(none, 401, 'sign-in-needed');
    expect(none.headers['www-authenticate']).toBe('Bearer');

    const bad = await nobody(service).get('/clubs').set('Authorization', 'Bearer junk');
    expectProblem(bad, 401, 'sign-in-needed');
    expect(bad.headers['www-authenticate']).toBe('Bearer error="invalid_token"');
  });
});

describe('what goes wrong on our side', () => {
  /** Words of the inside. */
  const inside =
    /select|insert|update |delete |column|relation|constraint|prisma|postgres|sql|syntax|node_modules|\.[jt]s\b|\bat \S+ \(|stack|errno|econn|127\.0\.0\.1|time_zone|was_zone|stray/i;

  test.each([
    ['reading', 'get', (): string => club.path],
    ['writing', 'post', (): string => '/clubs'],
  ] as const)('tells nothing of the inside when %s', async (_, method, path) => {
    await service.database.query('alter table club rename column time_zone to was_zone');
    // Not as an actor: what fails on our side is promised by no document.
    const sent = request(service.url)[method](`/api/v1${path()}`);
    void sent.set('Authorization', `Bearer ${club.steward.token!}`);
    if (method === 'post') void sent.send({ name: 'Another', timeZone: 'UTC' });
    const answer: request.Response = await sent;
    await service.database.query('alter table club rename column was_zone to time_zone');

    expectProblem(answer, 500, 'failure');
    expect(answer.text).not.toMatch(inside);
    expect(JSON.stringify(answer.headers)).not.toMatch(/was_zone|postgres|prisma/i);
    expect(Object.keys(answer.body as object).sort()).toEqual([
      'detail',
      'status',
      'title',
      'type',
    ]);
  });
});

describe('headers', () => {
  test('keep an answer from being run, framed or read by other sites, whatever its status', async () => {
    const answers = [
      await club.ada.get(club.path),
      await nobody(service).get(club.path),
      await request(service.url).get('/nowhere'),
      await club.ada.post('/clubs').type('text/plain').send('x'),
    ];
    for (const { headers } of answers) {
      expect(headers).toMatchObject({
        'x-content-type-options': 'nosniff',
        'strict-transport-security': 'max-age=31536000; includeSubDomains',
        'referrer-policy': 'no-referrer',
        'x-frame-options': 'SAMEORIGIN',
      });
      expect(headers['content-security-policy']).toMatch(/default-src 'self'/);
      expect(headers['content-security-policy']).toMatch(/object-src 'none'/);
      expect(headers['content-security-policy']).not.toMatch(/upgrade-insecure-requests/);
      expect(headers['access-control-allow-origin']).toBeUndefined();
      expect(headers['x-powered-by']).toBeUndefined();
    }
  });

  test('give the pages of other sites no leave to ask', async () => {
    const answer = await request(service.url)
      .options('/api/v1/clubs')
      .set('Origin', 'https://elsewhere.example')
      .set('Access-Control-Request-Method', 'POST');
    expect(answer.headers['access-control-allow-origin']).toBeUndefined();
  });
});
