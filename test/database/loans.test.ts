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
