import { aDatabase, type TestDatabase } from '../support/database';

// Each promise of the migrations about loans and what is given back for them, by the name of its constraint, in plain SQL.

let database: TestDatabase;
let club: { clubId: string; lender: string; borrower: string };

beforeAll(async () => {
  database = await aDatabase();
});
afterAll(() => database.drop());
beforeEach(async () => {
  const [row] = await database.query<typeof club>(`
    with c as (insert into club (name, time_zone) values ('c', 'UTC') returning id),
    p as (insert into person (name, email, password_hash)
      values ('p', gen_random_uuid() || '@example.org', ''), ('q', gen_random_uuid() || '@example.org', '') returning id),
    m as (insert into member (club_id, person_id, role) select c.id, p.id, 'member' from c, p returning id)
    select c.id as "clubId", min(m.id::text) as lender, max(m.id::text) as borrower from c, m group by c.id`);
  club = row!;
});

type Row = Record<string, unknown>;

/** Inserts a row of those columns and answers its id. */
async function insert(table: string, row: Row): Promise<string> {
  const columns = Object.keys(row);
  const [made] = await database.query<{ id: string }>(
    `insert into ${table} (${columns.join(', ')}) values (${columns.map((_, index) => `$${index + 1}`).join(', ')}) returning id`,
    Object.values(row),
  );
  return made!.id;
}

/** Seed that was brought in. */
async function seedOf(holder: string): Promise<string> {
  return insert('lot', {
    club_id: club.clubId,
    kind: 'seed',
    name: 'seed',
    holder_id: holder,
    initial_mass_g: 5000,
    remaining_mass_g: 5000,
  });
}

/** So much of a lot, passed on to another member: the new lot. */
async function passed(lotId: string, holder: string, massG: number, kind = 'lent') {
  const [row] = await database.query<{ id: string }>(
    `with made as (
       insert into lot (club_id, kind, name, holder_id, initial_mass_g, remaining_mass_g, input_mass_g, depth)
       values ($1, 'seed', 'seed', $2, $4, $4, $4, 1) returning id
     ), input as (
       insert into lot_input (club_id, child_id, parent_id, mass_g, kind, child_input_mass_g, child_depth, parent_depth, at, recorded_by_id)
       select $1, made.id, $3, $4, $5::movement_kind, $4, 1, 0, '2027-01-01', $2 from made
     ) select id from made`,
    [club.clubId, holder, lotId, massG, kind],
  );
  return row!.id;
}

/** Seed handed over: the loan. */
async function lent(change: Row = {}, massG = 1000) {
  const from_lot_id = await seedOf(club.lender);
  return loan({
    from_lot_id,
    to_lot_id: await passed(from_lot_id, club.borrower, massG),
    mass_g: massG,
    lent_at: '2027-01-01T00:00:00Z',
    ...change,
  });
}

function loan(change: Row) {
  return insert('loan', {
    club_id: club.clubId,
    lender_id: club.lender,
    borrower_id: club.borrower,
    mass_g: 1000,
    ...change,
  });
}

/** Seed given back for it: the return. */
async function givenBack(loan_id: string, massG: number, change: Row = {}) {
  const from_lot_id = await seedOf(club.borrower);
  return insert('loan_return', {
    club_id: club.clubId,
    loan_id,
    from_lot_id,
    to_lot_id: await passed(from_lot_id, club.lender, massG),
    mass_g: massG,
    at: '2027-02-01T00:00:00Z',
    recorded_by_id: club.borrower,
    ...change,
  });
}

function update(id: string, set: string) {
  return database.query(`update loan set ${set} where id = $1`, [id]);
}

const over = (state: string) => `state = '${state}', ended_at = now(), ended_by_id = lender_id`;

async function massesOf(id: string) {
  const [row] = await database.query(
    'select state, returned_mass_g as returned, forgiven_mass_g as forgiven from loan where id = $1',
    [id],
  );
  return row;
}

async function expectRefusal(work: Promise<unknown>, constraint: string): Promise<void> {
  await expect(work).rejects.toMatchObject({ constraint });
}

describe('a loan', () => {
  test('has mass and lies between two members', async () => {
    await expectRefusal(loan({ state: 'asked', mass_g: 0 }), 'loan_has_mass');
    await expectRefusal(loan({ state: 'asked', borrower_id: club.lender }), 'loan_between_two');
    await loan({ state: 'asked' });
  });

  test('has a lender, unless anybody was asked', async () => {
    const anybody = { lender_id: null, began_as: 'asked', state: 'asked' };
    await expectRefusal(loan({ ...anybody, state: 'accepted' }), 'loan_has_lender');
    await expectRefusal(loan({ ...anybody, began_as: 'offered' }), 'loan_has_lender');
    await loan(anybody);
  });

  test('is handed over with its lots, or not yet', async () => {
    await expectRefusal(loan({ state: 'lent' }), 'loan_handed_over_with_its_lots');
    await expectRefusal(lent({ state: 'accepted' }), 'loan_handed_over_with_its_lots');
    await expectRefusal(lent({ lent_at: null }), 'loan_handed_over_with_its_lots');
  });

  test('goes from a lot of the lender’s into one of the borrower’s, which comes from it, once', async () => {
    const from_lot_id = await seedOf(club.lender);
    const right = await passed(from_lot_id, club.borrower, 1000);
    const elsewhere = 'loan_lot_goes_to_borrower';
    await expectRefusal(lent({ from_lot_id }), elsewhere);
    await expectRefusal(lent({ to_lot_id: await seedOf(club.borrower) }), elsewhere);
    for (const wrong of [
      await passed(from_lot_id, club.lender, 1000),
      await passed(from_lot_id, club.borrower, 999),
      await passed(from_lot_id, club.borrower, 1000, 'used'),
    ]) {
      await expectRefusal(lent({ from_lot_id, to_lot_id: wrong }), elsewhere);
    }
    await lent({ from_lot_id, to_lot_id: right });
    await expectRefusal(lent({ from_lot_id, to_lot_id: right }), 'loan_club_id_to_lot_id_key');
  });

  test('is over for some reason and by somebody, or not over', async () => {
    await expectRefusal(loan({ state: 'declined' }), 'loan_ended_or_not');
    await expectRefusal(loan({ state: 'asked', ended_at: 'now' }), 'loan_ended_or_not');
    const id = await loan({ state: 'asked' });
    await expectRefusal(update(id, `state = 'withdrawn', ended_at = now()`), 'loan_ended_or_not');
    await update(id, over('withdrawn'));
  });

  test('forgives no more than is owed, and is then over for good', async () => {
    const id = await lent();
    const forgiven = (massG: number) =>
      update(id, `forgiven_mass_g = ${massG}, ${over('forgiven')}`);
    await givenBack(id, 300);
    await expectRefusal(forgiven(701), 'loan_returned_and_forgiven_within_lent');
    await expectRefusal(forgiven(-1), 'loan_returned_and_forgiven_within_lent');
    await expectRefusal(forgiven(699), 'loan_state_tells_what_is_owed');
    await expectRefusal(update(id, over('returned')), 'loan_state_tells_what_is_owed');
    await forgiven(700);

    expect(await massesOf(id)).toEqual({ state: 'forgiven', returned: 300, forgiven: 700 });
    await expectRefusal(
      update(id, `state = 'lent', forgiven_mass_g = 0, ended_at = null, ended_by_id = null`),
      'loan_once_over_is_over',
    );
    await expectRefusal(givenBack(id, 1), 'loan_once_over_is_over');
  });

  test('stands once it was handed over, and is kept', async () => {
    const id = await lent();
    for (const set of [
      'mass_g = 900',
      `lent_at = '2026-01-01'`,
      'lender_id = borrower_id, borrower_id = lender_id',
    ]) {
      await expectRefusal(update(id, set), 'loan_stands_once_handed_over');
    }
    await expectRefusal(update(id, 'returned_mass_g = 10'), 'loan_paid_by_returns_only');
    await expectRefusal(database.query('delete from loan where id = $1', [id]), 'loan_is_history');
    await update(id, `note = 'for the lime'`);
  });
});

describe('a correction of what was handed over', () => {
  async function lotsOf(id: string) {
    const [row] = await database.query<{ from: string; to: string }>(
      'select from_lot_id as from, to_lot_id as to from loan where id = $1',
      [id],
    );
    return row!;
  }

  function corrected(child: string, wrong: string, right: string | null, massG: number) {
    return insert('lot_correction', {
      club_id: club.clubId,
      child_id: child,
      wrong_parent_id: wrong,
      right_parent_id: right,
      mass_g: massG,
      because: 'mixed up',
      recorded_by_id: club.lender,
    });
  }

  async function massesOfLot(id: string) {
    const [row] = await database.query(
      'select initial_mass_g as initial, remaining_mass_g as remaining, input_mass_g as input, lent_mass_g as lent from lot where id = $1',
      [id],
    );
    return row;
  }

  test('is of all that one lot gave, or of less of it', async () => {
    const { from, to } = await lotsOf(await lent());
    const right = await seedOf(club.lender);
    const broken = 'lot_correction_of_what_was_lent';
    await expectRefusal(corrected(to, from, right, 999), broken);
    await expectRefusal(corrected(to, from, null, 1000), broken);
    await expectRefusal(corrected(to, from, null, 1001), 'lot_correction_of_an_input');
    await expectRefusal(corrected(to, right, from, 1000), 'lot_correction_of_an_input');
    const borrowers = await seedOf(club.borrower);
    await expectRefusal(corrected(to, from, borrowers, 1000), 'loan_lot_goes_to_borrower');
  });

  test('takes the loan to the right lot, and the mass back to the wrong one', async () => {
    const id = await lent();
    const { from, to } = await lotsOf(id);
    const right = await seedOf(club.lender);
    await corrected(to, from, right, 1000);
    expect(await lotsOf(id)).toEqual({ from: right, to });
    expect(await massesOfLot(from)).toMatchObject({ remaining: 5000, lent: 0 });
    expect(await massesOfLot(right)).toMatchObject({ remaining: 4000, lent: 1000 });
    expect(await massesOfLot(to)).toMatchObject({ initial: 1000, remaining: 1000, input: 1000 });
  });

  test('leaves so much less lent, never less than was given back or used', async () => {
    const id = await lent();
    const { from, to } = await lotsOf(id);
    await givenBack(id, 600);
    const beyond = 'loan_returned_and_forgiven_within_lent';
    await expectRefusal(corrected(to, from, null, 401), beyond);
    await insert('lot_movement', {
      club_id: club.clubId,
      lot_id: to,
      kind: 'lost',
      mass_g: 800,
      at: '2027-01-02',
      recorded_by_id: club.borrower,
    });
    await expectRefusal(corrected(to, from, null, 201), 'lot_not_overdrawn');
    await corrected(to, from, null, 150);
    expect(await massesOfLot(to)).toMatchObject({ initial: 850, remaining: 50, input: 850 });
    expect(await massesOfLot(from)).toMatchObject({ remaining: 4150, lent: 850 });
    expect(await massesOf(id)).toEqual({ state: 'lent', returned: 600, forgiven: 0 });
  });

  test('settles the loan when just as much was given back, and is none of a settled loan', async () => {
    const id = await lent();
    const { from, to } = await lotsOf(id);
    await givenBack(id, 600);
    await corrected(to, from, null, 400);
    expect(await massesOf(id)).toEqual({ state: 'returned', returned: 600, forgiven: 0 });
    await expectRefusal(corrected(to, from, null, 1), 'loan_returned_and_forgiven_within_lent');
    const right = await seedOf(club.lender);
    await corrected(to, from, right, 600);
    expect(await lotsOf(id)).toEqual({ from: right, to });
  });

  test('is none of what was given back', async () => {
    const borrowers = await seedOf(club.borrower);
    const back = await passed(borrowers, club.lender, 100);
    await givenBack(await lent(), 100, { from_lot_id: borrowers, to_lot_id: back });
    const other = await seedOf(club.borrower);
    await expectRefusal(corrected(back, borrowers, other, 100), 'lot_correction_of_an_input');
  });
});

describe('what is given back', () => {
  test('pays the loan down, part by part, to its end', async () => {
    const id = await lent();
    await givenBack(id, 400);
    expect(await massesOf(id)).toEqual({ state: 'lent', returned: 400, forgiven: 0 });
    await expectRefusal(givenBack(id, 601), 'loan_returned_and_forgiven_within_lent');
    await givenBack(id, 600);
    expect(await massesOf(id)).toEqual({ state: 'returned', returned: 1000, forgiven: 0 });
    await expectRefusal(givenBack(id, 1), 'loan_once_over_is_over');
  });

  test('goes from the borrower to the lender, to the gram', async () => {
    const id = await lent();
    const borrowers = await seedOf(club.borrower);
    const lenders = await seedOf(club.lender);
    const wrong = 'loan_return_goes_to_lender';
    for (const [from_lot_id, to_lot_id] of [
      [lenders, await passed(lenders, club.lender, 100)],
      [borrowers, await passed(borrowers, club.borrower, 100)],
      [borrowers, await passed(borrowers, club.lender, 99)],
      [borrowers, await passed(borrowers, club.lender, 100, 'used')],
      [borrowers, lenders],
    ]) {
      await expectRefusal(givenBack(id, 100, { from_lot_id, to_lot_id }), wrong);
    }
    expect(await massesOf(id)).toEqual({ state: 'lent', returned: 0, forgiven: 0 });
  });

  test('has mass, comes after the lending, and for what was handed over', async () => {
    await expectRefusal(givenBack(await lent(), 100, { mass_g: 0 }), 'loan_return_has_mass');
    await expectRefusal(
      givenBack(await lent(), 100, { at: '2026-12-31T23:59:59Z' }),
      'loan_return_after_lending',
    );
    const asked = await loan({ state: 'asked' });
    await expectRefusal(givenBack(asked, 100), 'loan_state_tells_what_is_owed');
  });

  test('is one lot, once', async () => {
    const id = await lent();
    const from_lot_id = await seedOf(club.borrower);
    const lots = { from_lot_id, to_lot_id: await passed(from_lot_id, club.lender, 100) };
    await givenBack(id, 100, lots);
    await expectRefusal(givenBack(id, 100, lots), 'loan_return_club_id_to_lot_id_key');
  });

  test('is history: rows are only ever added', async () => {
    await givenBack(await lent(), 100);
    for (const change of [
      'update loan_return set mass_g = 1',
      'delete from loan_return',
      'truncate loan_return cascade',
    ]) {
      await expectRefusal(database.query(change), 'loan_return_is_history');
    }
  });
});
