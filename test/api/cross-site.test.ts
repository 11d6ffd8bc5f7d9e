import request from 'supertest';
import { aBrowserOf, anAccount } from '../support/account';
import { useService } from '../support/service';
import { aClub, aPerson, nobody } from '../support/world';

// OWASP Cross-Site Request Forgery Prevention Cheat Sheet: Fetch Metadata first, Origin or Referer where a browser sends none.
const service = useService();

const club = { name: 'The Linden Yard', timeZone: 'Europe/Vienna' };

/** Sends a change as the browser of somebody signed in would, with those headers, and answers whether it was let through. */
async function isLetThrough(headers: Record<string, string>): Promise<boolean> {
  const { browser, personId } = await anAccount(service);
  const answer = await nobody(service)
    .post('/clubs', club)
    .set({ Cookie: browser.cookie, ...headers });
  const founded = await service.prisma.member.count({ where: { personId } });
  if (answer.status === 201) {
    expect(founded).toBe(1);
    return true;
  }
  expect([answer.status, answer.body.type]).toEqual([403, '/problems/cross-site']);
  expect(founded).toBe(0);
  return false;
}

describe('with the session cookie, a change', () => {
  test.each([
    ['same-origin', true],
    ['none', true],
    ['same-site', false],
    ['cross-site', false],
    ['something new', false],
  ])('that Fetch Metadata calls %s is let through: %s', async (site, expected) => {
    expect(await isLetThrough({ 'Sec-Fetch-Site': site })).toBe(expected);
  });

  test('that Fetch Metadata calls foreign is refused, whatever Origin says', async () => {
    expect(await isLetThrough({ 'Sec-Fetch-Site': 'cross-site', Origin: service.url })).toBe(false);
  });

  test('from a page of the service is let through by its Origin', async () => {
    expect(await isLetThrough({ Origin: service.url })).toBe(true);
  });

  test.each([
    'https://elsewhere.example',
    'http://127.0.0.1',
    'http://127.0.0.1:1',
    'http://localhost:3000',
    'null',
    'not an address',
  ])('from the Origin %s is refused', async (origin) => {
    expect(await isLetThrough({ Origin: origin })).toBe(false);
  });

  test('from another site is not excused by a Referer of the service', async () => {
    const origin = 'https://elsewhere.example';
    expect(await isLetThrough({ Origin: origin, Referer: `${service.url}/` })).toBe(false);
  });

  test('without Origin goes by the Referer', async () => {
    expect(await isLetThrough({ Referer: `${service.url}/bookings?day=today` })).toBe(true);
    expect(await isLetThrough({ Referer: `https://elsewhere.example/${service.url}` })).toBe(false);
    expect(await isLetThrough({ Referer: `${service.url}.elsewhere.example/` })).toBe(false);
  });

  test('that tells nothing of where it comes from is refused', async () => {
    expect(await isLetThrough({})).toBe(false);
  });

  test('by PATCH or DELETE is looked at like one by POST', async () => {
    const { steward, path } = await aClub(service);
    const { cookie } = await aBrowserOf(service, steward.personId);
    const evil = { Cookie: cookie, 'If-Match': '"x"', 'Sec-Fetch-Site': 'cross-site' };
    const { body } = await nobody(service).patch(path, { name: 'X' }).set(evil).expect(403);
    expect(body.type).toBe('/problems/cross-site');
    await nobody(service).delete('/session').set(evil).expect(403);
    await nobody(service).get('/session').set('Cookie', cookie).expect(200);
  });
});

test('reading is not stopped: another site sends it and does not see the answer', async () => {
  const { browser } = await anAccount(service);
  const answer = await nobody(service)
    .get('/session')
    .set({ Cookie: browser.cookie, 'Sec-Fetch-Site': 'cross-site' })
    .set('Origin', 'https://elsewhere.example')
    .expect(200);
  expect(answer.headers['access-control-allow-origin']).toBeUndefined();
});

test('no site is told that it may send what needs asking first', async () => {
  const { headers } = await request(service.url)
    .options('/api/v1/clubs')
    .set('Origin', 'https://elsewhere.example')
    .set('Access-Control-Request-Method', 'POST')
    .set('Access-Control-Request-Headers', 'content-type');
  expect(Object.keys(headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
});

test('a request with a token is let through: no browser adds one by itself', async () => {
  const ada = await aPerson(service);
  await ada.post('/clubs', club).set('Sec-Fetch-Site', 'cross-site').expect(201);
  await ada.post('/clubs', club).set('Origin', 'https://elsewhere.example').expect(201);
});

test('another site signs nobody in or up', async () => {
  const { email, password } = await anAccount(service);
  const evil = { Origin: 'https://elsewhere.example' };
  for (const answer of [
    await nobody(service).post('/session', { email, password }).set(evil),
    await nobody(service).post('/people', { name: 'X', email, password }).set(evil),
  ]) {
    expect([answer.status, answer.body.type]).toEqual([403, '/problems/cross-site']);
    expect(answer.headers['set-cookie']).toBeUndefined();
  }
  await nobody(service).post('/session', { email, password }).expect(201);
});

test.each(['application/x-www-form-urlencoded', 'text/plain', 'multipart/form-data; boundary=x'])(
  'what a form can send is not read: %s',
  async (type) => {
    const { browser, personId } = await anAccount(service);
    const answer = await nobody(service)
      .send('post', '/clubs')
      .set({ Cookie: browser.cookie, Origin: service.url, 'Content-Type': type })
      .send(type.includes('urlencoded') ? 'name=X&timeZone=UTC' : JSON.stringify(club));
    expect([answer.status, answer.body.type]).toEqual([415, '/problems/wrong-media-type']);
    expect(await service.prisma.member.count({ where: { personId } })).toBe(0);
  },
);
