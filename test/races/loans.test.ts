import { inTurns } from '../support/in-turns';
import { aLot, aSource, lotsOutOfBalance, minutesAgo } from '../support/lots';
import { useService } from '../support/service';
import { aClub, aMember, type Actor } from '../support/world';

const service = useService();

interface State {
  id: string;
  state: string;
  returnedMassKg: number;
  forgivenMassKg: number;
  owedMassKg: number;
}

interface Balance {
  owedMassKg: number;
  owesMassKg: number;
  netMassKg: number;
}

interface Loan {
  id: string;
  lender: Actor;
  borrower: Actor;
}

test('many lend, hand over, give back and forgive at once: every ledger closes, and what all are owed is what all owe', async () => {
  const club = await aClub(service);
  const path = `${club.path}/loans`;
  const source = await aSource(service, club.clubId);
  const members = [club.ada, club.ben, club.steward, await aMember(service, club.clubId, 'member')];
  const seed = new Map<Actor, string>();
  for (const member of members) {
    seed.set(member, await aLot(member, club, source, { kind: 'seed', massKg: 5 }));
  }
  const pairs = members.flatMap((lender) =>
    members.filter((other) => other !== lender).map((borrower) => ({ lender, borrower })),
  );

  // Each lends to each, half of it at once, half after an offer that several try to take up.
  const loans = await inTurns(pairs, async ({ lender, borrower }): Promise<Loan> => {
    const wish = { lotId: seed.get(lender), borrowerId: borrower.memberId, massKg: 0.333 };
    if (pairs.findIndex((one) => one.lender === lender && one.borrower === borrower) % 2 === 0) {
      const { body } = await lender.post(path, { ...wish, at: minutesAgo(9) }).expect(201);
      return { id: String(body.id), lender, borrower };
    }
    const { body } = await lender.post(`${path}/offers`, wish).expect(201);
    const loan = `${path}/${String(body.id)}`;
    const accepted = await Promise.all([1, 2, 3].map(() => borrower.post(`${loan}/acceptance`)));
    expect(accepted.map(({ status }) => status).sort()).toEqual([200, 409, 409]);
    const handed = await Promise.all(
      [1, 2, 3].map(() => lender.post(`${loan}/handover`, { at: minutesAgo(8) })),
    );
    expect(handed.map(({ status }) => status).sort()).toEqual([200, 409, 409]);
    return { id: String(body.id), lender, borrower };
  });

  // Of five returns of 100 g each three fit into 333 g, unless the loan is forgiven in between.
  const deeds = loans.flatMap(({ id, lender, borrower }, index) => [
    ...Array.from({ length: 5 }, () => async () => {
      const body = { lotId: seed.get(borrower), massKg: 0.1, at: minutesAgo(1) };
      const { status } = await borrower.post(`${path}/${id}/returns`, body);
      return { id, status, what: 'return' };
    }),
    ...(index % 3 === 0
      ? Array.from({ length: 2 }, () => async () => {
          const { status } = await lender.post(`${path}/${id}/forgiveness`);
          return { id, status, what: 'forgive' };
        })
      : []),
  ]);
  // So that those that meet are of different loans and of the same.
  const mixed = deeds
    .map((deed, index) => ({ deed, order: (index * 37) % deeds.length }))
    .sort((a, b) => a.order - b.order)
    .map(({ deed }) => deed);
  const done = await inTurns(mixed, (deed) => deed(), 12);

  expect(new Set(done.map(({ status }) => status))).toEqual(new Set([200, 201, 409]));
  expect(await lotsOutOfBalance(service)).toEqual([]);
  const { body } = await club.ada.get(`${path}?limit=200`).expect(200);
  const states = body.items as State[];
  expect(states).toHaveLength(pairs.length);
  let owedG = 0;
  for (const loan of states) {
    const returned = done.filter(({ id, status }) => id === loan.id && status === 201).length;
    const forgiven = done.filter(({ id, status }) => id === loan.id && status === 200).length;
    expect(forgiven).toBeLessThanOrEqual(1);
    expect(grams(loan.returnedMassKg)).toBe(100 * returned);
    const parts = [loan.returnedMassKg, loan.forgivenMassKg, loan.owedMassKg].map(grams);
    expect(parts.reduce((sum, part) => sum + part, 0)).toBe(333);
    expect(loan.state).toBe(forgiven === 1 ? 'forgiven' : 'lent');
    if (forgiven === 0) expect(returned).toBe(3);
    owedG += grams(loan.owedMassKg);
  }
  const { body: balances } = await club.ada.get(`${path}/balances`).expect(200);
  const sum = (of: (one: Balance) => number) =>
    (balances.members as Balance[]).reduce((all, one) => all + of(one), 0);
  expect(sum((one) => grams(one.owedMassKg))).toBe(owedG);
  expect(sum((one) => grams(one.owesMassKg))).toBe(owedG);
  expect(sum((one) => grams(one.netMassKg))).toBe(0);
  const [held] = await service.database.query<{ massG: number }>(
    `select sum(remaining_mass_g)::int as "massG" from lot where club_id = '${club.clubId}' and kind = 'seed'`,
  );
  expect(held!.massG).toBe(20_000);
});

function grams(massKg: number): number {
  return Math.round(massKg * 1000);
}

test('corrections, returns and uses of the same lent seed at once: nobody waits for ever, and every ledger closes', async () => {
  const club = await aClub(service);
  const { ada, ben, path } = club;
  const source = await aSource(service, club.clubId);
  const [first, second] = [
    await aLot(ada, club, source, { kind: 'seed', massKg: 5 }),
    await aLot(ada, club, source, { kind: 'seed', massKg: 5 }),
  ];
  const bens = await aLot(ben, club, source, { kind: 'seed', massKg: 5 });
  const lent = { lotId: first, borrowerId: ben.memberId, massKg: 1, at: minutesAgo(9) };
  const { body: loan } = await ada.post(`${path}/loans`, lent).expect(201);
  const corrections = `${path}/lots/${String(loan.toLot.id)}/corrections`;
  const less = { wrongLotId: first, rightLotId: null, massKg: 0.05, because: 'Weighed again' };
  const back = { lotId: bens, massKg: 0.05, at: minutesAgo(1) };
  const used = { kind: 'used', massKg: 0.05, at: minutesAgo(1) };

  const deeds = Array.from({ length: 16 }, () => [
    () => ada.post(corrections, less),
    () => ben.post(`${path}/loans/${String(loan.id)}/returns`, back),
    () => ben.post(`${path}/lots/${String(loan.toLot.id)}/withdrawals`, used),
  ]).flat();
  const done = await inTurns(deeds, (deed) => deed(), 12);

  expect(new Set(done.map(({ status }) => status))).toEqual(new Set([201, 409]));
  const { body: after } = await ada.get(`${path}/loans/${String(loan.id)}`).expect(200);
  const other = { ...less, rightLotId: second, massKg: after.massKg as number };
  await ada.post(corrections, other).expect(201);
  const { body: lot } = await ben.get(`${path}/lots/${String(loan.toLot.id)}`).expect(200);
  expect(lot.initialMassKg).toBe(after.massKg);
  expect(after.returnedMassKg).toBeLessThanOrEqual(after.massKg as number);
  const { body: gave } = await ada.get(`${path}/lots/${second}`).expect(200);
  expect(gave.lentMassKg).toBe(after.massKg);
  expect(await lotsOutOfBalance(service)).toEqual([]);
});
