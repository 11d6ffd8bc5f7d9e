import { aLot, aPlannedBatch, aSource, lotsOutOfBalance, minutesAgo } from '../support/lots';
import { breaches } from '../support/checker';
import { useService } from '../support/service';
import { aSuspectLine } from '../support/suspect-line';
import { aClub, type Actor, type ClubWorld } from '../support/world';

const service = useService();

/** The batch was recorded with 2 kg of one seed, and it was another that went in. */
async function aMixUp() {
  const line = await aSuspectLine(service);
  const rightId = await aLot(line.club.ada, line.club, line.sourceId, { kind: 'seed', massKg: 5 });
  return {
    ...line,
    rightId,
    corrections: `${line.club.path}/lots/${line.creamedId}/corrections`,
    mistake: {
      wrongLotId: line.seedId,
      rightLotId: rightId,
      massKg: 2,
      because: 'The lids were swapped',
    },
  };
}

test('another seed went in than was recorded: ledgers, traces and history follow, and what stood there is kept', async () => {
  const { club, seedId, rightId, creamedId, nextSeedId, corrections, mistake } = await aMixUp();
  const { ada, path } = club;

  const { body } = await ada.post(corrections, mistake).expect(201);

  expect(body).toMatchObject({
    lotId: creamedId,
    wrongLot: { id: seedId },
    rightLot: { id: rightId },
    massKg: 2,
    because: 'The lids were swapped',
    recordedBy: { id: ada.memberId },
    firstRecord: { massKg: 2, by: { id: ada.memberId } },
  });
  expect(body.inputs).toEqual([
    expect.objectContaining({ massKg: 20 }),
    expect.objectContaining({ id: rightId, massKg: 2 }),
  ]);
  const masses = async (lotId: string) => {
    const { body: lot } = await ada.get(`${path}/lots/${lotId}`).expect(200);
    return [lot.remainingMassKg, lot.usedMassKg];
  };
  expect(await masses(seedId)).toEqual([5, 0]);
  expect(await masses(rightId)).toEqual([3, 2]);
  const went = async (lotId: string) =>
    (await ada.get(`${path}/lots/${lotId}/descendants`).expect(200)).body.items as object[];
  expect(await went(seedId)).toEqual([]);
  expect(await went(rightId)).toMatchObject([
    { lotId: creamedId, shareFraction: '1/11' },
    { lotId: nextSeedId, shareFraction: '1/11' },
  ]);
  const { body: moved } = await ada.get(`${path}/lots/${seedId}/withdrawals`).expect(200);
  expect(moved.items).toMatchObject([
    { kind: 'used', massKg: 2, intoLot: { id: creamedId }, correctionId: null },
    { kind: 'used', massKg: -2, intoLot: { id: creamedId }, correctionId: body.id },
  ]);
  expect((await ada.get(corrections).expect(200)).body.items).toEqual([body]);
  const { body: history } = await club.steward.get(`${path}/audit`).expect(200);
  expect(history.items[0]).toMatchObject({ action: 'lot.corrected', subjectId: creamedId });
  expect(await lotsOutOfBalance(service)).toEqual([]);
  expect(await breaches(service.database)).toEqual([]);
});

test('a part of it was right; a correction is corrected in its turn', async () => {
  const { club, seedId, rightId, corrections, mistake } = await aMixUp();
  const { ada } = club;

  const half = await ada.post(corrections, { ...mistake, massKg: 0.5 }).expect(201);
  expect(half.body.inputs.slice(1)).toMatchObject([
    { id: seedId, massKg: 1.5 },
    { id: rightId, massKg: 0.5 },
  ]);
  const back = { ...mistake, wrongLotId: rightId, rightLotId: seedId, massKg: 0.5 };
  const { body } = await ada.post(corrections, back).expect(201);

  expect(body.inputs.slice(1)).toMatchObject([{ id: seedId, massKg: 2 }]);
  expect((await ada.get(corrections).expect(200)).body.items).toHaveLength(2);
  expect(await lotsOutOfBalance(service)).toEqual([]);
});

test('a hold leaves what was never made of the suspect lot, and reaches what was', async () => {
  const { club, seedId, rightId, creamedId, nextSeedId, corrections, mistake } = await aMixUp();
  const { ada, ben, steward, path } = club;
  const place = (lotId: string) =>
    ben.post(`${path}/lots/${lotId}/holds`, { reason: 'Vinegar' }).expect(201);
  const [onWrong, onRight] = [(await place(seedId)).body.id, (await place(rightId)).body.id];
  const holdsOf = async (lotId: string) =>
    (await ada.get(`${path}/lots/${lotId}`).expect(200)).body.onHold as string[];
  expect(await holdsOf(nextSeedId)).toEqual([onWrong]);

  const refused = await ada.post(corrections, mistake).expect(403);
  expect(refused.body.detail).toMatch(/only a steward/);
  await steward.post(corrections, mistake).expect(201);

  expect(await holdsOf(creamedId)).toEqual([onRight]);
  expect(await holdsOf(nextSeedId)).toEqual([onRight]);
  const told = await service.prisma.notice.findMany({
    where: { clubId: club.clubId, subjectId: String(onRight) },
  });
  expect(told.map(({ memberId }) => memberId)).toEqual([ada.memberId]);
});

test('a holder learns of a hold that a correction brings to their lot', async () => {
  const { club, rightId, nextSeedId, corrections, mistake } = await aMixUp();
  const { ada, ben, steward, path } = club;
  const loan = { lotId: nextSeedId, borrowerId: ben.memberId, massKg: 1, at: minutesAgo(1) };
  await ada.post(`${path}/loans`, loan).expect(201);
  await ada.post(`${path}/lots/${rightId}/holds`, { reason: 'Vinegar' }).expect(201);

  await steward.post(corrections, mistake).expect(201);

  const told = await service.prisma.notice.findMany({
    where: { clubId: club.clubId, kind: { startsWith: 'hold' } },
  });
  expect(told.map(({ memberId, kind }) => [memberId, kind]).sort()).toEqual(
    [
      [ada.memberId, 'hold.placed'],
      [ben.memberId, 'hold.placed'],
    ].sort(),
  );
});

test('seed put by from another batch lies deeper, and all below it with it', async () => {
  const { club, sourceId, seedId, nextSeedId, corrections, mistake } = await aMixUp();
  const { ada, path } = club;
  const other = await aPlannedBatch(ada, club, sourceId);
  const seeded = {
    kind: 'seeded',
    at: minutesAgo(290),
    seed: [{ lotId: other.seedId, massKg: 1 }],
  };
  await ada.post(`${other.path}/steps`, seeded).expect(201);
  const potted = {
    kind: 'potted',
    at: minutesAgo(280),
    pots: [{ netMassKg: 0.5, count: 4 }],
    seedPutByKg: 4,
  };
  const deep = String((await ada.post(`${other.path}/steps`, potted).expect(201)).body.madeLotId);
  const late = await ada.post(corrections, { ...mistake, rightLotId: deep }).expect(409);
  // Put by 280 minutes ago, and the batch was seeded 300 minutes ago.
  expect(late.body).toMatchObject({ type: '/problems/lot-unsuitable' });

  const last = await aPlannedBatch(ada, club, sourceId);
  const seed = [{ lotId: last.seedId, massKg: 1 }];
  const { body: step } = await ada
    .post(`${last.path}/steps`, { kind: 'seeded', at: minutesAgo(100), seed })
    .expect(201);
  const lastId = String(step.madeLotId);
  await ada
    .post(`${path}/lots/${lastId}/corrections`, {
      ...mistake,
      wrongLotId: last.seedId,
      rightLotId: deep,
      massKg: 1,
    })
    .expect(201);

  const { body: lot } = await ada.get(`${path}/lots/${lastId}`).expect(200);
  expect(lot.depth).toBe(3);
  const { body: up } = await ada.get(`${path}/lots/${lastId}/ancestors`).expect(200);
  expect(up.items.map(({ lotId }: { lotId: string }) => lotId)).toContain(other.seedId);
  // Its own descendant cannot have gone in.
  const circle = { ...mistake, wrongLotId: seedId, rightLotId: nextSeedId };
  expect((await ada.post(corrections, circle).expect(409)).body.type).toBe(
    '/problems/lot-unsuitable',
  );
  expect(await breaches(service.database)).toEqual([]);
});

test('what cannot have been so, or is not the caller’s, is refused and changes nothing', async () => {
  const { club, sourceId, seedId, rightId, nextSeedId, creamedId, corrections, mistake } =
    await aMixUp();
  const { ada, ben, steward, path } = club;
  const honeyId = await aLot(ada, club, sourceId);
  const bens = await aLot(ben, club, sourceId, { kind: 'seed', massKg: 5 });
  const small = await aLot(ada, club, sourceId, { kind: 'seed', massKg: 1 });
  const rightAs = (rightLotId: string | null) => ({ ...mistake, rightLotId });

  const cases: [object, number, string][] = [
    [{ ...mistake, wrongLotId: rightId, rightLotId: seedId }, 409, 'lot-unsuitable'],
    [{ ...mistake, wrongLotId: club.clubId }, 422, 'invalid'],
    [{ ...mistake, massKg: 2.001 }, 409, 'not-enough-mass'],
    [rightAs(small), 409, 'not-enough-mass'],
    [rightAs(honeyId), 409, 'lot-unsuitable'],
    [rightAs(seedId), 422, 'invalid'],
    [rightAs(creamedId), 422, 'invalid'],
    [rightAs(club.clubId), 422, 'invalid'],
    // 22 kg went in and 22 kg came out: without the seed it would weigh more than what it was made of.
    [rightAs(null), 409, 'lot-unsuitable'],
    [rightAs(bens), 403, 'not-yours'],
    [{ ...mistake, because: '' }, 422, 'invalid'],
  ];
  for (const [body, status, code] of cases) {
    const answer = await ada.post(corrections, body);
    expect([answer.status, answer.body.type]).toEqual([status, `/problems/${code}`]);
  }
  await ben.post(corrections, mistake).expect(403);
  await ada.post(`${path}/lots/${club.clubId}/corrections`, mistake).expect(404);
  await ada.get(`${path}/lots/${club.clubId}/corrections`).expect(404);
  expect((await ada.get(corrections).expect(200)).body.items).toEqual([]);
  await steward.post(corrections, rightAs(bens)).expect(201);

  // Of seed that was put by one parent is all there is: without it the lot was brought in, from where nobody knows.
  await ada
    .post(`${path}/lots/${nextSeedId}/corrections`, {
      wrongLotId: creamedId,
      rightLotId: null,
      massKg: 3,
      because: 'Found on the shelf',
    })
    .expect(201);
  const { body: lot } = await ada.get(`${path}/lots/${nextSeedId}`).expect(200);
  expect(lot).toMatchObject({ depth: 0, inputMassKg: 0, remainingMassKg: 3 });
  const { body: up } = await ada.get(`${path}/lots/${nextSeedId}/ancestors`).expect(200);
  expect(up).toMatchObject({ items: [], originComposition: [{ countryCode: null, share: 1 }] });
  expect(await breaches(service.database)).toEqual([]);
});

describe('what was handed over', () => {
  /** Ada is recorded to have lent Ben 1 kg of one seed; she has another, too. */
  async function aLoan(dueOn?: string) {
    const club = await aClub(service);
    const { ada, ben, path } = club;
    const source = await aSource(service, club.clubId);
    const [wrongId, rightId] = [
      await aLot(ada, club, source, { kind: 'seed', massKg: 5 }),
      await aLot(ada, club, source, { kind: 'seed', massKg: 5 }),
    ];
    await ada.change(`${path}/lots/${rightId}`, { name: 'New', grain: 'fine' });
    const lent = { lotId: wrongId, borrowerId: ben.memberId, massKg: 1, at: minutesAgo(60), dueOn };
    const { body: loan } = await ada.post(`${path}/loans`, lent).expect(201);
    const lotId = String(loan.toLot.id);
    return {
      club,
      source,
      wrongId,
      rightId,
      lotId,
      loanPath: `${path}/loans/${String(loan.id)}`,
      corrections: `${path}/lots/${lotId}/corrections`,
      other: { wrongLotId: wrongId, rightLotId: rightId, massKg: 1, because: 'The wrong tub' },
      less: { wrongLotId: wrongId, rightLotId: null, massKg: 0.25, because: 'Weighed again' },
    };
  }

  async function lotOf(actor: Actor, club: ClubWorld, id: string) {
    return (await actor.get(`${club.path}/lots/${id}`).expect(200)).body;
  }

  async function expectNothingBroken() {
    expect(await lotsOutOfBalance(service)).toEqual([]);
    expect(await breaches(service.database)).toEqual([]);
  }

  test('was of another lot: loan, ledgers, lineage and holds follow, and the borrower is told', async () => {
    const { club, wrongId, rightId, lotId, loanPath, corrections, other } = await aLoan();
    const { ada, ben, steward, path } = club;
    const placed = { reason: 'Vinegar' };
    const { body: hold } = await steward.post(`${path}/lots/${wrongId}/holds`, placed).expect(201);
    expect((await lotOf(ben, club, lotId)).onHold).toEqual([hold.id]);

    expect((await ada.post(corrections, other).expect(403)).body.detail).toMatch(/only a steward/);
    const { body } = await steward.post(corrections, other).expect(201);

    expect(body).toMatchObject({
      wrongLot: { id: wrongId },
      rightLot: { id: rightId },
      firstRecord: { massKg: 1, by: { id: ada.memberId } },
      inputs: [{ id: rightId, massKg: 1 }],
    });
    expect((await ben.get(loanPath).expect(200)).body).toMatchObject({
      fromLot: { id: rightId },
      toLot: { id: lotId, name: 'New' },
      massKg: 1,
      owedMassKg: 1,
    });
    expect(await lotOf(ben, club, lotId)).toMatchObject({
      onHold: [],
      grain: 'fine',
      remainingMassKg: 1,
    });
    expect(await lotOf(ada, club, wrongId)).toMatchObject({ remainingMassKg: 5, lentMassKg: 0 });
    expect(await lotOf(ada, club, rightId)).toMatchObject({ remainingMassKg: 4, lentMassKg: 1 });
    const { body: up } = await ben.get(`${path}/lots/${lotId}/ancestors`).expect(200);
    expect(up.items).toMatchObject([{ lotId: rightId, shareFraction: '1/1' }]);
    const { body: moved } = await ada.get(`${path}/lots/${wrongId}/withdrawals`).expect(200);
    expect(moved.items).toMatchObject([
      { kind: 'lent', massKg: 1, correctionId: null },
      { kind: 'lent', massKg: -1, correctionId: body.id },
    ]);
    expect((await ben.get(`${path}/notices`).expect(200)).body.items[0]).toMatchObject({
      subject: 'The record of lent seed was corrected: “New”',
      text: expect.stringMatching(/it was 1 kg of “New”.* Why: The wrong tub/),
    });
    const { body: history } = await steward.get(`${path}/audit`).expect(200);
    expect(history.items[0]).toMatchObject({
      action: 'lot.corrected',
      details: expect.objectContaining({ loanId: loanPath.split('/').at(-1) }),
    });
    await expectNothingBroken();
  });

  test('was less: the lender has it back, the borrower has and owes so much less', async () => {
    const { club, wrongId, lotId, loanPath, corrections, less } = await aLoan();
    const { ada, ben, path } = club;

    await ada.post(corrections, less).expect(201);

    expect(await lotOf(ada, club, wrongId)).toMatchObject({
      remainingMassKg: 4.25,
      lentMassKg: 0.75,
    });
    expect(await lotOf(ben, club, lotId)).toMatchObject({
      initialMassKg: 0.75,
      remainingMassKg: 0.75,
      inputMassKg: 0.75,
    });
    expect((await ben.get(loanPath).expect(200)).body).toMatchObject({
      massKg: 0.75,
      owedMassKg: 0.75,
    });
    const { body: balances } = await ben.get(`${path}/loans/balances`).expect(200);
    expect(balances.pairs).toMatchObject([{ netMassKg: 0.75 }]);
    const { body: recall } = await ada.get(`${path}/lots/${lotId}/recall`).expect(200);
    expect(recall.totals.foundKg).toBe(0.75);
    await expectNothingBroken();
  });

  test('was just what has been given back: then the loan is settled', async () => {
    const { club, loanPath, source, corrections, less } = await aLoan();
    const { ada, ben } = club;
    const bens = await aLot(ben, club, source, { kind: 'seed', massKg: 5 });
    const back = { lotId: bens, massKg: 0.75, at: minutesAgo(1) };
    const { body: returned } = await ben.post(`${loanPath}/returns`, back).expect(201);

    const tooMuch = await ada.post(corrections, { ...less, massKg: 0.3 }).expect(409);
    expect(tooMuch.body).toMatchObject({ type: '/problems/not-enough-mass', mostMassKg: 0.25 });
    await ada.post(corrections, less).expect(201);

    expect((await ben.get(loanPath).expect(200)).body).toMatchObject({
      state: 'returned',
      massKg: 0.75,
      owedMassKg: 0,
      endedBy: { id: ada.memberId },
    });
    const after = await ada.post(corrections, { ...less, massKg: 0.1 }).expect(409);
    expect(after.body).toMatchObject({ type: '/problems/loan-out-of-order', state: 'returned' });
    const ofReturn = `${club.path}/lots/${String(returned.toLot.id)}/corrections`;
    const wrong = { ...less, wrongLotId: bens };
    expect((await ada.post(ofReturn, wrong).expect(409)).body.detail).toMatch(
      /given back for a loan/,
    );
    await expectNothingBroken();
  });

  test('cannot be less than was used of it, nor somebody else’s lot, nor two', async () => {
    const { club, source, wrongId, lotId, loanPath, corrections, other, less } = await aLoan();
    const { ada, ben, path } = club;
    const used = { kind: 'used', massKg: 0.9, at: minutesAgo(1) };
    await ben.post(`${path}/lots/${lotId}/withdrawals`, used).expect(201);
    const bens = await aLot(ben, club, source, { kind: 'seed', massKg: 5 });
    const small = await aLot(ada, club, source, { kind: 'seed', massKg: 0.5 });
    const honey = await aLot(ada, club, source);

    const refused = await ada.post(corrections, less).expect(409);
    expect(refused.body).toMatchObject({
      type: '/problems/not-enough-mass',
      detail: expect.stringMatching(/0.1 kg are left .* 0.1 kg less would do/),
      mostMassKg: 0.1,
    });
    const cases: [object, number, string][] = [
      [{ ...less, massKg: 1.001 }, 409, 'not-enough-mass'],
      [{ ...other, rightLotId: bens }, 409, 'lot-unsuitable'],
      [{ ...other, rightLotId: honey }, 409, 'lot-unsuitable'],
      [{ ...other, rightLotId: small }, 409, 'not-enough-mass'],
      [{ ...other, massKg: 0.5 }, 409, 'lot-unsuitable'],
      [{ ...other, wrongLotId: bens }, 409, 'lot-unsuitable'],
      [{ ...other, rightLotId: wrongId }, 422, 'invalid'],
    ];
    for (const [body, status, code] of cases) {
      const answer = await ada.post(corrections, body);
      expect([answer.status, answer.body.type]).toEqual([status, `/problems/${code}`]);
    }
    await ben.post(corrections, { ...less, massKg: 0.1 }).expect(403);
    expect((await ben.get(corrections).expect(200)).body.items).toEqual([]);
    await ada.post(corrections, { ...less, massKg: 0.1 }).expect(201);
    expect((await ben.get(loanPath).expect(200)).body).toMatchObject({ massKg: 0.9 });
    await expectNothingBroken();
  });

  test('all of it is never less: what was not handed over at all is given back', async () => {
    const { club, corrections, less } = await aLoan();
    const { body } = await club.ada.post(corrections, { ...less, massKg: 1 }).expect(409);
    expect(body).toMatchObject({
      detail: expect.stringMatching(/let it be given back/),
      mostMassKg: 0.999,
    });
  });
});
