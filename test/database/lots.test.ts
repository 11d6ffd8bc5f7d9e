import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { projectFolder } from '../../src/platform/project-folder';
import { aDatabase, type TestDatabase } from '../support/database';

// Each promise of the migrations about lots, lineage, batches and history, by the name of its constraint, in plain SQL.

let database: TestDatabase;
let club: { clubId: string; memberId: string; otherMemberId: string };

beforeAll(async () => {
  database = await aDatabase();
});
afterAll(() => database.drop());
beforeEach(async () => {
  club = await aClub();
});

async function aClub() {
  const [row] = await database.query<typeof club>(`
    with c as (insert into club (name, time_zone) values ('c', 'UTC') returning id),
    p as (insert into person (name, email, password_hash)
      values ('p', gen_random_uuid() || '@example.org', ''), ('q', gen_random_uuid() || '@example.org', '') returning id),
    m as (insert into member (club_id, person_id, role) select c.id, p.id, 'member' from c, p returning id)
    select c.id as "clubId", min(m.id::text) as "memberId", max(m.id::text) as "otherMemberId" from c, m group by c.id`);
  return row!;
}

const wholeLot = {
  kind: 'honey',
  initial_mass_g: 1000,
  remaining_mass_g: 1000,
  used_mass_g: 0,
  lent_mass_g: 0,
  potted_mass_g: 0,
  lost_mass_g: 0,
  input_mass_g: 0,
  depth: 0,
  moisture_centi_percent: null as number | null,
  batch_id: null as string | null,
};

/** Inserts a row of those columns and answers its id, where it has one. */
async function insert(table: string, row: Record<string, unknown>): Promise<string> {
  const columns = Object.keys(row);
  const [made] = await database.query<{ id: string }>(
    `insert into ${table} (${columns.join(', ')}) values (${columns.map((_, index) => `$${index + 1}`).join(', ')}) returning *`,
    Object.values(row),
  );
  return made!.id;
}

async function aLot(change: Partial<typeof wholeLot> = {}): Promise<string> {
  const lot = { club_id: club.clubId, name: 'lot', holder_id: club.memberId };
  return insert('lot', { ...lot, ...wholeLot, ...change });
}

async function aMovement(lotId: string, change: Record<string, unknown> = {}): Promise<string> {
  return insert('lot_movement', {
    club_id: club.clubId,
    lot_id: lotId,
    kind: 'used',
    mass_g: 100,
    at: '2027-01-01T00:00:00Z',
    recorded_by_id: club.memberId,
    ...change,
  });
}

interface Input {
  parentId: string;
  massG: number;
  parentDepth?: number;
  kind?: string;
}

/** A lot made of others, in one statement: its id. */
async function aMadeLot(inputs: Input[], { inputMassG = 500, depth = 1 } = {}): Promise<string> {
  const [row] = await database.query<{ id: string }>(
    `with made as (
       insert into lot (club_id, kind, name, holder_id, initial_mass_g, remaining_mass_g, input_mass_g, depth)
       values ($1, 'creamed', 'made', $2, 500, 500, $3, $4) returning id
     ), inputs as (
       insert into lot_input (club_id, child_id, parent_id, mass_g, kind, child_input_mass_g, child_depth, parent_depth, at, recorded_by_id)
       select $1, made.id, i."parentId", i."massG", coalesce(i.kind, 'used')::movement_kind, $3, $4, coalesce(i."parentDepth", 0), now(), $2
       from made, json_to_recordset($5::json) as i("parentId" uuid, "massG" int, "parentDepth" int, kind text)
     ) select id from made`,
    [club.clubId, club.memberId, inputMassG, depth, JSON.stringify(inputs)],
  );
  return row!.id;
}

async function aBatch(): Promise<string> {
  return insert('batch', { club_id: club.clubId, name: 'batch', member_id: club.memberId });
}

async function massesOf(lotId: string) {
  const [row] = await database.query(
    `select remaining_mass_g as remaining, used_mass_g as used, lent_mass_g as lent, potted_mass_g as potted, lost_mass_g as lost
     from lot where id = $1`,
    [lotId],
  );
  return row;
}

async function expectRefusal(work: Promise<unknown>, constraint: string): Promise<void> {
  await expect(work).rejects.toMatchObject({ constraint });
}

describe('a lot', () => {
  test.each<[string, Partial<typeof wholeLot>, string]>([
    ['closes to the gram', { used_mass_g: 1 }, 'lot_ledger_closes'],
    ['has no negative mass', { used_mass_g: -1, lost_mass_g: 1 }, 'lot_masses_not_negative'],
    ['starts whole', { remaining_mass_g: 900, used_mass_g: 100 }, 'lot_starts_whole'],
    ['has mass', { initial_mass_g: 0, remaining_mass_g: 0 }, 'lot_has_mass'],
    ['is no wetter than water', { moisture_centi_percent: 10_001 }, 'lot_moisture_possible'],
    ['has no negative depth', { depth: -1 }, 'lot_depth_not_negative'],
    ['of depth 0 has no inputs', { input_mass_g: 1000 }, 'lot_made_of_no_less_than_its_mass'],
    [
      'is made of no less than its mass',
      { depth: 1, input_mass_g: 999 },
      'lot_made_of_no_less_than_its_mass',
    ],
  ])('%s', async (_, change, constraint) => {
    await expectRefusal(aLot(change), constraint);
  });

  test('has its masses changed by movements alone', async () => {
    const id = await aLot();
    const change = (set: string) => database.query(`update lot set ${set} where id = $1`, [id]);

    for (const set of [
      'remaining_mass_g = 900, used_mass_g = 100',
      'initial_mass_g = 1100, remaining_mass_g = 1100',
      'depth = 3',
      'input_mass_g = 5',
    ]) {
      await expectRefusal(change(set), 'lot_masses_by_movement_only');
    }
    await change(`name = 'other', note = 'renamed'`);

    expect(await massesOf(id)).toMatchObject({ remaining: 1000 });
  });

  test('is drawn down by each movement, by its kind', async () => {
    const id = await aLot();

    for (const [kind, mass_g] of Object.entries({ used: 100, potted: 200, lost: 30, lent: 4 })) {
      await aMovement(id, { kind, mass_g });
    }

    expect(await massesOf(id)).toEqual({
      remaining: 666,
      used: 100,
      potted: 200,
      lost: 30,
      lent: 4,
    });
  });

  test('is not overdrawn', async () => {
    const id = await aLot();

    await expectRefusal(aMovement(id, { mass_g: 1001 }), 'lot_not_overdrawn');
    await aMovement(id, { mass_g: 1000 });
    await expectRefusal(aMovement(id, { mass_g: 1 }), 'lot_not_overdrawn');

    expect(await massesOf(id)).toMatchObject({ remaining: 0, used: 1000 });
  });

  test('is not overdrawn by twenty who take half of it at once', async () => {
    const id = await aLot();

    const taken = await Promise.allSettled(
      Array.from({ length: 20 }, () => aMovement(id, { mass_g: 500 })),
    );

    expect(taken.filter(({ status }) => status === 'fulfilled')).toHaveLength(2);
  });

  test('has shares above nothing and up to all of it', async () => {
    const lotId = await aLot();
    const floralSourceId = await insert('floral_source', {
      club_id: club.clubId,
      name: 'Rape',
      grain: 'fine',
      sets: true,
    });
    const share = { club_id: club.clubId, lot_id: lotId };

    for (const centi_percent of [0, 10_001]) {
      await expectRefusal(
        insert('lot_floral_share', { ...share, floral_source_id: floralSourceId, centi_percent }),
        'lot_floral_share_possible',
      );
      await expectRefusal(
        insert('lot_origin_share', { ...share, country_code: 'AT', centi_percent }),
        'lot_origin_share_possible',
      );
    }
  });
});

describe('a movement', () => {
  test('has mass', async () => {
    const id = await aLot();

    await expectRefusal(aMovement(id, { mass_g: 0 }), 'lot_movement_has_mass');
    await expectRefusal(aMovement(id, { mass_g: -5 }), 'lot_movement_has_mass');
  });

  test('into a lot is filed with its input alone', async () => {
    const [from, into] = [await aLot(), await aLot()];

    await expectRefusal(
      aMovement(from, { into_lot_id: into }),
      'lot_movement_into_lot_by_input_only',
    );
  });

  test('into a lot is a use or a loan', async () => {
    const [from, into] = [await aLot(), await aLot()];

    // The promise before this one would stop it; without it, in a transaction that fails, this one does.
    await expectRefusal(
      database.query(`
        alter table lot_movement disable trigger lot_movement_into_lot_by_input_only;
        insert into lot_movement (club_id, lot_id, kind, mass_g, into_lot_id, at, recorded_by_id)
        values ('${club.clubId}', '${from}', 'potted', 1, '${into}', now(), '${club.memberId}')`),
      'lot_movement_into_a_lot',
    );
    await expectRefusal(
      aMovement(from, { into_lot_id: into }),
      'lot_movement_into_lot_by_input_only',
    );
  });
});

describe('what goes into a lot', () => {
  test('leaves its parent, and the movement says where to', async () => {
    const parentId = await aLot();

    const childId = await aMadeLot([{ parentId, massG: 500 }]);

    expect(await massesOf(parentId)).toMatchObject({ remaining: 500, used: 500 });
    const movements = await database.query('select * from lot_movement where lot_id = $1', [
      parentId,
    ]);
    expect(movements).toMatchObject([{ kind: 'used', mass_g: 500, into_lot_id: childId }]);
  });

  test('made something that nothing leaves before it was made', async () => {
    const parentId = await aLot();
    const childId = await aMadeLot([{ parentId, massG: 500 }]);

    await expectRefusal(
      aMovement(childId, { at: '2020-01-01T00:00:00Z' }),
      'lot_movement_after_lot_was_made',
    );
    await aMovement(childId, { at: '2098-01-01T00:00:00Z' });
    await aMovement(parentId, { at: '2020-01-01T00:00:00Z' });
  });

  test('as a loan is lent, not used', async () => {
    const parentId = await aLot();

    await aMadeLot([{ parentId, massG: 500, kind: 'lent' }]);

    expect(await massesOf(parentId)).toMatchObject({ remaining: 500, used: 0, lent: 500 });
  });

  test('is no more than its parent has', async () => {
    const parentId = await aLot();

    await expectRefusal(
      aMadeLot([{ parentId, massG: 1001 }], { inputMassG: 1001 }),
      'lot_not_overdrawn',
    );
  });

  test('has mass, and is used or lent', async () => {
    const parentId = await aLot();

    await expectRefusal(aMadeLot([{ parentId, massG: 0 }]), 'lot_input_has_mass');
    await expectRefusal(aMadeLot([{ parentId, massG: 500, kind: 'potted' }]), 'lot_input_kind');
  });

  test('adds up to what was declared when the lot was made', async () => {
    const parentId = await aLot();

    await expectRefusal(aMadeLot([{ parentId, massG: 499 }]), 'lot_inputs_add_up');
    await expectRefusal(aMadeLot([]), 'lot_inputs_add_up');
    await expectRefusal(aMadeLot([{ parentId, massG: 500 }], { depth: 2 }), 'lot_inputs_add_up');

    expect(await massesOf(parentId)).toMatchObject({ remaining: 1000 });
  });

  test('cannot be added to later', async () => {
    const [first, second] = [await aLot(), await aLot()];
    const childId = await aMadeLot([{ parentId: first, massG: 500 }]);

    await expectRefusal(
      insert('lot_input', {
        club_id: club.clubId,
        child_id: childId,
        parent_id: second,
        mass_g: 1,
        child_input_mass_g: 500,
        child_depth: 1,
        parent_depth: 0,
        at: '2027-01-01T00:00:00Z',
        recorded_by_id: club.memberId,
      }),
      'lot_inputs_add_up',
    );
  });

  test('lies less deep, so that no lot is its own ancestor', async () => {
    const parentId = await aLot();
    const childId = await aMadeLot([{ parentId, massG: 500 }]);
    const circle = (child_depth: number, parent_depth: number) =>
      insert('lot_input', {
        club_id: club.clubId,
        child_id: parentId,
        parent_id: childId,
        mass_g: 1,
        child_input_mass_g: 0,
        child_depth,
        parent_depth,
        at: '2027-01-01T00:00:00Z',
        recorded_by_id: club.memberId,
      });

    await expectRefusal(circle(0, 1), 'lot_input_never_circles');
    await expectRefusal(circle(1, 1), 'lot_input_never_circles');
    // A depth that is not the lot's own.
    await expectRefusal(
      circle(2, 1),
      'lot_input_club_id_child_id_child_depth_child_input_mass_g_fkey',
    );
    await expectRefusal(
      aMadeLot([{ parentId: childId, massG: 500, parentDepth: 0 }]),
      'lot_input_club_id_parent_id_parent_depth_fkey',
    );
  });

  test('stays inside the club', async () => {
    const foreignId = await aLot();
    club = await aClub();

    await expectRefusal(
      aMadeLot([{ parentId: foreignId, massG: 500 }]),
      'lot_input_club_id_parent_id_parent_depth_fkey',
    );
  });
});

describe('a batch', () => {
  test('is meant to get honey that has mass', async () => {
    const row = { club_id: club.clubId, batch_id: await aBatch(), lot_id: await aLot() };

    await expectRefusal(insert('batch_honey', { ...row, mass_g: 0 }), 'batch_honey_has_mass');
  });

  test('fills pots that hold something', async () => {
    const row = { club_id: club.clubId, batch_id: await aBatch() };

    for (const [net_mass_g, count] of [
      [0, 1],
      [500, 0],
    ]) {
      await expectRefusal(
        insert('batch_pots', { ...row, net_mass_g, count }),
        'batch_pots_counted',
      );
    }
  });

  test('makes one creamed lot', async () => {
    const batch_id = await aBatch();
    await aLot({ kind: 'creamed', batch_id });
    await aLot({ kind: 'seed', batch_id });

    await expectRefusal(aLot({ kind: 'creamed', batch_id }), 'lot_creamed_once');
    await aLot({ kind: 'creamed' });
    await aLot({ kind: 'creamed' });
  });

  test('has each step done once', async () => {
    const step = {
      club_id: club.clubId,
      batch_id: await aBatch(),
      kind: 'seeded',
      at: '2027-01-01T00:00:00Z',
      recorded_by_id: club.memberId,
    };
    await insert('batch_step', step);

    await expectRefusal(insert('batch_step', step), 'batch_step_club_id_batch_id_kind_key');
  });
});

describe('a setting check', () => {
  async function aCheck(): Promise<string> {
    return insert('setting_check', {
      club_id: club.clubId,
      batch_id: await aBatch(),
      at: '2027-01-01T00:00:00Z',
      state: 'liquid',
      checked_by_id: club.memberId,
    });
  }

  const strike = (id: string, member: string | null) =>
    database.query(
      `update setting_check set struck_at = now(), struck_by_id = $2, struck_because = 'slip' where id = $1`,
      [id, member],
    );

  test('can be struck out once, by somebody, and changes in nothing else', async () => {
    const id = await aCheck();

    await expectRefusal(
      database.query(`update setting_check set state = 'set' where id = $1`, [id]),
      'setting_check_only_struck_out',
    );
    await expectRefusal(strike(id, null), 'setting_check_struck_by_somebody');
    await strike(id, club.memberId);
    await expectRefusal(strike(id, club.otherMemberId), 'setting_check_only_struck_out');
  });

  test('stays, struck out or not', async () => {
    const id = await aCheck();
    await strike(id, club.memberId);

    await expectRefusal(
      database.query('delete from setting_check where id = $1', [id]),
      'setting_check_is_history',
    );
    await expectRefusal(
      database.query('truncate setting_check cascade'),
      'setting_check_is_history',
    );
  });
});

describe('history', () => {
  test.each(['lot_movement', 'lot_input', 'audit_entry'])(
    'of %s is only ever added to',
    async (table) => {
      await aMadeLot([{ parentId: await aLot(), massG: 500 }]);
      await insert('audit_entry', {
        club_id: club.clubId,
        person_id: club.memberId,
        request_id: 'r',
        action: 'lot.changed',
        subject_id: club.memberId,
      });
      const change = table === 'audit_entry' ? `action = 'other'` : 'mass_g = 1';
      const [before] = await database.query(`select count(*) from ${table}`);

      await expectRefusal(database.query(`update ${table} set ${change}`), `${table}_is_history`);
      await expectRefusal(database.query(`delete from ${table}`), `${table}_is_history`);
      await expectRefusal(database.query(`truncate ${table} cascade`), `${table}_is_history`);

      expect(await database.query(`select count(*) from ${table}`)).toEqual([before]);
    },
  );

  test('a lot that something was made of cannot be taken away', async () => {
    const parentId = await aLot();
    await aMadeLot([{ parentId, massG: 500 }]);

    const removal = database.query('delete from lot where id = $1', [parentId]);

    await expect(removal).rejects.toMatchObject({ code: expect.stringMatching(/^23/) });
  });
});

describe('lot codes', () => {
  test('lot_code_checks: a code whose check character does not go with it is refused', async () => {
    for (const code of ['K7MR42R', 'K7MR42', 'k7mr486', 'K7MR4O2', '']) {
      await expect(aLot({ code } as never)).rejects.toThrow(/"lot_code_checks"/);
    }
  });

  test('lot_code_stays: what stands on paper never changes', async () => {
    const id = await aLot();
    await expect(
      database.query('update lot set code = new_lot_code() where id = $1', [id]),
    ).rejects.toThrow(/"lot_code_stays"/);
  });

  test('lot_code_is_free: a lot that draws a code of the club draws again', async () => {
    const [taken] = await database.query<{ code: string }>('select code from lot where id = $1', [
      await aLot(),
    ]);
    const id = await aLot({ code: taken!.code } as never);
    const [lot] = await database.query<{ code: string }>('select code from lot where id = $1', [
      id,
    ]);
    expect(lot!.code).not.toBe(taken!.code);
  });

  test('the check character is that of ISO/IEC 7064, MOD 37-2, also where no lot has it', async () => {
    const [row] = await database.query(
      `select lot_code_check_character('G123489654321') as y, lot_code_check_character('A999915000001') as m,
         lot_code_check_character('LMOSBYFCTRSSJCB3X6U9DUBLKNIH03FO6X963TGXYAHG') as star`,
    );
    expect(row).toEqual({ y: 'Y', m: 'M', star: '*' });
  });
});

test.each([
  ['label_settings_single_source_possible', { single_source_centi_percent: 0 }],
  ['label_settings_best_before_sensible', { best_before_months: 0 }],
  ['label_settings_quantity_height', { quantity_height_tenth_mm: 39 }],
])('%s', async (name, change) => {
  await expect(insert('label_settings', { club_id: club.clubId, ...change })).rejects.toThrow(
    new RegExp(`"${name}"`),
  );
});

test('lots that were there before there were codes got one each, and of one club no two the same', async () => {
  const other = await aDatabase();
  const folder = path.join(projectFolder, 'prisma', 'migrations');
  const name = readdirSync(folder).find((migration) => migration.endsWith('_lot_marks'))!;
  const sql = readFileSync(path.join(folder, name, 'migration.sql'), 'utf8');
  const addColumn = /ALTER TABLE "lot" ADD COLUMN[^;]*;/.exec(sql)![0];
  const drawAgain = /do \$\$[\s\S]*?end \$\$;/.exec(sql)![0];
  await other.query('drop trigger lot_code_is_free on lot');
  await other.query('drop trigger lot_code_stays on lot');
  await other.query('alter table lot drop column code cascade');
  await other.query(`
    with c as (insert into club (name, time_zone) values ('c', 'UTC'), ('d', 'UTC') returning id),
    p as (insert into person (name, email, password_hash) values ('p', 'p@example.org', '') returning id),
    m as (insert into member (club_id, person_id, role) select c.id, p.id, 'member' from c, p returning club_id, id)
    insert into lot (club_id, kind, name, holder_id, initial_mass_g, remaining_mass_g)
    select m.club_id, 'honey', 'lot', m.id, 1000, 1000 from m, generate_series(1, 50)`);

  await other.query(addColumn);
  await other.query(`update lot set code = 'K7MR486'`);
  await other.query(drawAgain);

  const [count] = await other.query(`
    select count(*)::int as lots, count(distinct (club_id, code))::int as codes,
      count(*) filter (where lot_code_check_character(left(code, 6)) = right(code, 1))::int as sound from lot`);
  expect(count).toEqual({ lots: 100, codes: 100, sound: 100 });
  await other.drop();
});
