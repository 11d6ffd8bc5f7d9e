import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import request from 'supertest';
import { Browser } from '../support/browser';
import { useService } from '../support/service';
import { aClub, Actor, nobody } from '../support/world';

const service = useService({ LOG_LEVEL: 'trace' });

/** What the work writes to standard output and standard error, by whichever way. */
async function written(work: () => Promise<void>): Promise<string> {
  let text = '';
  const note = (chunk: unknown): boolean => {
    text += String(chunk);
    return true;
  };
  const spies = [
    jest.spyOn(process.stdout, 'write').mockImplementation(note),
    jest.spyOn(process.stderr, 'write').mockImplementation(note),
    // The log writes to the file descriptor itself.
    jest
      .spyOn(fs, 'write')
      .mockImplementation((_to: number, chunk: unknown, ...rest: unknown[]) => {
        note(chunk);
        const done = rest.at(-1) as (error: null, count: number) => void;
        setImmediate(() => done(null, Buffer.byteLength(String(chunk))));
      }),
  ];
  try {
    await work();
    await new Promise((resolve) => setTimeout(resolve, 100));
    return text;
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}

/** Unlike an Actor it does not mind an answer of 500. */
function raw(path: string, body: object, headers: Record<string, string>) {
  return request(service.url)
    .post(`/api/v1${path}`)
    .set({ ...headers, Origin: service.url })
    .send(body);
}

// OWASP ASVS 5.0, 16.2.5.
test('no password, cookie, token, feed or invitation code is in the log, also when something breaks', async () => {
  const secrets: string[] = [];
  const password = `planted ${randomUUID()}`;
  const another = `planted ${randomUUID()}`;
  const email = `${randomUUID()}@example.org`;

  const log = await written(async () => {
    const { steward, path } = await aClub(service);
    const { body: invitation } = await steward.post(`${path}/invitations`).expect(201);
    const invitationCode = invitation.code as string;
    const wish = { name: 'Ida', email, password, invitationCode };
    await nobody(service).post('/people', wish).expect(201);
    await nobody(service)
      .post('/people', { ...wish, unknown: password })
      .expect(422);
    const signedIn = await nobody(service).post('/session', { email, password }).expect(201);
    await nobody(service).post('/session', { email, password: another }).expect(401);
    const cookie = String((signedIn.headers['set-cookie'] as unknown as string[])[0]).split(
      ';',
    )[0]!;
    const browser = new Browser(service, cookie);
    const { body: made } = await browser
      .post('/tokens', { name: 'x', scopes: ['read'] })
      .expect(201);
    const token = made.token as string;
    await new Actor(service, token).get('/session').expect(200);
    await browser.post(`/invitations/${invitationCode}/acceptance`).expect(409);
    await nobody(service).get(`/session?access_token=${token}`).expect(401);
    const { body: feed } = await browser.post(`${path}/calendar-feeds`, { name: 'x' }).expect(201);
    const address = String(feed.path);
    await nobody(service).get(address.replace('/api/v1', '')).expect(200);
    const change = { currentPassword: password, newPassword: another };
    await browser.post('/people/me/password', change).expect(200);

    // A table is gone: what the database says of the statement reaches the log.
    await service.database.query('alter table session rename to session_away');
    await raw('/session', { email, password: another }, {}).expect(500);
    await raw('/tokens', { name: 'x', scopes: ['read'] }, { cookie }).expect(500);
    await service.database.query('alter table session_away rename to session');
    await service.database.query('alter table calendar_feed rename to feed_away');
    await request(service.url).get(address).expect(500);
    await service.database.query('alter table feed_away rename to calendar_feed');
    await service.database.query('alter table invitation rename to invitation_away');
    await raw(`/invitations/${invitationCode}/acceptance`, {}, { cookie }).expect(500);
    await service.database.query('alter table invitation_away rename to invitation');

    secrets.push(
      password,
      another,
      cookie.split('=')[1]!,
      token,
      token.slice(6, 36),
      address.split('feed=')[1]!,
      invitationCode,
    );
    secrets.push(invitationCode.replaceAll('-', ''), steward.token!, email);
  });

  expect(log).toContain('/api/v1/invitations/:code/acceptance');
  expect(log).toContain('"failure"');
  expect(secrets.filter((secret) => log.includes(secret))).toEqual([]);
  expect(log).not.toContain('$argon2id$');
});
