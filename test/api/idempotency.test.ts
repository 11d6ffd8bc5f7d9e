import { randomUUID } from 'node:crypto';
import pg from 'pg';
import type request from 'supertest';
import { hashPassword } from '../../src/people/passwords';
import { lockOf, nobody as nobodyId } from '../../src/platform/idempotency';
import { Browser } from '../support/browser';
import { checksumOf } from '../support/checksum';
import { aFullClub, type Things } from '../support/full-club';
import { aLotBody, aSeededBatch, minutesAgo } from '../support/lots';
import { aPlanWish } from '../support/plan-room';
import { ahead, aWaitingWish, aWish, hoursLater } from '../support/room';
import { addressOf, declaredRoutes, type DeclaredRoute } from '../support/routes';
import { useService } from '../support/service';
import { aClub, aPerson, aSessionCookieOf, nobody, type ClubWorld } from '../support/world';

const service = useService();
const password = 'wax moth at the window';

let club: ClubWorld;
let things: Things;
let passwordHash: string;

beforeAll(async () => {
  passwordHash = await hashPassword(password);
});

beforeEach(async () => {
  club = await aClub(service);
  things = await aFullClub(service, club);
  await service.database.query('delete from rate_limit');
});

/** What each route that takes a key can be asked for once more in the club of beforeEach, and by whom. */
const wishes: Record<string, () => Promise<Wish> | Wish> = {
  'POST /people': () => ({
    personId: nobodyId,
    send: (path, body) => nobody(service).post(path, body),
    body: {
      name: 'Cleo',
      email: `${randomUUID()}@example.org`,
      password: 'drizzle on the bench',
      invitationCode: things['code'],
    },
  }),
  'POST /people/me/password': () =>
    inBrowser(club.ada.personId, { currentPassword: password, newPassword: 'frost on the lid' }),
  'POST /tokens': () => inBrowser(club.ada.personId, { name: 'Scales', scopes: ['read'] }),
  'POST /clubs': () => byAda({ name: 'Another', timeZone: 'UTC' }),
  'POST /clubs/:clubId/invitations': () => bySteward({ role: 'member' }),
  'POST /invitations/:code/acceptance': async () =>
    inBrowser((await aPerson(service)).personId, {}),
  'POST /clubs/:clubId/floral-sources': () =>
    bySteward({ name: 'Lime', grain: 'fine', sets: true }),
  'POST /clubs/:clubId/stations': () =>
    bySteward({
      name: 'Bench',
      placeLoadKg: 30,
      changeoverMinutes: 0,
      duties: [{ duty: 'bench', minC: 15, maxC: 25 }],
      places: 1,
    }),
  'POST /clubs/:clubId/stations/:stationId/closures': () =>
    bySteward({ startsAt: ahead(40), endsAt: ahead(41), reason: 'Repair' }),
  'POST /clubs/:clubId/stations/:stationId/duty-windows': () =>
    bySteward({ duty: 'cool', startsAt: ahead(70), endsAt: ahead(80) }),
  'POST /clubs/:clubId/closed-days': () => bySteward({ day: '2035-12-31', reason: 'Year’s end' }),
  'POST /clubs/:clubId/bookings': () =>
    byAda(aWish(things['stations']!, { startsAt: ahead(20), endsAt: hoursLater(ahead(20), 9) })),
  'POST /clubs/:clubId/bookings/:id/release': async () => {
    const running = aWish(things['stations']!, {
      startsAt: ahead(-1),
      endsAt: ahead(1),
      memberId: club.ada.memberId,
    });
    const { body } = await club.steward.post(`${club.path}/bookings`, running).expect(201);
    things['bookings'] = String(body.id);
    return byAda({});
  },
  'POST /clubs/:clubId/bookings/:id/arrival': async () => {
    const today = aWish(things['stations']!, {
      startsAt: hoursLater(new Date(new Date().setUTCMinutes(0, 0, 0)), 1),
      endsAt: ahead(1),
    });
    const { body } = await club.ada.post(`${club.path}/bookings`, today).expect(201);
    things['bookings'] = String(body.id);
    return byAda({});
  },
  'POST /clubs/:clubId/waiting-list': () =>
    byAda(aWaitingWish(things['stations']!, { notBefore: hoursLater(ahead(3), -1) })),
  'POST /clubs/:clubId/waiting-list/:id/acceptance': async () => {
    await club.ada.remove(`${club.path}/bookings/${things['bookings']!}`);
    return byAda({});
  },
  'POST /clubs/:clubId/lots': () => byAda(aLotBody(things['floral-sources']!)),
  'POST /clubs/:clubId/lots/:id/withdrawals': () =>
    byAda({ kind: 'lost', massKg: 0.5, at: minutesAgo(1) }),
  'POST /clubs/:clubId/lots/:id/holds': () => byAda({ reason: 'Smells of vinegar' }),
  'POST /clubs/:clubId/holds/:id/release': () =>
    byAda({ because: 'It was the bucket', evidence: 'Tasted' }),
  'POST /clubs/:clubId/holds/:id/branch-releases': async () => {
    const { lotId, batchPath } = await aSeededLot();
    const { body: hold } = await club.ada
      .post(`${club.path}/lots/${lotId}/holds`, { reason: 'Smells' })
      .expect(201);
    const { body: batch } = await club.ada.get(batchPath).expect(200);
    things['holds'] = String(hold.id);
    return byAda({ lotId: batch.creamed.lotId, because: 'Good', evidence: 'Tasted' });
  },
  'POST /clubs/:clubId/lots/:id/recall-drills': () => byAda({}),
  'POST /clubs/:clubId/lots/:id/corrections': async () => {
    const { lotId, batchPath } = await aSeededLot();
    const rightLotId = things['lots']!;
    const { body: batch } = await club.ada.get(batchPath).expect(200);
    things['lots'] = batch.creamed.lotId as string;
    return byAda({ wrongLotId: lotId, rightLotId, massKg: 0.1, because: 'Mixed up' });
  },
  'POST /clubs/:clubId/batches': async () => {
    const honey = await club.ada
      .post(`${club.path}/lots`, aLotBody(things['floral-sources']!))
      .expect(201);
    return byAda({ name: 'Summer', honey: [{ lotId: honey.body.id, massKg: 5 }] });
  },
  'POST /clubs/:clubId/batches/:id/steps': () =>
    byAda({ kind: 'potted', at: minutesAgo(2), pots: [{ netMassKg: 0.5, count: 4 }] }),
  'POST /clubs/:clubId/probes': () =>
    byAda({ name: 'Lowest shelf', stationId: things['stations'], placedAt: minutesAgo(9) }),
  'POST /clubs/:clubId/batches/:id/setting-checks': () =>
    byAda({ state: 'liquid', at: minutesAgo(2) }),
  'POST /clubs/:clubId/batches/:id/setting-checks/:checkId/strike-out': () =>
    byAda({ because: 'The wrong batch.' }),
  'POST /clubs/:clubId/batches/:id/steps/:stepId/take-back': async () => {
    const path = `${club.path}/batches/${things['batches']!}/steps`;
    const potted = { kind: 'potted', at: minutesAgo(2), pots: [{ netMassKg: 0.5, count: 4 }] };
    await club.ada.post(path, potted).expect(201);
    const { body } = await club.ada.post(path, { kind: 'shelved', at: minutesAgo(1) }).expect(201);
    things['steps'] = String(body.id);
    return byAda({});
  },
  'POST /clubs/:clubId/notices/all/read': () => bySteward({}),
  'POST /clubs/:clubId/notices/:id/read': () => bySteward({}),
  'POST /clubs/:clubId/calendar-feeds': () => inBrowser(club.ada.personId, { name: 'Phone' }),
  'POST /clubs/:clubId/plans': async () => byAda(await anotherPlanWish()),
  'POST /clubs/:clubId/plans/:id/booking': () => byAda({ alternative: 0 }),
  'POST /clubs/:clubId/loans/asks': () => byAda({ lenderId: club.ben.memberId, massKg: 0.5 }),
  'POST /clubs/:clubId/loans/offers': () => byAda(anOffer()),
  'POST /clubs/:clubId/loans/:id/acceptance': async () => {
    await offeredToBen();
    return byBen({});
  },
  'POST /clubs/:clubId/loans/:id/decline': async () => {
    await offeredToBen();
    return byBen({});
  },
  'POST /clubs/:clubId/loans/:id/handover': async () => {
    await offeredToBen();
    await club.ben.post(`${club.path}/loans/${things['loans']!}/acceptance`).expect(200);
    return byAda({ at: minutesAgo(1) });
  },
  'POST /clubs/:clubId/loans/:id/returns': async () => {
    const { body } = await club.ben.get(`${club.path}/loans/${things['loans']!}`);
    return byBen({ lotId: body.toLot.id, massKg: 0.5, at: new Date().toISOString() });
  },
  'POST /clubs/:clubId/loans/:id/forgiveness': () => byAda({}),
  'POST /clubs/:clubId/loans': () =>
    byAda({
      lotId: things['lots'],
      borrowerId: club.ben.memberId,
      massKg: 0.5,
      at: minutesAgo(1),
    }),
};

/** Honey to plan another run with. */
async function anotherPlanWish(): Promise<object> {
  const honey = await club.ada
    .post(`${club.path}/lots`, aLotBody(things['floral-sources']!))
    .expect(201);
  return aPlanWish({ honeyId: String(honey.body.id) });
}

/** Seed of Ada's that went into a batch. */
async function aSeededLot(): Promise<{ lotId: string; batchPath: string }> {
  const { seedId, path } = await aSeededBatch(
    club.ada,
    club,
    things['floral-sources']!,
    minutesAgo(60),
  );
  return { lotId: seedId, batchPath: path };
}

function anOffer(): object {
  return { lotId: things['lots'], borrowerId: club.ben.memberId, massKg: 0.5 };
}

async function offeredToBen(): Promise<void> {
  const { body } = await club.ada.post(`${club.path}/loans/offers`, anOffer()).expect(201);
  things['loans'] = String(body.id);
}

interface Wish {
  personId: string;
  send: (path: string, body: object) => request.Test;
  body: object;
}

function byAda(body: object): Wish {
  return { personId: club.ada.personId, send: club.ada.post, body };
}

function byBen(body: object): Wish {
  return { personId: club.ben.personId, send: club.ben.post, body };
}

function bySteward(body: object): Wish {
  return { personId: club.steward.personId, send: club.steward.post, body };
}

async function inBrowser(personId: string, body: object): Promise<Wish> {
  await service.prisma.person.update({ where: { id: personId }, data: { passwordHash } });
  const browser = new Browser(service, await aSessionCookieOf(service, personId));
  return { personId, send: browser.post, body };
}

function takers(): DeclaredRoute[] {
  return declaredRoutes(service).filter(({ behaviour }) => behaviour.takesIdempotencyKey === true);
}

test('every route that makes or does something takes a key, but for signing in, mere calculations and readings, which are stored once anyway', () => {
  const posts = declaredRoutes(service).filter(({ method }) => method === 'post');
  const names = posts.map(({ name }) => name).sort();
  expect(
    names.filter((name) => !/^POST \/(session$|calculations\/|.*\/readings$)/.test(name)),
  ).toEqual(Object.keys(wishes).sort());
  expect(
    takers()
      .map(({ name }) => name)
      .sort(),
  ).toEqual(Object.keys(wishes).sort());
});

describe.each(Object.keys(wishes))('%s', (name) => {
  async function asked(): Promise<{ route: DeclaredRoute; wish: Wish; path: string }> {
    const wish = await wishes[name]!();
    const route = takers().find((one) => one.name === name)!;
    return { route, wish, path: addressOf(route, things) };
  }

  test('sent twice with a key has one effect and one answer', async () => {
    const { route, wish, path } = await asked();
    const key = randomUUID();
    const before = await checksumOf(service);

    const first = await wish.send(path, wish.body).set('Idempotency-Key', key);
    const after = await checksumOf(service);
    const second = await wish.send(path, wish.body).set('Idempotency-Key', `"${key}"`);

    expect([first.status, first.body]).toEqual([
      route.behaviour.creates === undefined ? 200 : 201,
      expect.anything(),
    ]);
    expect(after).not.toEqual(before);
    expect([second.status, second.body]).toEqual([first.status, first.body]);
    expect(second.headers['idempotent-replayed']).toBe('true');
    expect(first.headers['idempotent-replayed']).toBeUndefined();
    expect(second.headers['location']).toBe(first.headers['location']);
    expect(await checksumOf(service)).toEqual(after);
  });

  test('while the same request is still being worked on is told to come again', async () => {
    const { wish, path, route } = await asked();
    const key = randomUUID();
    const claim = { personId: wish.personId, route: `POST /api/v1${route.path}`, key };
    const holder = new pg.Client({ connectionString: service.database.url });
    await holder.connect();
    await holder.query('select pg_advisory_lock($1)', [lockOf(claim)]);
    const before = await checksumOf(service);
    try {
      const answer = await wish.send(path, wish.body).set('Idempotency-Key', key);
      expect([answer.status, answer.body.type]).toEqual([409, '/problems/request-running']);
      expect(Number(answer.headers['retry-after'])).toBeGreaterThan(0);
      expect(await checksumOf(service)).toEqual(before);
    } finally {
      await holder.end();
    }
    const { status } = await wish.send(path, wish.body).set('Idempotency-Key', key);
    expect(status).toBeLessThan(300);
  });

  // Of a change of password nothing but the passwords could differ, and those do not count: nothing of them is kept.
  if (name === 'POST /people/me/password') return;

  test('with a key that came with another body is refused', async () => {
    const { wish, path } = await asked();
    await wish.send(path, wish.body).set('Idempotency-Key', '"pail 7"');
    const before = await checksumOf(service);

    const other = name.endsWith('acceptance') ? { x: 1 } : otherBody(name, wish);
    const { status, body } = await wish.send(path, other).set('Idempotency-Key', '"pail 7"');

    expect([status, body.type]).toEqual([422, '/problems/key-reused']);
    expect(await checksumOf(service)).toEqual(before);
  });
});

/** As good as the body itself, and different. A password's value does not make a difference: it is not kept. */
function otherBody(name: string, { body }: Wish): object {
  if (name.endsWith('arrival')) return { placesAreClear: true };
  if (name.endsWith('bookings/:id/release')) return { reason: 'Cleaning' };
  if ('because' in body) return { ...body, because: 'Another reason.' };
  if ('name' in body) return { ...body, name: 'Something else' };
  if ('role' in body) return { ...body, role: 'steward' };
  if ('reason' in body) return { ...body, reason: 'Cleaning' };
  if ('alternative' in body) return { alternative: 1 };
  return { ...body, note: 'Something else' };
}

test('another person’s request with the same key is another request', async () => {
  const path = `${club.path}/lots`;
  const lot = aLotBody(things['floral-sources']!);
  const adas = await club.ada.post(path, lot).set('Idempotency-Key', '"one"').expect(201);
  const bens = await club.ben.post(path, lot).set('Idempotency-Key', '"one"').expect(201);
  expect(bens.body.id).not.toBe(adas.body.id);
  expect(bens.headers['idempotent-replayed']).toBeUndefined();
});

test('what was refused for its form is not kept: corrected, it may use its key', async () => {
  const path = `${club.path}/lots`;
  const lot = aLotBody(things['floral-sources']!);
  await club.ada
    .post(path, { ...lot, massKg: -1 })
    .set('Idempotency-Key', '"two"')
    .expect(422);
  await club.ada.post(path, lot).set('Idempotency-Key', '"two"').expect(201);
});
