import { readLotCode, writtenLotCode } from '../../src/core/marks/lot-code';
import { aLot, aSeededBatch, aSource, minutesAgo } from '../support/lots';
import { aSeedLine } from '../support/seed-line';
import { useService } from '../support/service';
import { aClub, type ClubWorld } from '../support/world';

const service = useService();

async function aWorld(): Promise<ClubWorld & { lots: string; sourceId: string }> {
  const club = await aClub(service);
  const sourceId = await aSource(service, club.clubId);
  return { ...club, lots: `${club.path}/lots`, sourceId };
}

test('every lot gets a code when it is made, whoever makes it, and keeps it', async () => {
  const { ada, ben, lots, sourceId, ...club } = await aWorld();
  const honeyId = await aLot(ada, club, sourceId);
  const { seedId } = await aSeededBatch(ada, club, sourceId, minutesAgo(9));
  await ada
    .post(`${club.path}/loans`, {
      lotId: seedId,
      borrowerId: ben.memberId,
      massKg: 1,
      at: minutesAgo(1),
    })
    .expect(201);

  const { body } = await ada.get(lots).expect(200);
  const codes = body.items.map(({ code }: { code: string }) => code) as string[];

  expect(codes).toHaveLength(5);
  expect(new Set(codes).size).toBe(5);
  for (const code of codes) expect(readLotCode(code)).toEqual({ kind: 'code', code });
  const before = await ada.get(`${lots}/${honeyId}`);
  const after = await ada.change(`${lots}/${honeyId}`, { name: 'Another name' });
  expect(after.body.code).toBe(before.body.code);
  const unknown = await ada.change(`${lots}/${honeyId}`, { code: 'K7MR486' });
  expect(unknown.status).toBe(422);
});

test('a lot is found by its code, however it is written', async () => {
  const { ada, lots, sourceId, ...club } = await aWorld();
  const id = await aLot(ada, club, sourceId);
  await aLot(ada, club, sourceId);
  const { code } = (await ada.get(`${lots}/${id}`)).body as { code: string };

  const ways = [code, code.toLowerCase(), writtenLotCode(code), `L ${Array.from(code).join(' ')}`];
  for (const way of ways) {
    const { body } = await ada.get(`${lots}?code=${encodeURIComponent(way)}`).expect(200);
    expect(body.items).toMatchObject([{ id, code }]);
  }
  const seed = await ada.get(`${lots}?code=${code}&kind=seed`).expect(200);
  expect(seed.body.items).toEqual([]);
});

test('a code that was misread is told to be misread, and never finds another lot', async () => {
  const { ada, lots, sourceId, ...club } = await aWorld();
  const id = await aLot(ada, club, sourceId);
  const { code } = (await ada.get(`${lots}/${id}`)).body as { code: string };
  const [first, second] = Array.from(code) as [string, string];
  const wrong = first === '2' ? '3' : '2';
  const misread = first === second ? wrong + code.slice(1) : second + first + code.slice(2);

  for (const text of [misread, code.slice(1), `${code.slice(0, 6)}O`, '7']) {
    const { body } = await ada.get(`${lots}?code=${text}`).expect(422);
    expect(body).toMatchObject({ type: '/problems/invalid', errors: [{ parameter: 'code' }] });
    expect(body.detail).toMatch(/^The code was misread: .+ Look at it again\.$/);
  }
});

test('the same code in another club is another lot', async () => {
  const [one, other] = [await aWorld(), await aWorld()];
  const id = await aLot(one.ada, one, one.sourceId);
  const theirs = await aLot(other.ada, other, other.sourceId);
  const { code } = (await one.ada.get(`${one.lots}/${id}`)).body as { code: string };
  await service.database.query(`alter table lot disable trigger lot_code_stays`);
  await service.database.query(`update lot set code = $1 where id = $2`, [code, theirs]);
  await service.database.query(`alter table lot enable trigger lot_code_stays`);

  const { body } = await one.ada.get(`${one.lots}?code=${code}`).expect(200);
  expect(body.items.map((lot: { id: string }) => lot.id)).toEqual([id]);
});

test('all codes that the database draws are codes to the service, and none is drawn twice', async () => {
  const { ada, clubId, sourceId } = await aWorld();
  await aSeedLine(service, clubId, ada.memberId, sourceId, 400);
  const rows = await service.database.query<{ code: string }>(
    'select code from lot where club_id = $1',
    [clubId],
  );
  expect(new Set(rows.map(({ code }) => code)).size).toBe(1201);
  for (const { code } of rows) expect(readLotCode(code)).toEqual({ kind: 'code', code });
});
