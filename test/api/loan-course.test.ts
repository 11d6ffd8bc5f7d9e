import { randomUUID } from 'node:crypto';
import { Jobs } from '../../src/jobs/jobs.service';
import { aLot, aSource, daysAgo, lotsOutOfBalance, minutesAgo } from '../support/lots';
import { toldTo } from '../support/notices';
import { useService } from '../support/service';
import { aClub, aMember, type Actor, type ClubWorld } from '../support/world';

// A loan from the wish for seed to its return in kind.

const service = useService();

let club: ClubWorld;
let loans: string;
let seed: string;
let source: string;

beforeEach(async () => {
  club = await aClub(service);
  loans = `${club.path}/loans`;
  source = await aSource(service, club.clubId);
  seed = await aLot(club.ada, club, source, { kind: 'seed', massKg: 4 });
});

const kindsToldTo = async ({ memberId }: Actor) =>
  (await toldTo(service, memberId)).map(({ kind }) => kind);

async function asked(wish: object = {}): Promise<string> {
  const body = { lenderId: club.ada.memberId, massKg: 1.5, ...wish };
  const answer = await club.ben.post(`${loans}/asks`, body).expect(201);
  return `${loans}/${String(answer.body.id)}`;
}

async function offered(wish: object = {}): Promise<string> {
  const body = { lotId: seed, borrowerId: club.ben.memberId, massKg: 1.5, ...wish };
  const answer = await club.ada.post(`${loans}/offers`, body).expect(201);
  return `${loans}/${String(answer.body.id)}`;
}

/** Lent and handed over at once. */
async function lent(wish: object = {}): Promise<string> {
  const body = { lotId: seed, borrowerId: club.ben.memberId, massKg: 1.5, at: daysAgo(9), ...wish };
  const answer = await club.ada.post(loans, body).expect(201);
  return `${loans}/${String(answer.body.id)}`;
}

async function stateOf(loan: string) {
  return (await club.ada.get(loan).expect(200)).body as Record<string, unknown>;
}

async function lotOf(id: string) {
  return (await club.ada.get(`${club.path}/lots/${id}`).expect(200)).body as Record<
    string,
    unknown
  >;
}

test('seed that is asked for is accepted, handed over, given back in two parts; the ledgers close', async () => {
  const loan = await asked({ note: 'for the lime' });
  expect(await stateOf(loan)).toMatchObject({
    state: 'asked',
    beganAs: 'asked',
    next: ['accept', 'decline', 'withdraw'],
    lender: { id: club.ada.memberId },
    fromLot: null,
    toLot: null,
    at: null,
    owedMassKg: 0,
  });

  const { body: accepted } = await club.ada.post(`${loan}/acceptance`).expect(200);
  expect(accepted).toMatchObject({ state: 'accepted', next: ['hand-over', 'withdraw'] });
  expect((await lotOf(seed))['remainingMassKg']).toBe(4);

  const { body: handed } = await club.ada
    .post(`${loan}/handover`, { lotId: seed, massKg: 1.2, at: daysAgo(2), dueOn: '2099-09-01' })
    .expect(200);
  expect(handed).toMatchObject({
    state: 'lent',
    massKg: 1.2,
    owedMassKg: 1.2,
    dueOn: '2099-09-01',
    note: 'for the lime',
    fromLot: { id: seed },
  });
  expect(await lotOf(seed)).toMatchObject({ remainingMassKg: 2.8, lentMassKg: 1.2 });
  const borrowed = await lotOf(handed.toLot.id as string);
  expect(borrowed).toMatchObject({ initialMassKg: 1.2, holder: { id: club.ben.memberId } });

  const bens = await aLot(club.ben, club, source, { kind: 'seed', massKg: 3 });
  const { body: part } = await club.ben
    .post(`${loan}/returns`, { lotId: bens, massKg: 0.7, at: minutesAgo(3) })
    .expect(201);
  expect(part).toMatchObject({ massKg: 0.7, fromLot: { id: bens } });
  expect(await stateOf(loan)).toMatchObject({
    state: 'lent',
    returnedMassKg: 0.7,
    owedMassKg: 0.5,
    endedAt: null,
  });
  await club.ben
    .post(`${loan}/returns`, { lotId: bens, massKg: 0.5, at: minutesAgo(1) })
    .expect(201);

  expect(await stateOf(loan)).toMatchObject({
    state: 'returned',
    next: [],
    owedMassKg: 0,
    endedBy: { id: club.ben.memberId },
  });
  const back = await lotOf(part.toLot.id as string);
  expect(back).toMatchObject({ kind: 'seed', holder: { id: club.ada.memberId }, depth: 1 });
  const { body: from } = await club.ada.get(`${club.path}/lots/${String(back['id'])}/ancestors`);
  expect(from.items).toMatchObject([{ lotId: bens, share: 1 }]);
  expect(await lotOf(bens)).toMatchObject({ remainingMassKg: 1.8, lentMassKg: 1.2 });
  const { body: first } = await club.ada.get(`${loan}/returns?limit=1`).expect(200);
  const { body: second } = await club.ada.get(
    `${loan}/returns?limit=1&cursor=${String(first.nextCursor)}`,
  );
  expect([first.items[0].massKg, second.items[0].massKg]).toEqual([0.7, 0.5]);
  expect(second.nextCursor).toBeNull();
  expect(await lotsOutOfBalance(service)).toEqual([]);
  expect(await kindsToldTo(club.ada)).toEqual(['loan.asked', 'loan.returned', 'loan.returned']);
  expect(await kindsToldTo(club.ben)).toEqual(['loan.accepted', 'loan.received']);
});

test('what is asked for is in no recall; what is lent and given back is', async () => {
  await asked({ lotId: seed });
  const loan = await lent();
  const bens = await aLot(club.ben, club, source, { kind: 'seed', massKg: 3 });
  const { body: part } = await club.ben
    .post(`${loan}/returns`, { lotId: bens, massKg: 0.7, at: minutesAgo(3) })
    .expect(201);
  const recallOf = async (id: string) =>
    (await club.steward.get(`${club.path}/lots/${id}/recall`).expect(200)).body.items as object[];

  expect((await recallOf(seed))[0]).toMatchObject({ lentTo: [{ massKg: 1.5 }] });
  expect(await recallOf(bens)).toMatchObject([
    { lotId: bens, lentTo: [{ lotId: part.toLot.id, massKg: 0.7 }] },
    { lotId: part.toLot.id, lentTo: [] },
  ]);
});

test('seed that was borrowed and not used may be given back as it is', async () => {
  const loan = await lent();
  const { toLot } = (await stateOf(loan)) as { toLot: { id: string } };
  await club.ben
    .post(`${loan}/returns`, { lotId: toLot.id, massKg: 1.5, at: minutesAgo(1) })
    .expect(201);
  expect(await stateOf(loan)).toMatchObject({ state: 'returned' });
});

test('an offer is accepted or declined by the one it was made to', async () => {
  const yes = await offered({ dueOn: '2099-01-01' });
  const no = await offered();
  expect((await club.ada.post(`${yes}/acceptance`).expect(403)).body.type).toBe(
    '/problems/not-yours',
  );

  await club.ben.post(`${yes}/acceptance`).expect(200);
  const { body } = await club.ben.post(`${no}/decline`, { note: 'I have some.' }).expect(200);

  expect(body).toMatchObject({
    state: 'declined',
    next: [],
    endedBy: { id: club.ben.memberId },
    endedBecause: 'I have some.',
  });
  await club.ada.post(`${yes}/handover`, { at: minutesAgo(1) }).expect(200);
  expect(await stateOf(yes)).toMatchObject({ state: 'lent', owedMassKg: 1.5, dueOn: '2099-01-01' });
  expect(await kindsToldTo(club.ada)).toEqual(['loan.accepted', 'loan.declined']);
  expect(await kindsToldTo(club.ben)).toEqual(['loan.offered', 'loan.offered', 'loan.received']);
});

test('anybody may be asked: the first who says yes is the lender', async () => {
  const loan = await asked({ lenderId: undefined });
  expect((await stateOf(loan))['lender']).toBeNull();
  expect(await kindsToldTo(club.steward)).toEqual(['loan.asked']);
  await club.ben.post(`${loan}/acceptance`).expect(403);
  await club.ada.post(`${loan}/decline`).expect(403);

  await club.ada.post(`${loan}/acceptance`).expect(200);
  const late = await club.steward.post(`${loan}/acceptance`).expect(409);

  expect(late.body).toMatchObject({
    type: '/problems/loan-out-of-order',
    state: 'accepted',
    next: ['hand-over', 'withdraw'],
  });
  expect(await stateOf(loan)).toMatchObject({ lender: { id: club.ada.memberId } });
});

test('what was asked for is withdrawn by who asked, once accepted by either, once handed over by nobody', async () => {
  const [open, accepted, handed] = [await asked(), await asked({ lotId: seed }), await asked()];
  await club.ada.post(`${accepted}/acceptance`).expect(200);
  await club.ada.post(`${handed}/acceptance`).expect(200);
  await club.ada.post(`${handed}/handover`, { lotId: seed, at: minutesAgo(1) }).expect(200);

  expect((await club.ada.remove(open)).status).toBe(403);
  expect((await club.ben.delete(open)).status).toBe(428);
  expect((await club.ben.delete(open).set('If-Match', '"old"')).status).toBe(412);
  expect((await club.ben.remove(open)).status).toBe(204);
  expect((await club.ada.remove(accepted)).status).toBe(204);
  const { status, body } = await club.ben.remove(handed);

  expect([status, body.type]).toEqual([409, '/problems/loan-out-of-order']);
  expect(await stateOf(open)).toMatchObject({ state: 'withdrawn', next: [] });
  expect(await kindsToldTo(club.ben)).toContain('loan.withdrawn');
});

test('the lender waives what is left, for good', async () => {
  const loan = await lent();
  const bens = await aLot(club.ben, club, source, { kind: 'seed', massKg: 3 });
  const giveBack = (massKg: number) =>
    club.ben.post(`${loan}/returns`, { lotId: bens, massKg, at: minutesAgo(1) });
  await giveBack(0.5).expect(201);
  await club.ben.post(`${loan}/forgiveness`).expect(403);

  const { body } = await club.ada.post(`${loan}/forgiveness`, { note: 'Old friends.' }).expect(200);

  expect(body).toMatchObject({
    state: 'forgiven',
    returnedMassKg: 0.5,
    forgivenMassKg: 1,
    owedMassKg: 0,
    endedBecause: 'Old friends.',
  });
  expect((await giveBack(0.1).expect(409)).body.type).toBe('/problems/loan-out-of-order');
  await club.ada.post(`${loan}/forgiveness`).expect(409);
  expect(await kindsToldTo(club.ben)).toEqual(['loan.received', 'loan.forgiven']);
});

test('a return that cannot be is refused, and changes nothing', async () => {
  const loan = await lent();
  const bens = await aLot(club.ben, club, source, { kind: 'seed', massKg: 3 });
  const honey = await aLot(club.ben, club, source);
  const little = await aLot(club.ben, club, source, { kind: 'seed', massKg: 0.5 });
  const good = { lotId: bens, massKg: 1, at: minutesAgo(1) };
  const giveBack = (change: object, by = club.ben) =>
    by.post(`${loan}/returns`, { ...good, ...change });

  const tooMuch = await giveBack({ massKg: 1.501 }).expect(409);
  expect(tooMuch.body).toMatchObject({ type: '/problems/more-than-owed', owedMassKg: 1.5 });
  expect((await giveBack({ lotId: honey }).expect(409)).body.type).toBe('/problems/lot-unsuitable');
  expect((await giveBack({ lotId: little }).expect(409)).body.type).toBe(
    '/problems/not-enough-mass',
  );
  expect((await giveBack({}, club.ada).expect(403)).body.type).toBe('/problems/not-yours');
  const pointers: [object, string][] = [
    [{ lotId: seed }, '#/lotId'],
    [{ lotId: randomUUID() }, '#/lotId'],
    [{ at: daysAgo(10) }, '#/at'],
    [{ at: '2098-01-01T00:00:00Z' }, '#/at'],
  ];
  for (const [change, pointer] of pointers) {
    expect((await giveBack(change).expect(422)).body.errors[0].pointer).toBe(pointer);
  }
  await club.ben.post(`${loans}/${randomUUID()}/returns`, good).expect(404);
  await club.ben.get(`${loans}/${randomUUID()}/returns`).expect(404);

  expect(await stateOf(loan)).toMatchObject({ owedMassKg: 1.5 });
  expect((await lotOf(bens))['remainingMassKg']).toBe(3);
});

test('a wish or a handover that cannot be is refused', async () => {
  const bens = await aLot(club.ben, club, source, { kind: 'seed', massKg: 3 });
  const honey = await aLot(club.ada, club, source);
  const ask = (body: object) => club.ben.post(`${loans}/asks`, { massKg: 1, ...body });
  const offer = (body: object) =>
    club.ada.post(`${loans}/offers`, {
      lotId: seed,
      borrowerId: club.ben.memberId,
      massKg: 1,
      ...body,
    });
  const pointers: [
    PromiseLike<{ status: number; body: { errors?: { pointer: string }[] } }>,
    string,
  ][] = [
    [ask({ lenderId: club.ben.memberId }), '#/lenderId'],
    [ask({ lenderId: randomUUID() }), '#/lenderId'],
    [ask({ lotId: bens }), '#/lotId'],
    [ask({ lotId: seed, lenderId: club.steward.memberId }), '#/lotId'],
    [ask({ lotId: randomUUID() }), '#/lotId'],
    [ask({ dueOn: '2001-01-01' }), '#/dueOn'],
    [offer({ borrowerId: club.ada.memberId }), '#/borrowerId'],
    [offer({ dueOn: '2001-01-01' }), '#/dueOn'],
  ];
  for (const [sent, pointer] of pointers) {
    const { status, body } = await sent;
    expect([status, body.errors?.[0]?.pointer]).toEqual([422, pointer]);
  }
  expect((await ask({ lotId: honey }).expect(409)).body.type).toBe('/problems/lot-unsuitable');
  expect((await offer({ lotId: honey }).expect(409)).body.type).toBe('/problems/lot-unsuitable');
  expect((await offer({ lotId: bens }).expect(403)).body.type).toBe('/problems/not-yours');

  const loan = await asked();
  const handOver = (body: object, by = club.ada) =>
    by.post(`${loan}/handover`, { lotId: seed, at: minutesAgo(1), ...body });
  await handOver({}).expect(409);
  await club.ada.post(`${loan}/acceptance`).expect(200);
  await handOver({}, club.ben).expect(403);
  await handOver({ massKg: 4.001 }).expect(409);
  await handOver({ lotId: honey }).expect(409);
  for (const body of [{ lotId: bens }, { lotId: undefined }, { lotId: randomUUID() }]) {
    expect((await handOver(body).expect(422)).body.errors[0].pointer).toBe('#/lotId');
  }
  expect((await lotOf(seed))['remainingMassKg']).toBe(4);
});

test('seed reserved for a batch is neither handed over nor given back', async () => {
  const loan = await asked();
  await club.ada.post(`${loan}/acceptance`).expect(200);
  const reserve = async (actor: Actor, lotId: string, massKg: number) => {
    const honey = await aLot(actor, club, source);
    await actor
      .post(`${club.path}/batches`, {
        name: 'Kept',
        honey: [{ lotId: honey, massKg: 10 }],
        seed: [{ lotId, massKg }],
      })
      .expect(201);
  };
  await reserve(club.ada, seed, 3);
  const handed = await club.ada
    .post(`${loan}/handover`, { lotId: seed, at: minutesAgo(1) })
    .expect(409);
  expect(handed.body).toMatchObject({ type: '/problems/seed-reserved', freeMassKg: 1 });
  await club.ada
    .post(`${loan}/handover`, { lotId: seed, massKg: 1, at: minutesAgo(1) })
    .expect(200);
  const bens = await aLot(club.ben, club, source, { kind: 'seed', massKg: 2 });
  await reserve(club.ben, bens, 1.5);
  const back = await club.ben
    .post(`${loan}/returns`, { lotId: bens, massKg: 1, at: new Date().toISOString() })
    .expect(409);
  expect(back.body.type).toBe('/problems/seed-reserved');
});

test('seed on hold is neither handed over nor given back, and the shelf says so', async () => {
  const loan = await lent();
  const asks = await asked();
  await club.ada.post(`${asks}/acceptance`).expect(200);
  const hold = { reason: 'It smells of yeast.' };
  await club.steward.post(`${club.path}/lots/${seed}/holds`, hold).expect(201);

  const handed = await club.ada
    .post(`${asks}/handover`, { lotId: seed, at: minutesAgo(1) })
    .expect(409);
  const { toLot } = (await stateOf(loan)) as { toLot: { id: string } };
  const back = await club.ben
    .post(`${loan}/returns`, { lotId: toLot.id, massKg: 1.5, at: minutesAgo(1) })
    .expect(409);

  expect([handed.body.type, back.body.type]).toEqual(['/problems/on-hold', '/problems/on-hold']);
  const { body: shelf } = await club.ada.get(`${club.path}/seed-shelf`).expect(200);
  expect(shelf.items).toMatchObject([{ onHold: true }, { onHold: true }]);
  const { body: fitting } = await club.ada.get(`${club.path}/fitting-seed?honeyMassKg=5`);
  expect(fitting.items).toMatchObject([
    { fits: false, obstacles: ['on-hold'] },
    { fits: false, obstacles: ['on-hold'] },
  ]);
});

test('who has left the club gets no seed', async () => {
  const gone = await aMember(service, club.clubId, 'member');
  const body = { lenderId: club.ada.memberId, massKg: 1 };
  const { body: made } = await gone.post(`${loans}/asks`, body).expect(201);
  const loan = `${loans}/${String(made.id)}`;
  await club.ada.post(`${loan}/acceptance`).expect(200);
  await service.prisma.member.update({
    where: { clubId_id: { clubId: club.clubId, id: gone.memberId } },
    data: { leftAt: new Date() },
  });
  await club.ada.post(`${loan}/handover`, { lotId: seed, at: minutesAgo(1) }).expect(422);
});

/** A day of the calendar in Vienna, where the club is. */
const dayInVienna = (days: number) =>
  new Date(Date.now() + days * 86_400_000).toLocaleDateString('sv-SE', {
    timeZone: 'Europe/Vienna',
  });

describe('what is owed past its day', () => {
  test('is overdue from the next local day on, told once to both, and no more once given back', async () => {
    const loan = await lent({ dueOn: dayInVienna(-1) });
    const today = await lent({ massKg: 0.5, dueOn: dayInVienna(0) });
    expect((await stateOf(loan))['overdue']).toBe(true);
    expect((await stateOf(today))['overdue']).toBe(false);
    const late = await club.ada.get(`${loans}?overdue=true`).expect(200);
    const others = await club.ada.get(`${loans}?overdue=false`).expect(200);
    expect(late.body.items).toMatchObject([{ massKg: 1.5 }]);
    expect(others.body.items).toMatchObject([{ massKg: 0.5 }]);

    const jobs = service.app.get(Jobs);
    await jobs.sweep();
    await jobs.sweep();
    expect(await kindsToldTo(club.ada)).toEqual(['loan.overdue']);
    const [, , told] = await toldTo(service, club.ben.memberId);
    expect(told).toMatchObject({ kind: 'loan.overdue', details: { owedMassKg: 1.5 } });

    const bens = await aLot(club.ben, club, source, { kind: 'seed', massKg: 3 });
    await club.ben
      .post(`${loan}/returns`, { lotId: bens, massKg: 1.5, at: minutesAgo(1) })
      .expect(201);
    expect((await stateOf(loan))['overdue']).toBe(false);
    const { body } = await club.ada.get(`${loans}?state=returned`).expect(200);
    expect(body.items).toHaveLength(1);
  });
});

describe('the day by which it is wanted back', () => {
  test('is moved by the lender; the borrower is told, and told once more when that day is over, too', async () => {
    const loan = await lent({ dueOn: dayInVienna(-1) });
    const jobs = service.app.get(Jobs);
    await jobs.sweep();

    const moved = await club.ada.change(loan, { dueOn: dayInVienna(20) });

    expect([moved.status, moved.body]).toMatchObject([
      200,
      { dueOn: dayInVienna(20), overdue: false, state: 'lent', owedMassKg: 1.5 },
    ]);
    const told = await toldTo(service, club.ben.memberId);
    expect(told.at(-1)).toMatchObject({
      kind: 'loan.due-changed',
      details: { dueBefore: dayInVienna(-1), dueOn: dayInVienna(20) },
    });
    const { body: notices } = await club.ben.get(`${club.path}/notices`).expect(200);
    expect(notices.items[0].subject).toBe(`Lent seed is wanted back by ${dayInVienna(20)}`);
    const { body: history } = await club.steward.get(`${club.path}/audit`).expect(200);
    expect(history.items[0]).toMatchObject({
      action: 'loan.due-changed',
      details: { from: dayInVienna(-1), to: dayInVienna(20) },
    });

    await jobs.sweep();
    const overdue = async () =>
      (await kindsToldTo(club.ben)).filter((kind) => kind === 'loan.overdue').length;
    expect(await overdue()).toBe(1);
    await service.prisma.loan.updateMany({
      where: { clubId: club.clubId },
      data: { dueOn: new Date(`${dayInVienna(-2)}T00:00:00Z`) },
    });
    await jobs.sweep();
    await jobs.sweep();
    expect(await overdue()).toBe(2);
  });

  test('may be none, and stays where nothing is said of it', async () => {
    const loan = await lent({ dueOn: dayInVienna(5) });
    expect((await club.ada.change(loan, {})).body.dueOn).toBe(dayInVienna(5));
    expect((await club.ada.change(loan, { dueOn: dayInVienna(5) })).status).toBe(200);
    expect(await kindsToldTo(club.ben)).toEqual(['loan.received']);
    expect((await club.steward.change(loan, { dueOn: null })).body.dueOn).toBeNull();
    expect(await kindsToldTo(club.ben)).toEqual(['loan.received', 'loan.due-changed']);
    expect(await kindsToldTo(club.ada)).toEqual(['loan.due-changed']);
  });

  test('is not the borrower’s, no day that is over, and nothing of a loan that is', async () => {
    const loan = await lent({ dueOn: dayInVienna(5) });
    const others = await club.ben.change(loan, { dueOn: dayInVienna(90) });
    expect([others.status, others.body.type]).toEqual([403, '/problems/not-yours']);
    const past = await club.ada.change(loan, { dueOn: dayInVienna(-1) });
    expect([past.status, past.body.errors]).toMatchObject([422, [{ pointer: '#/dueOn' }]]);
    expect(past.body.detail).toContain(dayInVienna(0));
    expect((await stateOf(loan))['dueOn']).toBe(dayInVienna(5));
    await club.ada.post(`${loan}/forgiveness`, {}).expect(200);
    const over = await club.ada.change(loan, { dueOn: dayInVienna(90) });
    expect([over.status, over.body]).toMatchObject([
      409,
      { type: '/problems/loan-out-of-order', state: 'forgiven', next: [] },
    ]);
    const wish = await asked();
    expect((await club.ada.change(wish, { dueOn: dayInVienna(9) })).status).toBe(409);
  });
});

test('the balances tell who owes whom, net and by loan, and close to the gram', async () => {
  await lent({ massKg: 1.5 });
  const bens = await aLot(club.ben, club, source, { kind: 'seed', massKg: 3 });
  const back = { lotId: bens, borrowerId: club.ada.memberId, massKg: 0.4, at: minutesAgo(9) };
  await club.ben.post(loans, back).expect(201);
  await club.ben.post(loans, { ...back, borrowerId: club.steward.memberId, massKg: 0.001 });

  const { body } = await club.steward.get(`${loans}/balances`).expect(200);

  const pairs = body.pairs as { loans: object[] }[];
  const withAda = pairs.find(({ loans: { length } }) => length === 2);
  expect(withAda).toMatchObject({
    creditor: { id: club.ada.memberId },
    debtor: { id: club.ben.memberId },
    netMassKg: 1.1,
    loans: [{ owedMassKg: 1.5 }, { owedMassKg: 0.4 }],
  });
  expect(pairs).toHaveLength(2);
  const members = new Map(
    (body.members as { member: { id: string } }[]).map((one) => [one.member.id, one]),
  );
  expect(members.get(club.ada.memberId)).toMatchObject({ owedMassKg: 1.5, owesMassKg: 0.4 });
  expect(members.get(club.ben.memberId)).toMatchObject({ netMassKg: -1.099 });
  expect(members.get(club.steward.memberId)).toMatchObject({ owesMassKg: 0.001, owedMassKg: 0 });
});

test('of one lot its loans are found: that it was lent from, made by, and given back from', async () => {
  const loan = await lent();
  const other = await aLot(club.ada, club, source, { kind: 'seed', massKg: 4 });
  const otherLoan = await lent({ lotId: other });
  const bens = await aLot(club.ben, club, source, { kind: 'seed', massKg: 4 });
  const back = { lotId: bens, massKg: 0.5, at: minutesAgo(1) };
  const { body: returned } = await club.ben.post(`${loan}/returns`, back).expect(201);
  const received = (await stateOf(loan))['toLot'] as { id: string };

  const loansOf = async (lotId: string) => {
    const { body } = await club.ada.get(`${loans}?lotId=${lotId}`).expect(200);
    return (body.items as { id: string }[]).map(({ id }) => `${loans}/${id}`);
  };

  for (const lotId of [seed, received.id, bens, String(returned.toLot.id)]) {
    expect(await loansOf(lotId)).toEqual([loan]);
  }
  expect(await loansOf(other)).toEqual([otherLoan]);
});
