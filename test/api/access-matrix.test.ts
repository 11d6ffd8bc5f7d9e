import { randomUUID } from 'node:crypto';
import { Controller, Get } from '@nestjs/common';
import { DiscoveryModule, NestFactory } from '@nestjs/core';
import { refuseUndeclaredRoutes } from '../../src/app';
import type { TokenScope } from '../../src/platform/prisma-client/enums';
import { AllowAnyone, Answers } from '../../src/platform/routes';
import { newToken } from '../../src/platform/secrets';
import { aFullClub, type Things } from '../support/full-club';
import {
  addressOf,
  declaredRoutes,
  otherServedPaths,
  servedApiRoutes,
  type DeclaredRoute,
} from '../support/routes';
import { useService } from '../support/service';
import {
  aClub,
  aMember,
  aPerson,
  aSessionCookieOf,
  nobody,
  withScopes,
  type Actor,
  type ClubWorld,
} from '../support/world';

const service = useService();

let club: ClubWorld;
let things: Things;
let routes: DeclaredRoute[];

beforeAll(async () => {
  club = await aClub(service);
  things = await aFullClub(service, club);
  routes = declaredRoutes(service);
});

interface Door {
  status: number;
  type: string;
  body: unknown;
  headers: Record<string, string>;
}

type Sender = (route: DeclaredRoute, address: string) => PromiseLike<Door>;

/** A request that no route carries out, whoever lets it in: no body fits it, and no ETag. */
function by(actor: Actor): Sender {
  return async ({ method, behaviour }, address) => {
    const test = actor.send(method, address);
    if (behaviour.needsMatch === true) void test.set('If-Match', '"of nothing"');
    const { status, body, headers } = await test;
    return { status, type: String(body?.type), body, headers };
  };
}

/** The same from a browser in which that person has just signed in: signing out is among the routes. */
function byBrowserOf(personId: string): Sender {
  return async ({ method, behaviour }, address) => {
    const test = nobody(service).send(method, address);
    void test.set('Cookie', await aSessionCookieOf(service, personId)).set('Origin', service.url);
    if (behaviour.needsMatch === true) void test.set('If-Match', '"of nothing"');
    const { status, body, headers } = await test;
    return { status, type: String(body?.type), body, headers };
  };
}

type Verdict = 'passes' | '401' | '403' | '404';

/** Where the door and the room behind it could both have said it, the thing behind the door exists: its 404 would be the door's. */
function verdictOf({ status, type }: Door): Verdict {
  if (status === 401 && type !== '/problems/sign-in-failed') return '401';
  if (status === 403 && type !== '/problems/not-yours') return '403';
  return status === 404 ? '404' : 'passes';
}

async function differences(
  send: Sender,
  expected: (route: DeclaredRoute) => Verdict,
  some: DeclaredRoute[] = routes,
): Promise<string[]> {
  const found: string[] = [];
  for (const route of some) {
    const door = await send(route, addressOf(route, things));
    const verdict = verdictOf(door);
    const isMissing = verdict === '404' && expected(route) === 'passes' && isOwnThing(route);
    if (verdict !== expected(route) && !isMissing) {
      found.push(`${route.name}: ${expected(route)} expected, ${JSON.stringify(door)} came`);
    }
  }
  return found;
}

/**
 * Tokens and sessions are a person's own, notices and feeds a member's: those of aFullClub are the steward's, and to others they are not
 * there.
 */
function isOwnThing({ rule, path }: DeclaredRoute): boolean {
  return (
    (rule.who === 'person' && path.includes(':')) || /\/(notices|calendar-feeds)\/:/.test(path)
  );
}

describe('the routes', () => {
  test('that are served are those that declare who may use them', () => {
    expect(routes.map(({ name }) => name.replace(' ', ' /api/v1')).sort()).toEqual(
      servedApiRoutes()
        .map(({ method, path }) => `${method} ${path}`)
        .sort(),
    );
    expect(routes.length).toBeGreaterThan(40);
  });

  test('that are served are those that the OpenAPI document tells of', () => {
    const documented = Object.entries(service.document.paths).flatMap(([path, item]) =>
      Object.keys(item as object).map(
        (method) => `${method.toUpperCase()} ${path.replaceAll(/\{(\w+)\}/g, ':$1')}`,
      ),
    );
    expect(documented.sort()).toEqual(
      servedApiRoutes()
        .map(({ method, path }) => `${method} ${path}`)
        .sort(),
    );
  });

  test('beside the API are those of whoever runs it, the catalogue and the documents', () => {
    for (const path of otherServedPaths()) {
      expect(path).toMatch(/^\/(health|metrics|problems|api\/docs|api\/openapi\.json)/);
    }
  });

  test.each([
    ['no rule', [Answers(Object, 'Something')]],
    ['nothing that it answers', [AllowAnyone()]],
  ])('one that declares %s keeps the service from starting', async (_, decorators) => {
    class Careless {
      look(): string {
        return 'everything';
      }
    }
    const descriptor = Object.getOwnPropertyDescriptor(Careless.prototype, 'look')!;
    for (const decorate of [Get('careless'), ...decorators]) {
      decorate(Careless.prototype, 'look', descriptor);
    }
    Controller()(Careless);
    const module = { module: Careless, imports: [DiscoveryModule], controllers: [Careless] };
    const app = await NestFactory.createApplicationContext(module, { logger: false });

    expect(() => refuseUndeclaredRoutes(app)).toThrow(/Careless\.look declares no/);
    await app.close();
  });
});

describe('the door', () => {
  test('asks nobody to come in but where anyone may', async () => {
    const found = await differences(by(nobody(service)), ({ rule }) =>
      rule.who === 'anyone' ? 'passes' : '401',
    );
    expect(found).toEqual([]);
  });

  test('takes no token that was not given out, in whatever form', async () => {
    const junk = [newToken(), 'junk', `${newToken()}x`];
    for (const token of junk) {
      const stranger = await withScopes(service, await aPerson(service), ['read']);
      Object.assign(stranger, { token });
      const found = await differences(by(stranger), ({ rule }) =>
        rule.who === 'anyone' ? 'passes' : '401',
      );
      expect(found).toEqual([]);
    }
  });

  test('says how to sign in', async () => {
    for (const route of routes.filter(({ rule }) => rule.who !== 'anyone')) {
      const door = await by(nobody(service))(route, addressOf(route, things));
      expect([route.name, door.headers['www-authenticate']]).toEqual([route.name, 'Bearer']);
    }
  });

  test.each(['member', 'steward'] as const)(
    'lets a %s with a token in by the rule',
    async (role) => {
      const actor = await aMember(service, club.clubId, role);
      const found = await differences(by(actor), ({ rule }) => {
        if (rule.who !== 'anyone' && rule.scope === 'session') return '403';
        return rule.who === 'steward' && role === 'member' ? '403' : 'passes';
      });
      expect(found).toEqual([]);
    },
  );

  test.each(['member', 'steward'] as const)(
    'lets a %s with a browser in by the rule',
    async (role) => {
      const { personId } = await aMember(service, club.clubId, role);
      const found = await differences(byBrowserOf(personId), ({ rule }) =>
        rule.who === 'steward' && role === 'member' ? '403' : 'passes',
      );
      expect(found).toEqual([]);
    },
  );

  test('refuses a token that lacks the scope of the route, and names the scope', async () => {
    const scopes: TokenScope[] = ['read', 'record', 'book', 'steward'];
    const seen = new Set<string>();
    for (const missing of scopes) {
      const others = scopes.filter((scope) => scope !== missing);
      const actor = await withScopes(service, club.steward, others);
      for (const route of routes) {
        if (route.rule.who === 'anyone' || route.rule.scope !== missing) continue;
        seen.add(missing);
        const { status, type, body } = await by(actor)(route, addressOf(route, things));
        const { detail } = body as { detail: string };
        expect([route.name, status, type, detail]).toEqual([
          route.name,
          403,
          '/problems/not-allowed',
          `The token lacks the scope "${missing}".`,
        ]);
      }
    }
    expect(seen).toEqual(new Set(scopes));
  });

  test('takes no token in the address, where it would end up in logs and histories', async () => {
    for (const route of routes.filter(({ rule }) => rule.who !== 'anyone')) {
      const address = `${addressOf(route, things)}?access_token=${club.steward.token!}`;
      const { status, type } = await by(nobody(service))(route, address);
      expect([route.name, status, type]).toEqual([route.name, 401, '/problems/sign-in-needed']);
    }
  });

  test('takes nothing that changes anything from the pages of another site', async () => {
    const cookie = await aSessionCookieOf(service, club.steward.personId);
    for (const route of routes.filter(({ method }) => method !== 'get')) {
      for (const header of ['Origin', 'Referer']) {
        const { status, body } = await nobody(service)
          .send(route.method, addressOf(route, things))
          .set('Cookie', cookie)
          .set(header, 'https://elsewhere.example/page');
        expect([route.name, status, body.type]).toEqual([route.name, 403, '/problems/cross-site']);
      }
    }
  });
});

describe('another club', () => {
  const inClubs = () => routes.filter(({ path }) => path.startsWith('/clubs/:clubId'));

  test.each([
    ['a member of another club', async () => (await aClub(service)).ada],
    ['a steward of another club', async () => (await aClub(service)).steward],
    ['a person in no club', async () => aPerson(service)],
    [
      'somebody who has left',
      async () => {
        const leaver = await aMember(service, club.clubId, 'steward');
        await service.prisma.member.updateMany({
          where: { id: leaver.memberId },
          data: { leftAt: new Date() },
        });
        return leaver;
      },
    ],
  ])('is not there for %s: the answer is that for a club which does not exist', async (_, who) => {
    const stranger = await who();
    for (const route of inClubs()) {
      const theirs = await by(stranger)(route, addressOf(route, things));
      const none = await by(stranger)(route, addressOf(route, { ...things, clubs: randomUUID() }));
      expect([route.name, theirs.status, theirs.type]).toEqual([
        route.name,
        404,
        '/problems/not-found',
      ]);
      expect([none.status, none.body]).toEqual([404, theirs.body]);
    }
  });

  test('has things that are, from here, like things which do not exist', async () => {
    const other = await aClub(service);
    const theirs = await aFullClub(service, other);
    const cookie = await aSessionCookieOf(service, club.steward.personId);
    const withThings = inClubs().filter(({ path }) => path.split(':').length > 2);
    for (const route of withThings) {
      const answers = [theirs, randomThings()].map(async (strange) => {
        const address = addressOf(route, { ...strange, clubs: club.clubId });
        const test = nobody(service)
          .send(route.method, address + (queries[route.name] ?? ''))
          .set({ Cookie: cookie, Origin: service.url });
        if (route.behaviour.needsMatch === true) void test.set('If-Match', '"of nothing"');
        const hasBody = ['post', 'patch', 'put'].includes(route.method);
        const answer = await (hasBody ? test.send(bodies[route.name] ?? {}) : test);
        return [route.name, answer.status, answer.body as unknown];
      });
      const [theirAnswer, noAnswer] = await Promise.all(answers);
      expect(theirAnswer).toEqual(noAnswer);
      expect(noAnswer!.slice(0, 2)).toEqual([route.name, 404]);
    }
  });
});

function randomThings(): Things {
  return Object.fromEntries(Object.keys(things).map((word) => [word, randomUUID()]));
}

// What these routes refuse before they look for the thing in their address.
const at = new Date(Date.now() - 60_000).toISOString();
const bodies: Record<string, object> = {
  'PATCH /clubs/:clubId/members/:id': { role: 'member' },
  'POST /clubs/:clubId/stations/:stationId/closures': {
    startsAt: '2031-05-01T08:00:00Z',
    endsAt: '2031-05-02T08:00:00Z',
    reason: 'Repair',
  },
  'POST /clubs/:clubId/stations/:stationId/duty-windows': {
    duty: 'cool',
    startsAt: '2031-05-01T08:00:00Z',
    endsAt: '2031-05-02T08:00:00Z',
  },
  'POST /clubs/:clubId/loans/:id/handover': { at },
  'POST /clubs/:clubId/loans/:id/returns': { lotId: randomUUID(), massKg: 1, at },
  'POST /clubs/:clubId/lots/:id/withdrawals': { kind: 'lost', massKg: 1, at },
  'POST /clubs/:clubId/lots/:id/holds': { reason: 'Smells' },
  'POST /clubs/:clubId/lots/:id/corrections': {
    wrongLotId: randomUUID(),
    rightLotId: null,
    massKg: 1,
    because: 'Mixed up',
  },
  'POST /clubs/:clubId/holds/:id/release': { because: 'Good', evidence: 'Tasted' },
  'POST /clubs/:clubId/holds/:id/branch-releases': {
    lotId: randomUUID(),
    because: 'Good',
    evidence: 'Tasted',
  },
  'POST /clubs/:clubId/batches/:id/steps': { kind: 'cleared', at },
  'POST /clubs/:clubId/plans/:id/booking': { alternative: 0 },
  'POST /clubs/:clubId/probes/:probeId/readings': { readings: [{ at, temperatureC: 14 }] },
  'POST /clubs/:clubId/batches/:id/setting-checks': { state: 'liquid', at },
  'POST /clubs/:clubId/batches/:id/setting-checks/:checkId/strike-out': { because: 'Mistaken.' },
};
const queries: Record<string, string> = {
  'GET /clubs/:clubId/diary': '?from=2031-05-01T00:00:00Z&to=2031-05-09T00:00:00Z',
  'GET /clubs/:clubId/lots/:id/label.pdf': '?for=pail',
  'GET /clubs/:clubId/stations/:id/free':
    '?from=2031-05-01T00:00:00Z&to=2031-05-09T00:00:00Z&places=1&minutes=60&duty=warm&minC=40&maxC=45',
};
