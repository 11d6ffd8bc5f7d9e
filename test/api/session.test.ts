import { randomUUID } from 'node:crypto';
import request from 'supertest';
import { sessionCookie } from '../../src/platform/sign-in';
import { aBrowserOf, anAccount } from '../support/account';
import { Browser } from '../support/browser';
import { useService } from '../support/service';
import { aClub, aMember, aPerson, nobody } from '../support/world';

const service = useService();

beforeEach(async () => {
  await service.database.query('delete from rate_limit');
});

function signIn(email: string, password: string, cookie?: string) {
  const test = nobody(service).post('/session', { email, password });
  return cookie === undefined ? test : test.set('Cookie', cookie).set('Origin', service.url);
}

function setCookie(response: request.Response): string {
  return String((response.headers['set-cookie'] as unknown as string[])[0]);
}

function cookieOf(response: request.Response): string {
  return setCookie(response).split(';')[0]!;
}

describe('signing in', () => {
  // OWASP ASVS 5.0, 3.3.1 to 3.3.4; RFC 6265bis, 4.1.3.2 for the prefix.
  test('sets a cookie that only this host gets back, over TLS, and no script reads', async () => {
    const { email, password, personId, name } = await anAccount(service);

    const answer = await signIn(email, password).expect(201);

    const [pair, ...flags] = setCookie(answer).split('; ');
    expect(pair).toMatch(/^__Host-creaming-room=[0-9A-Za-z]{32}$/);
    expect(flags.map((flag) => flag.toLowerCase()).sort()).toEqual(
      ['httponly', 'max-age=7776000', 'path=/', 'samesite=lax', 'secure'].sort(),
    );
    expect(answer.body).toMatchObject({ kind: 'session', personId, name, email, clubs: [] });
    expect(answer.text).not.toContain(pair!.split('=')[1]);
    expect(answer.headers['cache-control']).toBe('no-store');
    const days =
      (Date.parse(answer.body.expiresAt) - Date.parse(answer.body.createdAt)) / 86_400_000;
    expect(days).toBeCloseTo(90, 1);
  });

  test('keeps the cookie’s secret as a hash alone', async () => {
    const { email, password } = await anAccount(service);
    const secret = cookieOf(await signIn(email, password)).split('=')[1]!;

    const kept = await service.database.query<{ row: string }>(
      `select row_to_json(s)::text || encode(s.secret_hash, 'escape') as row from session s`,
    );

    expect(kept.some(({ row }) => row.includes(secret))).toBe(false);
  });

  test('makes a new session each time, and ends the one that came along', async () => {
    const { email, password } = await anAccount(service);
    const first = cookieOf(await signIn(email, password).expect(201));

    const second = cookieOf(await signIn(email, password, first).expect(201));

    expect(second).not.toBe(first);
    await new Browser(service, first).get('/session').expect(401);
    await new Browser(service, second).get('/session').expect(200);
  });

  test('does not take over a session that somebody slipped into the browser', async () => {
    const { email, password } = await anAccount(service);
    const planted = `${sessionCookie}=${'x'.repeat(32)}`;

    const cookie = cookieOf(await signIn(email, password, planted).expect(201));

    expect(cookie).not.toBe(planted);
    await new Browser(service, planted).get('/session').expect(401);
  });

  test('takes the e-mail in any case of letters, and the password in one', async () => {
    const { email, password } = await anAccount(service);
    await signIn(email.toUpperCase(), password).expect(201);
    await signIn(email, password.toUpperCase()).expect(401);
  });

  test('says the same to a wrong password and to an e-mail that nobody has', async () => {
    const { email } = await anAccount(service);

    const wrong = await signIn(email, 'not this one at all').expect(401);
    const unknown = await signIn('nobody@example.org', 'not this one at all').expect(401);

    expect(wrong.body.type).toBe('/problems/sign-in-failed');
    expect(unknown.body).toEqual(wrong.body);
    const shown = ({ headers }: request.Response) =>
      Object.keys(headers).filter((header) => header !== 'x-request-id');
    expect(shown(unknown)).toEqual(shown(wrong));
    expect(wrong.headers['www-authenticate']).toBe('Bearer');
    expect(wrong.headers['set-cookie']).toBeUndefined();
  });

  test.each([
    ['no password', { email: 'ada@example.org' }, '#'],
    ['a number for one', { email: 'ada@example.org', password: 12345678 }, '#/password'],
    ['a list for one', { email: 'ada@example.org', password: ['a'] }, '#/password'],
    ['an unknown field', { email: 'ada@example.org', password: 'x', remember: true }, '#/remember'],
  ])('refuses what is no e-mail with a password: %s', async (_, body, pointer) => {
    const answer = await nobody(service).post('/session', body).expect(422);
    expect(answer.body.errors).toMatchObject([{ pointer }]);
  });

  test('does not read e-mail and password from the address, where logs and histories would keep them', async () => {
    const { email, password } = await anAccount(service);
    const query = new URLSearchParams({ email, password }).toString();
    await nobody(service).post(`/session?${query}`, {}).expect(422);
    await nobody(service).post(`/session?${query}`, { email }).expect(422);
  });

  test('is not done by a form of another page', async () => {
    const { email, password } = await anAccount(service);
    for (const type of ['application/x-www-form-urlencoded', 'text/plain', 'multipart/form-data']) {
      const answer = await nobody(service)
        .send('post', '/session')
        .set('Content-Type', type)
        .send(new URLSearchParams({ email, password }).toString());
      expect([answer.status, answer.body.type]).toEqual([415, '/problems/wrong-media-type']);
    }
  });

  test('counts failures by the address of the connection, whatever X-Forwarded-For says', async () => {
    const { email, password } = await anAccount(service);
    for (let time = 1; time <= 5; time++) {
      await signIn(email, 'wrong').set('X-Forwarded-For', `203.0.113.${time}`).expect(401);
    }
    await signIn(email, password).set('X-Forwarded-For', '203.0.113.6').expect(429);
  });
});

describe('who am I', () => {
  test('tells the clubs that one is in, and no longer those that one has left', async () => {
    const { clubId, path, steward, ada } = await aClub(service);
    const browser = await aBrowserOf(service, ada.personId);
    const { body } = await browser.get('/session').expect(200);
    expect(body).toMatchObject({
      kind: 'session',
      personId: ada.personId,
      clubs: [{ clubId, memberId: ada.memberId, role: 'member' }],
    });

    await steward.remove(`${path}/members/${ada.memberId}`);

    expect((await browser.get('/session').expect(200)).body.clubs).toEqual([]);
  });

  test('tells a script the same by its token', async () => {
    const { clubId, ada } = await aClub(service);
    const { body } = await ada.get('/session').expect(200);
    expect(body).toMatchObject({ kind: 'token', personId: ada.personId, clubs: [{ clubId }] });
  });
});

describe('a session', () => {
  test('ends at signing out, and its cookie is worth nothing from then on', async () => {
    const { email, password } = await anAccount(service);
    const browser = new Browser(service, cookieOf(await signIn(email, password)));

    const answer = await browser.delete('/session').expect(204);

    expect(setCookie(answer)).toMatch(/^__Host-creaming-room=;.*Expires=Thu, 01 Jan 1970/);
    const replay = await browser.get('/session').expect(401);
    expect(replay.headers['www-authenticate']).toBe('Bearer');
    await browser.post('/clubs', { name: 'X', timeZone: 'UTC' }).expect(401);
  });

  test.each([
    ['after 14 days without use', `last_used_at = now() - interval '14 days 1 minute'`],
    ['after 90 days in any case', `expires_at = now()`],
  ])('ends %s', async (_, change) => {
    const { browser, personId } = await anAccount(service);
    await browser.get('/session').expect(200);
    await service.database.query(`update session set ${change} where person_id = $1`, [personId]);
    await browser.get('/session').expect(401);
  });

  test('is not ended with a token', async () => {
    const ada = await aPerson(service);
    await ada.delete('/session').expect(403);
  });

  test('is listed with its browser, to its owner alone, and no secret with it', async () => {
    const { browser, email, password } = await anAccount(service);
    await anAccount(service);
    await signIn(email, password).set('User-Agent', 'Wax Moth 1.0').expect(201);

    const { body, text } = await browser.get('/sessions').expect(200);

    expect(body.items).toMatchObject([
      { device: 'Wax Moth 1.0', isThisOne: false },
      { device: 'test', isThisOne: true },
    ]);
    expect(Object.keys(body.items[0]).sort()).toEqual(
      ['createdAt', 'device', 'id', 'isThisOne', 'lastUsedAt'].sort(),
    );
    expect(text).not.toContain(browser.cookie.split('=')[1]);
  });

  test('is listed page by page', async () => {
    const { browser, personId } = await anAccount(service);
    for (let time = 1; time <= 2; time++) await aBrowserOf(service, personId);
    const first = await browser.get('/sessions?limit=2').expect(200);
    const rest = await browser.get(`/sessions?limit=2&cursor=${first.body.nextCursor as string}`);
    const ids = [...first.body.items, ...rest.body.items].map(({ id }) => id as string);
    expect(new Set(ids).size).toBe(3);
    expect(rest.body.nextCursor).toBeNull();

    const stranger = await anAccount(service);
    await stranger.browser.get(`/sessions?cursor=${first.body.nextCursor as string}`).expect(400);
  });

  test('is ended from another browser of the same person', async () => {
    const { browser, personId } = await anAccount(service);
    const lost = await aBrowserOf(service, personId);
    const { body } = await lost.get('/session').expect(200);

    await browser.delete(`/sessions/${body.id as string}`).expect(204);

    await lost.get('/session').expect(401);
    await browser.delete(`/sessions/${body.id as string}`).expect(404);
  });

  test('of somebody else cannot be told from one that does not exist', async () => {
    const ada = await anAccount(service);
    const ben = await anAccount(service);
    const { body } = await ben.browser.get('/session').expect(200);

    const theirs = await ada.browser.delete(`/sessions/${body.id as string}`).expect(404);
    const none = await ada.browser.delete(`/sessions/${randomUUID()}`).expect(404);

    expect(theirs.body).toEqual(none.body);
    await ben.browser.get('/session').expect(200);
  });
});

test('a member who was removed is out of the club with the next request, by cookie and by token', async () => {
  const { clubId, path, steward } = await aClub(service);
  const leaver = await aMember(service, clubId, 'member');
  const browser = await aBrowserOf(service, leaver.personId);
  await browser.get(path).expect(200);
  await leaver.get(path).expect(200);

  await steward.remove(`${path}/members/${leaver.memberId}`);

  await browser.get(path).expect(404);
  await leaver.get(path).expect(404);
});
