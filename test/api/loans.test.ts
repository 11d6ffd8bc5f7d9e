import { randomUUID } from 'node:crypto';
import { aLot, aSource, lotsOutOfBalance, minutesAgo } from '../support/lots';
import { useService } from '../support/service';
import { aClub, aMember, type ClubWorld } from '../support/world';

const service = useService();

async function aWorld(): Promise<ClubWorld & { loans: string; lots: string; sourceId: string }> {
  const club = await aClub(service);
  const sourceId = await aSource(service, club.clubId);
  return { ...club, loans: `${club.path}/loans`, lots: `${club.path}/lots`, sourceId };
}

test('lent seed leaves the lender’s lot and is a lot of the borrower’s', async () => {
  const { ada, ben, loans, lots, sourceId, ...club } = await aWorld();
  const lotId = await aLot(ada, club, sourceId, { kind: 'seed', massKg: 4 });
  await ada.change(`${lots}/${lotId}`, { name: 'Fine old seed', grain: 'fine' });
  const at = minutesAgo(30);

  const { body: loan, headers } = await ada
    .post(loans, {
      lotId,
      borrowerId: ben.memberId,
      massKg: 1.5,
      at,
      dueOn: '2099-09-01',
      note: 'for the lime',
    })
    .expect(201);

  expect(loan).toMatchObject({
    lender: { id: ada.memberId },
    borrower: { id: ben.memberId },
    fromLot: { id: lotId, name: 'Fine old seed' },
    massKg: 1.5,
    at,
    dueOn: '2099-09-01',
    note: 'for the lime',
  });
  const { body: from } = await ada.get(`${lots}/${lotId}`);
  expect(from).toMatchObject({ remainingMassKg: 2.5, lentMassKg: 1.5, usedMassKg: 0 });
  const { body: to } = await ben.get(`${lots}/${String(loan.toLot.id)}`);
  expect(to).toMatchObject({
    kind: 'seed',
    name: 'Fine old seed',
    grain: 'fine',
    holder: { id: ben.memberId },
    initialMassKg: 1.5,
    depth: 1,
  });
  const { body: movements } = await ada.get(`${lots}/${lotId}/withdrawals`);
  expect(movements.items).toMatchObject([{ kind: 'lent', intoLot: { id: to.id }, massKg: 1.5 }]);
  const { body: read } = await ben.get(`${loans}/${String(loan.id)}`).expect(200);
  expect(read).toEqual(loan);
  expect(headers['location']).toBe(`/api/v1${loans}/${String(loan.id)}`);
  expect(await lotsOutOfBalance(service)).toEqual([]);
  for (const path of [loans, `${loans}/${String(loan.id)}`]) {
    const { headers: read } = await ben.get(path).expect(200);
    await ben.get(path).set('If-None-Match', String(read['etag'])).expect(304);
  }
});

test('a loan that cannot be is refused, and nothing leaves the lot', async () => {
  const { ada, ben, loans, lots, sourceId, clubId, ...club } = await aWorld();
  const other = await aWorld();
  const gone = await aMember(service, clubId, 'member');
  await service.prisma.member.update({
    where: { clubId_id: { clubId, id: gone.memberId } },
    data: { leftAt: new Date() },
  });
  const lotId = await aLot(ada, club, sourceId, { kind: 'seed', massKg: 4 });
  const honeyId = await aLot(ada, club, sourceId);
  const good = { lotId, borrowerId: ben.memberId, massKg: 1, at: minutesAgo(5) };
  const lend = (change: object) => ada.post(loans, { ...good, ...change });

  const tooMuch = await lend({ massKg: 4.001 }).expect(409);
  const honey = await lend({ lotId: honeyId }).expect(409);
  const byBen = await ben.post(loans, { ...good, borrowerId: ada.memberId }).expect(403);
  const pointers: [object, string][] = [
    [{ lotId: randomUUID() }, '#/lotId'],
    [{ borrowerId: ada.memberId }, '#/borrowerId'],
    [{ borrowerId: other.ada.memberId }, '#/borrowerId'],
    [{ borrowerId: gone.memberId }, '#/borrowerId'],
    [{ at: '2098-01-01T00:00:00Z' }, '#/at'],
    [{ dueOn: '2001-01-01' }, '#/dueOn'],
    [{ dueOn: '2026-02-30' }, '#/dueOn'],
    [{ lenderId: ben.memberId }, '#/lenderId'],
  ];
  for (const [change, pointer] of pointers) {
    const { body } = await lend(change).expect(422);
    expect(body.errors[0].pointer).toBe(pointer);
  }

  expect(tooMuch.body).toMatchObject({ type: '/problems/not-enough-mass', remainingMassKg: 4 });
  expect(honey.body.type).toBe('/problems/lot-unsuitable');
  expect(byBen.body.type).toBe('/problems/not-yours');
  const { body: lot } = await ada.get(`${lots}/${lotId}`);
  expect(lot.remainingMassKg).toBe(4);
  const { body: page } = await ada.get(loans);
  expect(page.items).toEqual([]);
});

test('seed that was borrowed is not used before it was lent', async () => {
  const { ada, ben, loans, lots, sourceId, ...club } = await aWorld();
  const lotId = await aLot(ada, club, sourceId, { kind: 'seed', massKg: 4 });
  const { body } = await ada
    .post(loans, { lotId, borrowerId: ben.memberId, massKg: 1, at: minutesAgo(60) })
    .expect(201);
  const withdraw = (minutes: number) =>
    ben.post(`${lots}/${String(body.toLot.id)}/withdrawals`, {
      kind: 'lost',
      massKg: 0.5,
      at: minutesAgo(minutes),
    });

  const early = await withdraw(61).expect(409);

  expect(early.body.type).toBe('/problems/lot-unsuitable');
  await withdraw(59).expect(201);
});

test('loans are found by who gave or got them, page by page, in one’s own club alone', async () => {
  const { steward, ada, ben, loans, sourceId, ...club } = await aWorld();
  const lotId = await aLot(ada, club, sourceId, { kind: 'seed', massKg: 4 });
  const ids: string[] = [];
  for (const borrowerId of [ben.memberId, steward.memberId]) {
    // A steward files it for the lender.
    const { body } = await steward
      .post(loans, { lotId, borrowerId, massKg: 1, at: minutesAgo(5) })
      .expect(201);
    ids.unshift(body.id as string);
  }
  const other = await aWorld();

  const bens = await ada.get(`${loans}?memberId=${ben.memberId}`).expect(200);
  const adas = await ada.get(`${loans}?memberId=${ada.memberId}&limit=1`).expect(200);
  const more = await ada.get(
    `${loans}?memberId=${ada.memberId}&limit=1&cursor=${String(adas.body.nextCursor)}`,
  );
  const foreign = await other.ada.get(`${other.loans}/${String(ids[0])}`).expect(404);
  const random = await other.ada.get(`${other.loans}/${randomUUID()}`).expect(404);

  expect(bens.body.items).toMatchObject([{ id: ids[1], lender: { id: ada.memberId } }]);
  expect([adas.body.items[0].id, more.body.items[0].id]).toEqual(ids);
  expect(more.body.nextCursor).toBeNull();
  expect(foreign.body).toEqual(random.body);
  await ada.get(`${loans}?memberId=me`).expect(422);
  await ada.get(`${loans}?cursor=x.y`).expect(400);
});

test('the same key lends once', async () => {
  const { ada, ben, loans, lots, sourceId, ...club } = await aWorld();
  const lotId = await aLot(ada, club, sourceId, { kind: 'seed', massKg: 4 });
  const body = { lotId, borrowerId: ben.memberId, massKg: 1, at: minutesAgo(5) };
  const key = randomUUID();

  const first = await ada.post(loans, body).set('Idempotency-Key', key).expect(201);
  const again = await ada.post(loans, body).set('Idempotency-Key', key).expect(201);

  expect(again.body).toEqual(first.body);
  const { body: lot } = await ada.get(`${lots}/${lotId}`);
  expect(lot.remainingMassKg).toBe(3);
});
