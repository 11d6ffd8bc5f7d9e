import { randomUUID } from 'node:crypto';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

const lime = { name: 'lime', grain: 'medium', sets: true, note: 'July, along the river' };

async function entered({ steward, path }: ClubWorld, more: object = {}) {
  const { body } = await steward.post(`${path}/floral-sources`, { ...lime, ...more }).expect(201);
  return { id: body.id as string, address: `${path}/floral-sources/${body.id as string}` };
}

/** Honey of that floral source, as it stands in the tables. */
async function aLotOf(club: ClubWorld, floralSourceId: string): Promise<void> {
  const { clubId } = club;
  const lot = await service.prisma.lot.create({
    data: {
      clubId,
      kind: 'honey',
      name: 'pail 7',
      holderId: club.ada.memberId,
      initialMassG: 25_000,
      remainingMassG: 25_000,
    },
  });
  await service.prisma.lotFloralShare.create({
    data: { clubId, lotId: lot.id, floralSourceId, centiPercent: 10_000 },
  });
}

describe('entering a floral source', () => {
  test('is a steward’s, and every member reads it', async () => {
    const club = await aClub(service);

    const { body, headers } = await club.steward
      .post(`${club.path}/floral-sources`, lime)
      .expect(201);

    expect(body).toEqual({ id: body.id, ...lime });
    expect(headers['location']).toBe(`/api/v1${club.path}/floral-sources/${body.id as string}`);
    const one = await club.ada.get(`${club.path}/floral-sources/${body.id as string}`).expect(200);
    expect(one.body).toEqual(body);
    const { body: history } = await club.steward.get(`${club.path}/audit`).expect(200);
    expect(history.items[0]).toMatchObject({ action: 'floral-source.entered', details: lime });
  });

  test('is not a member’s', async () => {
    const { path, ada } = await aClub(service);
    await ada.post(`${path}/floral-sources`, lime).expect(403);
    expect((await ada.get(`${path}/floral-sources`).expect(200)).body.items).toEqual([]);
  });

  test('needs no note', async () => {
    const { path, steward } = await aClub(service);
    const { note, ...rest } = lime;
    const { body } = await steward.post(`${path}/floral-sources`, rest).expect(201);
    expect([note, body.note]).toEqual([lime.note, '']);
  });

  test('under a name that the club has is refused; another club may have it', async () => {
    const club = await aClub(service);
    await entered(club);
    const { body } = await club.steward.post(`${club.path}/floral-sources`, lime).expect(409);
    expect(body).toMatchObject({ type: '/problems/duplicate', errors: [{ pointer: '#/name' }] });
    expect((await club.ada.get(`${club.path}/floral-sources`)).body.items).toHaveLength(1);
    await entered(await aClub(service));
  });

  test.each([
    ['a grain that there is not', { grain: 'huge' }, '#/grain'],
    ['a word for yes', { sets: 'true' }, '#/sets'],
    ['a blank name', { name: ' ' }, '#/name'],
    ['a note without end', { note: 'x'.repeat(1001) }, '#/note'],
    ['nothing stored for it', { name: 'a\u0000b' }, '#/name'],
    ['another club', { clubId: randomUUID() }, '#/clubId'],
  ])('is refused with %s', async (_, more, pointer) => {
    const { path, steward } = await aClub(service);
    const { body } = await steward.post(`${path}/floral-sources`, { ...lime, ...more }).expect(422);
    expect(body.errors).toMatchObject([{ pointer }]);
  });

  test('once more with the same Idempotency-Key enters one; a kept refusal comes again as well', async () => {
    const club = await aClub(service);
    const send = (key: string) =>
      club.steward.post(`${club.path}/floral-sources`, lime).set('Idempotency-Key', key);
    const [first, again] = [await send('"a"'), await send('"a"')];
    expect([first.status, again.status]).toEqual([201, 201]);
    expect(again.body).toEqual(first.body);
    const [refused, refusedAgain] = [await send('"b"'), await send('"b"')];
    expect([refused.status, refusedAgain.status]).toEqual([409, 409]);
    expect(refusedAgain.body).toEqual(refused.body);
  });
});

test('floral sources are listed by name, page by page, and nobody else’s with them', async () => {
  const club = await aClub(service);
  const other = await aClub(service);
  await entered(other, { name: 'acacia' });
  for (const name of ['robinia', 'buckwheat', 'oilseed rape']) await entered(club, { name });

  const page = await club.ada.get(`${club.path}/floral-sources?limit=2`).expect(200);
  const cursor = page.body.nextCursor as string;
  const rest = await club.ada.get(`${club.path}/floral-sources?limit=2&cursor=${cursor}`);

  const names = [...page.body.items, ...rest.body.items].map(({ name }) => name as string);
  expect(names).toEqual(['buckwheat', 'oilseed rape', 'robinia']);
  await other.ada.get(`${other.path}/floral-sources?cursor=${cursor}`).expect(400);
});

describe('correcting a floral source', () => {
  test('is a steward’s, from the state that was read', async () => {
    const club = await aClub(service);
    const { address, id } = await entered(club);
    const { headers } = await club.ada.get(address);
    const changed = await club.steward.change(address, { grain: 'coarse', note: '' });
    expect(changed.body).toEqual({ id, ...lime, grain: 'coarse', note: '' });

    const late = club.steward.patch(address, { sets: false });
    await late.set('If-Match', String(headers['etag'])).expect(412);
    await club.steward.patch(address, { sets: false }).expect(428);
    expect((await club.ada.change(address, { sets: false })).status).toBe(403);

    expect((await club.ada.get(address)).body).toEqual(changed.body);
    const { body } = await club.steward.get(`${club.path}/audit?subjectId=${id}`);
    expect(body.items[0]).toMatchObject({
      action: 'floral-source.corrected',
      details: { from: lime, to: { grain: 'coarse' } },
    });
  });

  test('does not give it another’s name, nor what cannot be accepted', async () => {
    const club = await aClub(service);
    await entered(club, { name: 'acacia' });
    const { address } = await entered(club);
    const taken = await club.steward.change(address, { name: 'acacia' });
    expect([taken.status, taken.body.errors[0].pointer]).toEqual([409, '#/name']);
    for (const [wrong, pointer] of [
      [{ sets: null }, '#/sets'],
      [{ id: randomUUID() }, '#/id'],
    ] as const) {
      const { status, body } = await club.steward.change(address, wrong);
      expect([status, body.errors[0].pointer]).toEqual([422, pointer]);
    }
    expect((await club.ada.get(address)).body).toMatchObject(lime);
  });
});

describe('striking off a floral source', () => {
  test('is a steward’s', async () => {
    const club = await aClub(service);
    const { address, id } = await entered(club);
    expect((await club.ada.remove(address)).status).toBe(403);
    await club.steward.delete(address).expect(428);
    await club.steward.delete(address).set('If-Match', '"old"').expect(412);

    expect((await club.steward.remove(address)).status).toBe(204);

    await club.ada.get(address).expect(404);
    const { body } = await club.steward.get(`${club.path}/audit?subjectId=${id}`);
    expect(body.items[0]).toMatchObject({ action: 'floral-source.struck-off' });
  });

  test('that a lot names is refused', async () => {
    const club = await aClub(service);
    const { address, id } = await entered(club);
    await aLotOf(club, id);

    const { status, body } = await club.steward.remove(address);

    expect([status, body.type]).toEqual([409, '/problems/in-use']);
    await club.ada.get(address).expect(200);
    expect((await club.steward.get(`${club.path}/audit`)).body.items).toHaveLength(1);
  });
});

test('the floral source of another club cannot be told from one that does not exist', async () => {
  const here = await aClub(service);
  const theirs = await entered(await aClub(service));
  for (const send of [
    (id: string) => here.steward.get(`${here.path}/floral-sources/${id}`),
    (id: string) =>
      here.steward
        .patch(`${here.path}/floral-sources/${id}`, { sets: false })
        .set('If-Match', '"x"'),
    (id: string) => here.steward.delete(`${here.path}/floral-sources/${id}`).set('If-Match', '"x"'),
  ]) {
    const foreign = await send(theirs.id).expect(404);
    const none = await send(randomUUID()).expect(404);
    expect(foreign.body).toEqual(none.body);
  }
  await here.steward.get(`${here.path}/floral-sources/not-an-id`).expect(404);
});
