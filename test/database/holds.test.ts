import { seededRandom } from '../../src/core/random';
import { aDatabase, type TestDatabase } from '../support/database';
import { breaches } from '../support/checker';

// Each promise of the migrations about holds, corrections and drills, by the name of its constraint, in plain SQL.

let database: TestDatabase;
let clubId: string;
let memberId: string;

beforeAll(async () => {
  database = await aDatabase();
});
afterAll(() => database.drop());
beforeEach(async () => {
  const [row] = await database.query<{ clubId: string; memberId: string }>(`
    with c as (insert into club (name, time_zone) values ('c', 'UTC') returning id),
    p as (insert into person (name, email, password_hash) values ('p', gen_random_uuid() || '@example.org', '') returning id),
    m as (insert into member (club_id, person_id, role) select c.id, p.id, 'member' from c, p returning id)
    select c.id as "clubId", m.id as "memberId" from c, m`);
  ({ clubId, memberId } = row!);
});

async function insert(table: string, row: Record<string, unknown>): Promise<string> {
  const columns = Object.keys(row);
  const [made] = await database.query<{ id: string }>(
    `insert into ${table} (${columns.join(', ')}) values (${columns.map((_, index) => `$${index + 1}`).join(', ')}) returning *`,
    Object.values(row),
  );
  return made!.id;
}

async function expectRefusal(work: Promise<unknown>, constraint: string): Promise<void> {
  await expect(work).rejects.toMatchObject({ constraint });
}

function aLot(massG = 10_000): Promise<string> {
  return insert('lot', {
    club_id: clubId,
    kind: 'seed',
    name: 'lot',
    holder_id: memberId,
    initial_mass_g: massG,
    remaining_mass_g: massG,
  });
}

/** A lot of 1000 g made of so much of each of those; the rest was lost. */
async function aMadeLot(
  inputs: [parentId: string, massG: number][],
  massG = 1000,
): Promise<string> {
  const [row] = await database.query<{ id: string }>(
    `with wanted as (select (w ->> 0)::uuid as id, (w ->> 1)::int as mass_g from jsonb_array_elements($3) w),
     parents as (select l.id, l.depth, w.mass_g from wanted w join lot l on l.id = w.id),
     made as (
       insert into lot (club_id, kind, name, holder_id, initial_mass_g, remaining_mass_g, input_mass_g, depth)
       select $1, 'creamed', 'made', $2, $4, $4, sum(mass_g), max(depth) + 1 from parents returning *
     ), filed as (
       insert into lot_input (club_id, child_id, parent_id, mass_g, child_input_mass_g, child_depth, parent_depth, at, recorded_by_id)
       select $1, made.id, p.id, p.mass_g, made.input_mass_g, made.depth, p.depth, '2027-01-01', $2 from made, parents p
     ) select id from made`,
    [clubId, memberId, JSON.stringify(inputs), massG],
  );
  return row!.id;
}

function aMovement(lotId: string, change: Record<string, unknown> = {}): Promise<string> {
  return insert('lot_movement', {
    club_id: clubId,
    lot_id: lotId,
    kind: 'lost',
    mass_g: 1,
    at: '2027-02-01T00:00:00Z',
    recorded_by_id: memberId,
    ...change,
  });
}

function aHold(lotId: string, change: Record<string, unknown> = {}): Promise<string> {
  return insert('hold', {
    club_id: clubId,
    lot_id: lotId,
    reason: 'Vinegar',
    placed_by_id: memberId,
    ...change,
  });
}

function aBranchRelease(holdId: string, lotId: string): Promise<string> {
  return insert('branch_release', {
    club_id: clubId,
    hold_id: holdId,
    lot_id: lotId,
    because: 'Good',
    evidence: 'Tested',
    released_by_id: memberId,
  });
}

function release(holdId: string): Promise<unknown> {
  return database.query(`update hold set released_at = now(), released_by_id = $2 where id = $1`, [
    holdId,
    memberId,
  ]);
}

function aCorrection(
  childId: string,
  wrongId: string,
  rightId: string | null,
  massG: number,
): Promise<string> {
  return insert('lot_correction', {
    club_id: clubId,
    child_id: childId,
    wrong_parent_id: wrongId,
    right_parent_id: rightId,
    mass_g: massG,
    because: 'Mixed up',
    recorded_by_id: memberId,
  });
}

async function row(table: string, id: string): Promise<Record<string, unknown>> {
  return (await database.query(`select * from ${table} where id = $1`, [id]))[0]!;
}

describe('a hold', () => {
  test('stops what leaves the lot and all made of it, and nothing else', async () => {
    const [seed, other] = [await aLot(), await aLot()];
    const child = await aMadeLot([[seed, 1000]]);
    const grandchild = await aMadeLot([
      [child, 500],
      [other, 600],
    ]);
    const hold = await aHold(seed);

    for (const lot of [seed, child, grandchild]) {
      await expectRefusal(aMovement(lot), 'lot_movement_not_on_hold');
    }
    await expectRefusal(aMadeLot([[grandchild, 100]], 100), 'lot_movement_not_on_hold');
    await aMovement(other);
    await release(hold);
    await aMovement(grandchild);
  });

  test('lets go what only released branches lead to', async () => {
    const seed = await aLot();
    const [left, right] = [await aMadeLot([[seed, 1000]]), await aMadeLot([[seed, 1000]])];
    const both = await aMadeLot([
      [left, 500],
      [right, 500],
    ]);
    const hold = await aHold(seed);

    await aBranchRelease(hold, left);
    await aMovement(left);
    await expectRefusal(aMovement(both), 'lot_movement_not_on_hold');
    await aBranchRelease(hold, right);
    await aMovement(both);
    await expectRefusal(aMovement(seed), 'lot_movement_not_on_hold');
  });

  test('starts open, is only ever released, once, by somebody, and stays', async () => {
    const seed = await aLot();
    await expectRefusal(
      aHold(seed, { released_at: '2027-01-01', released_by_id: memberId }),
      'hold_starts_open',
    );
    const hold = await aHold(seed);
    const change = (what: string) => database.query(`update hold set ${what} where id = '${hold}'`);
    await expectRefusal(change(`reason = 'Other'`), 'hold_only_released');
    await expectRefusal(change(`released_at = now()`), 'hold_released_by_somebody');
    await release(hold);
    await expectRefusal(release(hold), 'hold_only_released');
    await expectRefusal(change(`released_at = null, released_by_id = null`), 'hold_only_released');
    await expectRefusal(database.query(`delete from hold`), 'hold_is_history');
    await expectRefusal(database.query(`truncate hold cascade`), 'hold_is_history');
  });

  test('has branches released of lots that it reaches alone, while it is open', async () => {
    const [seed, other] = [await aLot(), await aLot()];
    const child = await aMadeLot([[seed, 1000]]);
    const hold = await aHold(seed);
    for (const lot of [seed, other]) {
      await expectRefusal(aBranchRelease(hold, lot), 'branch_release_of_reached_lot');
    }
    await aBranchRelease(hold, child);
    await expectRefusal(aBranchRelease(hold, child), 'branch_release_of_reached_lot');
    await expectRefusal(
      database.query(`update branch_release set because = 'x'`),
      'branch_release_is_history',
    );
    const second = await aHold(child);
    await release(second);
    await expectRefusal(aBranchRelease(second, child), 'branch_release_of_reached_lot');
  });
});

describe('a correction', () => {
  test('puts the mass back, takes it from the right lot, and mends the input', async () => {
    const [wrong, right] = [await aLot(), await aLot()];
    const child = await aMadeLot([[wrong, 1000]]);

    const correction = await aCorrection(child, wrong, right, 400);

    expect(await row('lot', wrong)).toMatchObject({ remaining_mass_g: 9400, used_mass_g: 600 });
    expect(await row('lot', right)).toMatchObject({ remaining_mass_g: 9600, used_mass_g: 400 });
    const moved = await database.query(
      `select lot_id, mass_g, correction_id from lot_movement where into_lot_id = $1 order by id`,
      [child],
    );
    expect(moved).toEqual([
      { lot_id: wrong, mass_g: 1000, correction_id: null },
      { lot_id: wrong, mass_g: -400, correction_id: correction },
      { lot_id: right, mass_g: 400, correction_id: correction },
    ]);
    const inputs = await database.query(
      `select parent_id, mass_g from lot_input where child_id = $1 order by mass_g`,
      [child],
    );
    expect(inputs).toEqual([
      { parent_id: right, mass_g: 400 },
      { parent_id: wrong, mass_g: 600 },
    ]);
  });

  test('is of an input, of no more than it, and changes something', async () => {
    const [wrong, right] = [await aLot(), await aLot()];
    const child = await aMadeLot([[wrong, 1000]]);
    await expectRefusal(aCorrection(child, wrong, right, 1001), 'lot_correction_of_an_input');
    await expectRefusal(aCorrection(child, right, wrong, 1), 'lot_correction_of_an_input');
    await expectRefusal(aCorrection(child, wrong, right, 0), 'lot_correction_has_mass');
    await expectRefusal(aCorrection(child, wrong, wrong, 1), 'lot_correction_changes_something');
  });

  test('draws no lot below nothing, and leaves no lot with less in it than its mass', async () => {
    const [wrong, right] = [await aLot(), await aLot(300)];
    const child = await aMadeLot([[wrong, 1100]]);
    await expectRefusal(aCorrection(child, wrong, right, 301), 'lot_not_overdrawn');
    await expectRefusal(aCorrection(child, wrong, null, 101), 'lot_made_of_no_less_than_its_mass');
    await aCorrection(child, wrong, null, 100);
    expect(await row('lot', child)).toMatchObject({ input_mass_g: 1000, depth: 1 });
    await aCorrection(child, wrong, null, 1000);
    expect(await row('lot', child)).toMatchObject({ input_mass_g: 0, depth: 0 });
  });

  test('makes no lot its own ancestor', async () => {
    const seed = await aLot();
    const child = await aMadeLot([[seed, 1000]]);
    const grandchild = await aMadeLot([[child, 1000]]);
    await expectRefusal(aCorrection(child, seed, grandchild, 100), 'lot_input_never_circles');
    await expectRefusal(aCorrection(child, seed, child, 100), 'lot_input_never_circles');
  });

  test('is the only way to mend an input, and stays', async () => {
    const seed = await aLot();
    const child = await aMadeLot([[seed, 1000]]);
    await expectRefusal(database.query(`update lot_input set mass_g = 1`), 'lot_input_is_history');
    await expectRefusal(database.query(`delete from lot_input`), 'lot_input_is_history');
    await expectRefusal(
      database.query(`update lot set depth = 5 where id = $1`, [child]),
      'lot_masses_by_movement_only',
    );
    await expectRefusal(aMovement(seed, { mass_g: -1 }), 'lot_movement_has_mass');
    const correction = await aCorrection(child, seed, await aLot(), 10);
    await expectRefusal(
      aMovement(seed, { mass_g: -1, correction_id: correction }),
      'lot_movement_corrects_an_input',
    );
    await expectRefusal(
      aMovement(seed, { mass_g: -1, correction_id: correction, into_lot_id: child, kind: 'used' }),
      'lot_movement_into_lot_by_input_only',
    );
    for (const change of ['update lot_correction set mass_g = 1', 'delete from lot_correction']) {
      await expectRefusal(database.query(change), 'lot_correction_is_history');
    }
  });

  test('after five hundred of them at random every lot lies as deep as its inputs say, and no ledger is open', async () => {
    const random = seededRandom(11);
    const below = (count: number) => Math.floor(random() * count);
    const lots = await Promise.all(Array.from({ length: 6 }, () => aLot(1_000_000)));
    for (let made = 0; made < 60; made++) {
      const inputs = new Map([
        [lots[below(lots.length)]!, 2_000],
        [lots.at(-1 - below(4))!, 2_000],
        [lots[below(6)]!, 20_000],
      ]);
      const massG = [...inputs.values()].reduce((sum, one) => sum + one, 0);
      lots.push(await aMadeLot([...inputs], massG));
    }
    const outcomes: Record<string, number> = {};
    for (let count = 0; count < 500; count++) {
      const inputs = await database.query<{ child: string; parent: string; massG: number }>(
        `select child_id as child, parent_id as parent, mass_g as "massG" from lot_input where club_id = $1
         order by child_id, parent_id`,
        [clubId],
      );
      const { child, parent, massG } = inputs[below(inputs.length)]!;
      const massOf = below(2) === 0 ? massG : 1 + below(massG);
      const outcome = await aCorrection(child, parent, lots[below(lots.length)]!, massOf).then(
        () => 'mended',
        (error: unknown) => (error as { constraint?: string }).constraint ?? String(error),
      );
      outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
    }

    expect(Object.keys(outcomes).sort()).toEqual([
      'lot_correction_changes_something',
      'lot_input_never_circles',
      'lot_not_overdrawn',
      'mended',
    ]);
    expect(outcomes['mended']).toBeGreaterThan(100);
    const depths = await database.query<{ id: string; depth: number }>(
      `select id, depth from lot where club_id = $1`,
      [clubId],
    );
    const edges = await database.query<{ child: string; parent: string }>(
      `select child_id as child, parent_id as parent from lot_input where club_id = $1`,
      [clubId],
    );
    const known = new Map<string, number>();
    const longest = (id: string): number => {
      const parents = edges.filter(({ child }) => child === id);
      const steps =
        known.get(id) ?? Math.max(0, ...parents.map(({ parent }) => 1 + longest(parent)));
      known.set(id, steps);
      return steps;
    };
    expect(depths.filter(({ id, depth }) => depth !== longest(id))).toEqual([]);
    expect(await breaches(database)).toEqual([]);
  });
});

describe('a drill', () => {
  const aDrill = (lotId: string, change: Record<string, unknown> = {}) =>
    insert('recall_drill', {
      club_id: clubId,
      lot_id: lotId,
      run_by_id: memberId,
      duration_ms: 5,
      lots: 1,
      holders: 1,
      found_g: 10,
      sought_g: 10,
      in_lots_g: 4,
      potted_g: 3,
      withdrawn_g: 2,
      lost_g: 1,
      ...change,
    });

  test('adds up, counts from nothing, and stays', async () => {
    const lot = await aLot();
    await expectRefusal(aDrill(lot, { found_g: 11 }), 'recall_drill_adds_up');
    await expectRefusal(
      aDrill(lot, { in_lots_g: -4, found_g: 2 }),
      'recall_drill_counts_from_nothing',
    );
    await aDrill(lot);
    await expectRefusal(database.query(`delete from recall_drill`), 'recall_drill_is_history');
  });
});
