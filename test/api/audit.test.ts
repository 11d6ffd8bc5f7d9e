import { randomUUID } from 'node:crypto';
import { aBrowserOf } from '../support/account';
import { useService } from '../support/service';
import { aClub, withScopes, type ClubWorld } from '../support/world';

const service = useService();

async function enter({ steward, path }: ClubWorld, name: string): Promise<string> {
  const { body } = await steward
    .post(`${path}/floral-sources`, { name, grain: 'fine', sets: true })
    .expect(201);
  return body.id as string;
}

test('the history tells who did what, when, with what, and under which request', async () => {
  const club = await aClub(service);
  const requestId = `request-${randomUUID()}`;
  const { body: made } = await club.steward
    .post(`${club.path}/floral-sources`, { name: 'heather', grain: 'coarse', sets: true })
    .set('x-request-id', requestId)
    .expect(201);

  const { body } = await club.steward.get(`${club.path}/audit`).expect(200);

  const steward = await service.prisma.person.findUniqueOrThrow({
    where: { id: club.steward.personId },
  });
  const token = await service.prisma.token.findFirstOrThrow({ where: { personId: steward.id } });
  expect(body.items).toEqual([
    {
      id: expect.any(String),
      at: expect.any(String),
      who: steward.name,
      personId: steward.id,
      tokenId: token.id,
      requestId,
      action: 'floral-source.entered',
      subjectId: made.id,
      details: { name: 'heather', grain: 'coarse', sets: true, note: '' },
    },
  ]);
  expect(Math.abs(Date.parse(body.items[0].at) - Date.now())).toBeLessThan(60_000);
});

test('what was done in a browser has no token', async () => {
  const club = await aClub(service);
  const browser = await aBrowserOf(service, club.steward.personId);
  await browser.change(club.path, { name: 'Renamed' });
  const { body } = await browser.get(`${club.path}/audit`).expect(200);
  expect(body.items).toMatchObject([{ action: 'club.changed', tokenId: null }]);
});

test('what was refused is not in the history', async () => {
  const club = await aClub(service);
  await club.ada.post(`${club.path}/floral-sources`, {}).expect(403);
  await club.steward.post(`${club.path}/floral-sources`, {}).expect(422);
  const { body } = await club.steward.get(`${club.path}/audit`).expect(200);
  expect(body.items).toEqual([]);
});

test('the latest comes first, page by page, and about one thing alone where asked', async () => {
  const club = await aClub(service);
  const ids = [await enter(club, 'a'), await enter(club, 'b'), await enter(club, 'c')];
  await club.steward.change(`${club.path}/floral-sources/${ids[0]!}`, { sets: false });

  const page = await club.steward.get(`${club.path}/audit?limit=3`).expect(200);
  const cursor = page.body.nextCursor as string;
  const rest = await club.steward.get(`${club.path}/audit?limit=3&cursor=${cursor}`).expect(200);
  const about = await club.steward.get(`${club.path}/audit?subjectId=${ids[0]!}`).expect(200);

  const subjects = [...page.body.items, ...rest.body.items].map(
    ({ subjectId }) => subjectId as string,
  );
  expect(subjects).toEqual([ids[0], ids[2], ids[1], ids[0]]);
  expect(about.body.items.map(({ action }: { action: string }) => action)).toEqual([
    'floral-source.corrected',
    'floral-source.entered',
  ]);
  await club.steward.get(`${club.path}/audit?subjectId=${ids[0]!}&cursor=${cursor}`).expect(400);
});

test.each([
  ['subjectId=heather', 'subjectId'],
  ['limit=0', 'limit'],
  ['limit=1e3', 'limit'],
  ['limit=1&limit=2', 'limit'],
  ['since=yesterday', 'since'],
])('a question that cannot be answered is refused: %s', async (query, parameter) => {
  const club = await aClub(service);
  const { body } = await club.steward.get(`${club.path}/audit?${query}`).expect(422);
  expect(body.errors).toMatchObject([{ parameter }]);
});

test('the history is for stewards of the club, with a token of that scope', async () => {
  const club = await aClub(service);
  const other = await aClub(service);
  await enter(other, 'secret garden');
  await club.ada.get(`${club.path}/audit`).expect(403);
  const reader = await withScopes(service, club.steward, ['read', 'record', 'book']);
  await reader.get(`${club.path}/audit`).expect(403);
  const foreign = await club.steward.get(`${other.path}/audit`).expect(404);
  const none = await club.steward.get(`/clubs/${randomUUID()}/audit`).expect(404);
  expect(foreign.body).toEqual(none.body);
  expect((await club.steward.get(`${club.path}/audit`)).text).not.toContain('secret garden');
});
