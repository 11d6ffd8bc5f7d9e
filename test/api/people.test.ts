import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import { giveNewPassword } from '../../src/people/forgotten-password';
import { Database } from '../../src/platform/database';
import { aBrowserOf, anAccount } from '../support/account';
import { useService } from '../support/service';
import { aClub, aPerson, nobody } from '../support/world';

const service = useService();
const goodPassword = 'slow spoon on a Tuesday';

function newcomer(more: object = {}) {
  return { name: 'Ida', email: `${randomUUID()}@example.org`, password: goodPassword, ...more };
}

async function anInvitation(role = 'member') {
  const club = await aClub(service);
  const { body } = await club.steward.post(`${club.path}/invitations`, { role }).expect(201);
  return { ...club, invitationCode: body.code as string, invitationId: body.id as string };
}

async function invitationIsOpen(id: string): Promise<boolean> {
  const { acceptedAt } = await service.prisma.invitation.findFirstOrThrow({ where: { id } });
  return acceptedAt === null;
}

function signIn(email: string, password: string) {
  return nobody(service).post('/session', { email, password });
}

beforeEach(async () => {
  await service.database.query('delete from rate_limit');
});

describe('signing up', () => {
  test('the same key with another password is another request', async () => {
    const { invitationCode } = await anInvitation();
    const wish = newcomer({ invitationCode });
    const send = (body: object) =>
      nobody(service).post('/people', body).set('Idempotency-Key', '"sign me up"');

    await send(wish).expect(201);
    await send({ ...wish, password: 'quick fork on a Monday' }).expect(422);
    const again = await send(wish).expect(201);

    expect(again.headers['idempotent-replayed']).toBe('true');
    await signIn(wish.email, 'quick fork on a Monday').expect(401);
  });

  test('a newcomer with an invitation is a member at once, and then signs in', async () => {
    const { clubId, path, steward, invitationCode } = await anInvitation();
    const wish = newcomer({ invitationCode });

    const { body, headers } = await nobody(service).post('/people', wish).expect(201);

    expect(Object.keys(body).sort()).toEqual([
      'clubId',
      'createdAt',
      'email',
      'id',
      'mailNotices',
      'name',
    ]);
    expect(body).toMatchObject({ name: 'Ida', email: wish.email, clubId });
    expect(headers['set-cookie']).toBeUndefined();
    const session = await signIn(wish.email, goodPassword).expect(201);
    expect(session.body.clubs).toMatchObject([{ clubId, role: 'member' }]);
    const history = await steward.get(`${path}/audit`).expect(200);
    expect(history.body.items[0]).toMatchObject({ action: 'member.joined', who: 'Ida' });
  });

  test('an invitation makes a steward where it says so', async () => {
    const { invitationCode } = await anInvitation('steward');
    const wish = newcomer({ invitationCode });
    await nobody(service).post('/people', wish).expect(201);

    const session = await signIn(wish.email, goodPassword).expect(201);

    expect(session.body.clubs[0].role).toBe('steward');
  });

  test('only an open invitation lets somebody in, and a refusal leaves no account behind', async () => {
    const used = await anInvitation();
    await nobody(service)
      .post('/people', newcomer(used_(used)))
      .expect(201);
    const old = await anInvitation();
    await service.database.query(
      `update invitation set expires_at = now() - interval '1 second' where id = $1`,
      [old.invitationId],
    );
    const before = await service.prisma.person.count();

    for (const more of [
      {},
      { invitationCode: 'nonsense' },
      { invitationCode: '0000-0000-0000-0000' },
      used_(used),
      used_(old),
    ]) {
      const { body } = await nobody(service).post('/people', newcomer(more)).expect(403);
      expect(body.type).toBe('/problems/not-allowed');
    }
    expect(await service.prisma.person.count()).toBe(before);

    function used_({ invitationCode }: { invitationCode: string }) {
      return { invitationCode };
    }
  });

  test('of two who use one code at once, one gets in', async () => {
    const { invitationCode } = await anInvitation();

    const answers = await Promise.all(
      [1, 2].map(() => nobody(service).post('/people', newcomer({ invitationCode }))),
    );

    expect(answers.map(({ status }) => status).sort()).toEqual([201, 403]);
  });

  test('an e-mail that has an account is refused in any case of letters, and the invitation stays open', async () => {
    const { email } = await anAccount(service);
    const { invitationCode, invitationId } = await anInvitation();

    const { body } = await nobody(service)
      .post('/people', newcomer({ email: email.toUpperCase(), invitationCode }))
      .expect(409);

    expect(body).toMatchObject({ type: '/problems/duplicate', errors: [{ pointer: '#/email' }] });
    expect(await invitationIsOpen(invitationId)).toBe(true);
  });

  test.each([
    ['the list of common passwords', 'Password123'],
    ['the list of common passwords', 'QWERTYUIOP'],
    ['one word of the dictionary', 'abdominal'],
    ['words of the room', 'honeyhoney'],
    ['words of the room', 'Creaming Room 1'],
    ['the name', 'IdaLovelace'],
    ['the name turned round', 'lovelace.ida.7'],
    ['the e-mail', 'countess1815!'],
    ['a part of the e-mail', 'countess'],
  ])('a password out of %s is refused: %s', async (_, password) => {
    const wish = { name: 'Ida Lovelace', email: 'countess1815@example.org', password };

    const { body } = await nobody(service).post('/people', wish).expect(422);

    expect(body).toMatchObject({ type: '/problems/invalid', errors: [{ pointer: '#/password' }] });
  });

  test.each(['honey drips from the old oak', 'eight!xy', 'Ida eats 14 radishes'])(
    'a password may hold such words if enough else is in it: %s',
    async (password) => {
      const { invitationCode } = await anInvitation();
      await nobody(service).post('/people', newcomer({ password, invitationCode })).expect(201);
    },
  );

  test.each([
    ['too short', { password: 'seven!x' }, '#/password'],
    ['too long', { password: 'x1'.repeat(65) }, '#/password'],
    ['half a character', { password: 'slow spoon \ud800' }, '#/password'],
    ['not an e-mail', { email: 'ida' }, '#/email'],
    ['no e-mail', { email: undefined }, '#'],
    ['a blank name', { name: '  ' }, '#/name'],
    ['a name of 101 characters', { name: 'i'.repeat(101) }, '#/name'],
    ['a role of one’s own choice', { role: 'steward' }, '#/role'],
    ['an id of one’s own choice', { id: randomUUID() }, '#/id'],
  ])('what cannot be accepted is named: %s', async (_, more, pointer) => {
    const { body } = await nobody(service).post('/people', newcomer(more)).expect(422);
    expect(body.errors).toMatchObject([{ pointer }]);
  });

  test('a repeat with the same Idempotency-Key makes one account and answers the same', async () => {
    const { invitationCode } = await anInvitation();
    const wish = newcomer({ invitationCode });
    const key = `"${randomUUID()}"`;
    const first = await nobody(service).post('/people', wish).set('Idempotency-Key', key);

    const again = await nobody(service).post('/people', wish).set('Idempotency-Key', key);
    const other = await nobody(service)
      .post('/people', { ...wish, name: 'Ilse' })
      .set('Idempotency-Key', key);

    expect(again.status).toBe(201);
    expect(again.body).toEqual(first.body);
    expect(again.headers['idempotent-replayed']).toBe('true');
    expect(other.status).toBe(422);
    expect(other.body.type).toBe('/problems/key-reused');
  });
});

describe('a password', () => {
  // OWASP ASVS 5.0, 6.2.5, 6.2.8 and 6.2.9: any characters, no truncation, exactly as it came.
  test('may be any 8 to 128 characters of Unicode, and each of its bytes counts', async () => {
    const password = fc.string({ unit: 'binary', minLength: 8, maxLength: 128 });
    await fc.assert(
      fc.asyncProperty(password, fc.nat(), async (chosen, place) => {
        const { invitationCode } = await anInvitation();
        const wish = newcomer({ password: chosen, invitationCode });
        await nobody(service).post('/people', wish).expect(201);

        await signIn(wish.email, chosen).expect(201);
        const characters = Array.from(chosen);
        const changed = characters.with(place % characters.length, '\u2042').join('');
        if (changed !== chosen) await signIn(wish.email, changed).expect(401);
        await signIn(wish.email, characters.slice(0, -1).join('')).expect(401);
      }),
      { numRuns: 12 },
    );
  }, 60_000);

  test('counts beyond its 72nd byte, which some hashes never see', async () => {
    const { invitationCode } = await anInvitation();
    const wish = newcomer({ password: `${'ab cd'.repeat(20)}!`, invitationCode });
    await nobody(service).post('/people', wish).expect(201);

    await signIn(wish.email, `${'ab cd'.repeat(20)}?`).expect(401);
    await signIn(wish.email, `${'ab cd'.repeat(20)}!`).expect(201);
  });

  // OWASP Password Storage Cheat Sheet: argon2id, 19 MiB, 2 passes, 1 lane.
  test('is kept as an argon2id hash alone', async () => {
    const { invitationCode } = await anInvitation();
    const { body } = await nobody(service).post('/people', newcomer({ invitationCode }));

    const { passwordHash } = await service.prisma.person.findUniqueOrThrow({
      where: { id: body.id as string },
    });

    expect(passwordHash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
  });
});

describe('one’s own account', () => {
  test('is read with a token, by its owner alone', async () => {
    const ada = await aPerson(service);
    const { body } = await ada.get('/people/me').expect(200);
    expect(Object.keys(body).sort()).toEqual(['createdAt', 'email', 'id', 'mailNotices', 'name']);
    expect(body.id).toBe(ada.personId);
    await nobody(service).get('/people/me').expect(401);
  });

  test('is renamed in a browser, from the state that was read', async () => {
    const { browser, name } = await anAccount(service);
    const { headers } = await browser.get('/people/me').expect(200);
    const changed = await browser.change('/people/me', { name: 'Ada B.' });
    expect(changed.status).toBe(200);
    expect(changed.body.name).toBe('Ada B.');

    const stale = await browser
      .patch('/people/me', { name })
      .set('If-Match', String(headers['etag']));
    const blind = await browser.patch('/people/me', { name });

    expect([stale.status, blind.status]).toEqual([412, 428]);
    expect((await browser.get('/people/me')).body).toEqual(changed.body);
    const unknown = await browser.change('/people/me', { email: 'other@example.org' });
    expect(unknown.status).toBe(422);
    expect(unknown.body.errors).toMatchObject([{ pointer: '#/email' }]);
  });

  test('is not changed with a token', async () => {
    const ada = await aPerson(service);
    await ada.patch('/people/me', { name: 'X' }).set('If-Match', '*').expect(403);
    const wish = { currentPassword: 'whatever', newPassword: goodPassword };
    await ada.post('/people/me/password', wish).expect(403);
  });
});

describe('changing the password', () => {
  test('ends every other session, and the new one counts', async () => {
    const { browser, personId, email, password } = await anAccount(service);
    const other = await aBrowserOf(service, personId);
    const wish = { currentPassword: password, newPassword: goodPassword };

    await browser.post('/people/me/password', wish).expect(200);

    await browser.get('/session').expect(200);
    await other.get('/session').expect(401);
    await signIn(email, password).expect(401);
    await signIn(email, goodPassword).expect(201);
  });

  test('needs the current one; five wrong ones in a quarter of an hour are enough', async () => {
    const { browser, personId, email, password } = await anAccount(service);
    const other = await aBrowserOf(service, personId);
    const wish = { currentPassword: 'another one', newPassword: goodPassword };
    for (let time = 1; time <= 5; time++) {
      const { body } = await browser.post('/people/me/password', wish).expect(403);
      expect(body.type).toBe('/problems/not-allowed');
    }

    const right = { ...wish, currentPassword: password };
    const { body, headers } = await browser.post('/people/me/password', right).expect(429);

    expect(body.type).toBe('/problems/too-many');
    expect(Number(headers['retry-after'])).toBeGreaterThan(0);
    await other.get('/session').expect(200);
    await signIn(email, password).expect(201);
  });

  test('asks as much of the new one as signing up does', async () => {
    const { browser, password } = await anAccount(service);
    const wish = { currentPassword: password, newPassword: 'password123' };
    const { body } = await browser.post('/people/me/password', wish).expect(422);
    expect(body.errors).toMatchObject([{ pointer: '#/newPassword' }]);
  });

  test('is answered again to a repeat with the same Idempotency-Key', async () => {
    const { browser, password } = await anAccount(service);
    const wish = { currentPassword: password, newPassword: goodPassword };
    const key = `"${randomUUID()}"`;
    const first = await browser.post('/people/me/password', wish).set('Idempotency-Key', key);

    const again = await browser.post('/people/me/password', wish).set('Idempotency-Key', key);

    expect([first.status, again.status]).toEqual([200, 200]);
    expect(again.headers['idempotent-replayed']).toBe('true');
  });
});

test('the operator gives a forgotten password’s owner a new one, and their sessions end', async () => {
  const { browser, email, password } = await anAccount(service);
  const database = service.app.get(Database);

  const given = await giveNewPassword(database, email.toUpperCase());

  expect(given).toMatch(/^[a-z]+(-[a-z]+){5}$/);
  await browser.get('/session').expect(401);
  await signIn(email, password).expect(401);
  await signIn(email, given!).expect(201);
  expect(await giveNewPassword(database, 'nobody@example.org')).toBeNull();
});
