import { randomUUID } from 'node:crypto';
import { newInvitationCode, readInvitationCode } from '../../src/invitations/invitation-code';
import { anAccount, aBrowserOf } from '../support/account';
import { useService } from '../support/service';
import { aClub, nobody, type ClubWorld } from '../support/world';

const service = useService();

beforeEach(async () => {
  await service.database.query('delete from rate_limit');
});

async function invite({ steward, path }: ClubWorld, more: object = {}) {
  const { body } = await steward.post(`${path}/invitations`, more).expect(201);
  const { id, code } = body as { id: string; code: string };
  return {
    id,
    code,
    address: `${path}/invitations/${id}`,
    acceptance: `/invitations/${code}/acceptance`,
  };
}

describe('inviting', () => {
  test('shows the code once', async () => {
    const club = await aClub(service);
    const { body, headers } = await club.steward.post(`${club.path}/invitations`).expect(201);

    expect(body.code).toMatch(/^([0-9A-HJKMNP-TV-Z]{4}-){3}[0-9A-HJKMNP-TV-Z]{4}$/);
    expect(headers['cache-control']).toBe('no-store');
    expect(body).toMatchObject({ role: 'member', invitedById: club.steward.memberId });
    const days = (Date.parse(body.expiresAt) - Date.parse(body.createdAt)) / 86_400_000;
    expect(days).toBeCloseTo(7, 1);
    const { code, ...shown } = body;
    const one = await club.steward.get(`${club.path}/invitations/${body.id as string}`).expect(200);
    expect(one.body).toEqual(shown);
    const list = await club.steward.get(`${club.path}/invitations`).expect(200);
    expect(list.body.items).toEqual([shown]);
    const history = await club.steward.get(`${club.path}/audit`).expect(200);
    expect(history.body.items[0]).toMatchObject({ action: 'invitation.made', subjectId: body.id });
    expect(list.text + history.text).not.toContain(code);
  });

  test('keeps the code as a hash alone', async () => {
    const { code } = await invite(await aClub(service));
    const kept = await service.database.query<{ row: string }>(
      `select row_to_json(i)::text || encode(i.code_hash, 'escape') as row from invitation i`,
    );
    const letters = code.replaceAll('-', '');
    expect(kept.some(({ row }) => row.includes(code) || row.includes(letters))).toBe(false);
  });

  test('is a steward’s, with a token of that scope', async () => {
    const { path, ada } = await aClub(service);
    for (const answer of [
      await ada.post(`${path}/invitations`),
      await ada.get(`${path}/invitations`),
    ]) {
      expect([answer.status, answer.body.type]).toEqual([403, '/problems/not-allowed']);
    }
  });

  test.each([
    [{ role: 'guest' }, '#/role'],
    [{ expiresInDays: 0 }, '#/expiresInDays'],
    [{ expiresInDays: 31 }, '#/expiresInDays'],
    [{ expiresInDays: 1.5 }, '#/expiresInDays'],
    [{ code: 'MINE' }, '#/code'],
  ])('is refused with %j', async (wrong, pointer) => {
    const { path, steward } = await aClub(service);
    const { body } = await steward.post(`${path}/invitations`, wrong).expect(422);
    expect(body.errors).toMatchObject([{ pointer }]);
    expect((await steward.get(`${path}/invitations`)).body.items).toEqual([]);
  });

  test('once more with the same Idempotency-Key shows the same code', async () => {
    const { path, steward } = await aClub(service);
    const key = `"${randomUUID()}"`;
    const first = await steward.post(`${path}/invitations`).set('Idempotency-Key', key).expect(201);
    const again = await steward.post(`${path}/invitations`).set('Idempotency-Key', key).expect(201);
    expect(again.body).toEqual(first.body);
    expect((await steward.get(`${path}/invitations`)).body.items).toHaveLength(1);
  });

  test('is listed page by page, the latest first', async () => {
    const club = await aClub(service);
    const made = [await invite(club), await invite(club), await invite(club)];
    const page = await club.steward.get(`${club.path}/invitations?limit=2`).expect(200);
    const cursor = page.body.nextCursor as string;
    const rest = await club.steward.get(`${club.path}/invitations?limit=2&cursor=${cursor}`);
    const ids = [...page.body.items, ...rest.body.items].map(({ id }) => id as string);
    expect(ids).toEqual(made.map(({ id }) => id).reverse());
    const other = await aClub(service);
    await other.steward.get(`${other.path}/invitations?cursor=${cursor}`).expect(400);
  });
});

describe('accepting', () => {
  test('makes a member, once', async () => {
    const club = await aClub(service);
    const { acceptance, address } = await invite(club);
    const { browser, name } = await anAccount(service);
    await browser.get(club.path).expect(404);

    const { body } = await browser.post(acceptance).expect(200);

    expect(body).toMatchObject({ clubId: club.clubId, role: 'member' });
    await browser.get(club.path).expect(200);
    const invitation = await club.steward.get(address).expect(200);
    expect(invitation.body.acceptedById).toBe(body.memberId);
    const history = await club.steward.get(
      `${club.path}/audit?subjectId=${body.memberId as string}`,
    );
    expect(history.body.items).toMatchObject([{ action: 'member.joined', who: name }]);
    const late = await anAccount(service);
    const again = await late.browser.post(acceptance).expect(409);
    expect(again.body.type).toBe('/problems/invitation-over');
  });

  test('takes the code in small letters, without groups, and with O for 0 and L for 1', async () => {
    const club = await aClub(service);
    const { code } = await invite(club);
    const typed = code.toLowerCase().replaceAll('-', '').replaceAll('0', 'o').replaceAll('1', 'l');
    const { browser } = await anAccount(service);
    await browser.post(`/invitations/${typed}/acceptance`).expect(200);
  });

  test('is not for somebody who is in already, and the invitation stays open', async () => {
    const club = await aClub(service);
    const { acceptance } = await invite(club);
    const ada = await aBrowserOf(service, club.ada.personId);
    const { body } = await ada.post(acceptance).expect(409);
    expect(body.type).toBe('/problems/already-member');
    const { browser } = await anAccount(service);
    await browser.post(acceptance).expect(200);
  });

  test('ends with the invitation’s time', async () => {
    const club = await aClub(service);
    const { acceptance, id } = await invite(club);
    await service.database.query('update invitation set expires_at = now() where id = $1', [id]);
    const { browser } = await anAccount(service);
    const { body } = await browser.post(acceptance).expect(409);
    expect(body.type).toBe('/problems/invitation-over');
    await browser.get(club.path).expect(404);
  });

  test('with a code that leads nowhere is 404, whatever it looks like', async () => {
    const { browser } = await anAccount(service);
    for (const code of [newInvitationCode(), 'x', 'UUUU-UUUU-UUUU-UUUU', '%00', 'ä'.repeat(16)]) {
      const { body } = await browser
        .post(`/invitations/${encodeURIComponent(code)}/acceptance`)
        .expect(404);
      expect(body.type).toBe('/problems/not-found');
    }
  });

  test('needs a session: a token does not make its owner a member', async () => {
    const club = await aClub(service);
    const { acceptance } = await invite(club);
    await club.ada.post(acceptance).expect(403);
    await nobody(service).post(acceptance).expect(401);
  });

  test('of two at once, one joins', async () => {
    for (let time = 1; time <= 3; time++) {
      const club = await aClub(service);
      const { acceptance } = await invite(club);
      const both = [await anAccount(service), await anAccount(service)];
      const answers = await Promise.all(both.map(({ browser }) => browser.post(acceptance)));
      expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
      expect(await service.prisma.member.count({ where: { clubId: club.clubId } })).toBe(4);
    }
  });

  test('of two invitations at once by one person makes one member', async () => {
    const club = await aClub(service);
    const both = [await invite(club), await invite(club)];
    const { browser } = await anAccount(service);
    const answers = await Promise.all(both.map(({ acceptance }) => browser.post(acceptance)));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
    expect(await service.prisma.member.count({ where: { clubId: club.clubId } })).toBe(4);
  });

  test('once more with the same Idempotency-Key is answered again', async () => {
    const { acceptance } = await invite(await aClub(service));
    const { browser } = await anAccount(service);
    const key = `"${randomUUID()}"`;
    const first = await browser.post(acceptance).set('Idempotency-Key', key).expect(200);
    const again = await browser.post(acceptance).set('Idempotency-Key', key).expect(200);
    expect(again.body).toEqual(first.body);
    const other = await invite(await aClub(service));
    const { body } = await browser.post(other.acceptance).set('Idempotency-Key', key).expect(422);
    expect(body.type).toBe('/problems/key-reused');
  });

  test('is stopped after sixty wrong codes in a quarter of an hour from one address, and so is signing up', async () => {
    const { acceptance } = await invite(await aClub(service));
    const { browser } = await anAccount(service);
    for (let time = 1; time <= 60; time++) {
      await browser.post(`/invitations/${newInvitationCode()}/acceptance`).expect(404);
    }

    const { headers } = await browser.post(acceptance).expect(429);

    expect(Number(headers['retry-after'])).toBeGreaterThan(0);
    const wish = { name: 'Ida', email: 'ida@example.org', password: 'slow spoon on a Tuesday' };
    await nobody(service).post('/people', wish).expect(429);
    await service.database.query('update rate_limit set expire = expire - 900000');
    await browser.post(acceptance).expect(200);
  });

  test('of right codes is not stopped', async () => {
    const club = await aClub(service);
    const { browser } = await anAccount(service);
    const { acceptance } = await invite(club);
    await browser.post(acceptance).expect(200);
    for (let time = 1; time <= 61; time++) await browser.post(acceptance).expect(409);
  });
});

describe('withdrawing', () => {
  test('makes the code worthless', async () => {
    const club = await aClub(service);
    const { acceptance, address, id } = await invite(club);
    await club.steward.delete(address).expect(428);
    await club.steward.delete(address).set('If-Match', '"old"').expect(412);

    expect((await club.steward.remove(address)).status).toBe(204);

    await club.steward.get(address).expect(404);
    const { browser } = await anAccount(service);
    await browser.post(acceptance).expect(404);
    const { body } = await club.steward.get(`${club.path}/audit?subjectId=${id}`);
    expect(body.items[0]).toMatchObject({ action: 'invitation.withdrawn' });
  });

  test('comes too late when somebody has accepted', async () => {
    const club = await aClub(service);
    const { acceptance, address } = await invite(club);
    const { browser } = await anAccount(service);
    await browser.post(acceptance).expect(200);
    const { status, body } = await club.steward.remove(address);
    expect([status, body.type]).toEqual([409, '/problems/invitation-over']);
    await browser.get(club.path).expect(200);
  });

  test('is not done to the invitation of another club', async () => {
    const here = await aClub(service);
    const theirs = await invite(await aClub(service));
    for (const send of [
      (id: string) => here.steward.get(`${here.path}/invitations/${id}`),
      (id: string) => here.steward.delete(`${here.path}/invitations/${id}`).set('If-Match', '"x"'),
    ]) {
      const foreign = await send(theirs.id).expect(404);
      const none = await send(randomUUID()).expect(404);
      expect(foreign.body).toEqual(none.body);
    }
  });
});

test('every code is read as what it is, and codes differ', () => {
  const codes = Array.from({ length: 1000 }, newInvitationCode);
  expect(new Set(codes).size).toBe(1000);
  for (const code of codes) expect(readInvitationCode(code)).toBe(code.replaceAll('-', ''));
});
