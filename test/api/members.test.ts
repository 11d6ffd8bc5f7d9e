import { randomUUID } from 'node:crypto';
import { aBrowserOf } from '../support/account';
import { useService } from '../support/service';
import { aClub, aMember, withScopes, type Actor } from '../support/world';

const service = useService();

async function members(path: string, actor: Actor) {
  const { body } = await actor.get(`${path}/members`);
  return body.items as { id: string; role: string; leftAt: string | null }[];
}

test('every member sees who is in the club, and nobody’s e-mail', async () => {
  const { path, steward, ada, ben } = await aClub(service);

  const { body, text } = await ada.get(`${path}/members`).expect(200);

  expect(body.items.map(({ id }: { id: string }) => id)).toEqual([
    steward.memberId,
    ada.memberId,
    ben.memberId,
  ]);
  expect(Object.keys(body.items[0]).sort()).toEqual(['id', 'joinedAt', 'leftAt', 'name', 'role']);
  expect(text).not.toContain('@');
  const page = await ada.get(`${path}/members?limit=2`).expect(200);
  const rest = await ada.get(`${path}/members?limit=2&cursor=${page.body.nextCursor as string}`);
  expect(rest.body.items).toEqual(body.items.slice(2));
  const one = await ada.get(`${path}/members/${ben.memberId}`).expect(200);
  expect(one.body).toEqual(body.items[2]);
  const other = await aClub(service);
  await other.ada.get(`${other.path}/members?cursor=${page.body.nextCursor as string}`).expect(400);
});

describe('a role', () => {
  test('is given and taken by a steward, and counts with the next request', async () => {
    const { path, steward, ada } = await aClub(service);
    await ada.get(`${path}/invitations`).expect(403);

    const made = await steward.change(`${path}/members/${ada.memberId}`, { role: 'steward' });

    expect([made.status, made.body.role]).toEqual([200, 'steward']);
    await ada.get(`${path}/invitations`).expect(200);
    const { body } = await ada.get(`${path}/audit?subjectId=${ada.memberId}`).expect(200);
    expect(body.items).toMatchObject([
      { action: 'member.role-changed', details: { from: 'member', to: 'steward' } },
    ]);
    const taken = await ada.change(`${path}/members/${steward.memberId}`, { role: 'member' });
    expect(taken.status).toBe(200);
    await steward.get(`${path}/invitations`).expect(403);
  });

  test('is not changed by a member, not even one’s own', async () => {
    const { path, ada } = await aClub(service);
    const { status } = await ada.change(`${path}/members/${ada.memberId}`, { role: 'steward' });
    expect(status).toBe(403);
  });

  test('of the last steward stays', async () => {
    const { path, steward } = await aClub(service);
    const own = `${path}/members/${steward.memberId}`;
    const { status, body } = await steward.change(own, { role: 'member' });
    expect([status, body.type]).toEqual([409, '/problems/last-steward']);
    expect((await steward.get(own)).body.role).toBe('steward');
    expect((await steward.change(own, { role: 'steward' })).status).toBe(200);
  });

  test('is changed from the state that was read, to one that there is', async () => {
    const { path, steward, ada } = await aClub(service);
    const address = `${path}/members/${ada.memberId}`;
    await steward.patch(address, { role: 'steward' }).expect(428);
    await steward.patch(address, { role: 'steward' }).set('If-Match', '"old"').expect(412);
    for (const [wrong, pointer] of [
      [{ role: 'queen' }, '#/role'],
      [{}, '#'],
      [{ role: 'steward', name: 'X' }, '#/name'],
    ] as const) {
      const { status, body } = await steward.change(address, wrong);
      expect([status, body.errors[0].pointer]).toEqual([422, pointer]);
    }
    expect((await steward.get(address)).body.role).toBe('member');
  });

  test('of somebody who left is not changed', async () => {
    const { path, steward, ada } = await aClub(service);
    const address = `${path}/members/${ada.memberId}`;
    expect((await steward.remove(address)).status).toBe(204);
    const { status, body } = await steward.change(address, { role: 'steward' });
    expect([status, body.type]).toEqual([404, '/problems/not-found']);
  });
});

describe('leaving', () => {
  test('is everybody’s own to do; the record of them stays', async () => {
    const { path, steward, ada } = await aClub(service);
    const own = `${path}/members/${ada.memberId}`;

    expect((await ada.remove(own)).status).toBe(204);

    await ada.get(path).expect(404);
    const { body } = await steward.get(own).expect(200);
    expect(Date.parse(body.leftAt)).not.toBeNaN();
    const { body: history } = await steward.get(`${path}/audit?subjectId=${ada.memberId}`);
    expect(history.items).toMatchObject([{ action: 'member.left' }]);
    expect((await steward.remove(own)).status).toBe(204);
    expect((await steward.get(own)).body).toEqual(body);
  });

  test('is brought about by a steward, and not by another member', async () => {
    const { path, steward, ada, ben } = await aClub(service);
    const address = `${path}/members/${ben.memberId}`;
    const { status, body } = await ada.remove(address);
    expect([status, body.type]).toEqual([403, '/problems/not-yours']);
    await ben.get(path).expect(200);

    expect((await steward.remove(address)).status).toBe(204);

    await ben.get(path).expect(404);
    const { body: history } = await steward.get(`${path}/audit?subjectId=${ben.memberId}`);
    expect(history.items).toMatchObject([{ action: 'member.removed' }]);
  });

  test('takes If-Match, and a token with the scope for it', async () => {
    const { path, ada } = await aClub(service);
    const own = `${path}/members/${ada.memberId}`;
    await ada.delete(own).expect(428);
    await ada.delete(own).set('If-Match', '"old"').expect(412);
    const reader = await withScopes(service, ada, ['read', 'record', 'book']);
    expect((await reader.remove(own)).status).toBe(403);
    await ada.get(path).expect(200);
  });

  test('is not open to the last steward', async () => {
    const { path, steward } = await aClub(service);
    const { status, body } = await steward.remove(`${path}/members/${steward.memberId}`);
    expect([status, body.type]).toEqual([409, '/problems/last-steward']);
    await steward.get(path).expect(200);
  });

  test('of two stewards who go at once, one stays', async () => {
    for (let time = 1; time <= 5; time++) {
      const { clubId, path, steward } = await aClub(service);
      const second = await aMember(service, clubId, 'steward');

      const answers = await Promise.all(
        [steward, second].map((one) => one.remove(`${path}/members/${one.memberId}`)),
      );

      expect(answers.map(({ status }) => status).sort()).toEqual([204, 409]);
      const left = await service.prisma.member.count({
        where: { clubId, role: 'steward', leftAt: null },
      });
      expect(left).toBe(1);
    }
  });

  test('is undone by an invitation: the same member, in the new role', async () => {
    const { path, steward, ada } = await aClub(service);
    expect((await ada.remove(`${path}/members/${ada.memberId}`)).status).toBe(204);
    const { body } = await steward.post(`${path}/invitations`, { role: 'steward' }).expect(201);
    const browser = await aBrowserOf(service, ada.personId);

    const joined = await browser.post(`/invitations/${body.code as string}/acceptance`).expect(200);

    expect(joined.body).toMatchObject({ memberId: ada.memberId, role: 'steward' });
    expect(await members(path, ada)).toContainEqual(
      expect.objectContaining({ id: ada.memberId, role: 'steward', leftAt: null }),
    );
    const { body: history } = await steward.get(`${path}/audit?subjectId=${ada.memberId}`);
    expect(history.items[0]).toMatchObject({ action: 'member.rejoined' });
  });
});

test('a member of another club cannot be told from one that does not exist', async () => {
  const here = await aClub(service);
  const there = await aClub(service);
  for (const send of [
    (id: string) => here.steward.get(`${here.path}/members/${id}`),
    (id: string) =>
      here.steward.patch(`${here.path}/members/${id}`, { role: 'steward' }).set('If-Match', '"x"'),
    (id: string) => here.steward.delete(`${here.path}/members/${id}`).set('If-Match', '"x"'),
  ]) {
    const theirs = await send(there.ada.memberId).expect(404);
    const none = await send(randomUUID()).expect(404);
    expect(theirs.body).toEqual(none.body);
  }
  await here.steward.get(`${there.path}/members`).expect(404);
});
