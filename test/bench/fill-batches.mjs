import pg from 'pg';

/**
 * Batches of one source, three thousand unless said, seeded one after the other and looked at until they had set or until now, written
 * straight into the database. `seededAt` is SQL over n, the batch's number.
 */
export async function fillBatches(
  databaseUrl,
  { clubId, memberId },
  { count = 3000, seededAt = `timestamptz '2024-01-01' + make_interval(hours => n)` } = {},
) {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const run = (sql) =>
    client.query(
      sql.replaceAll(':club', `'${clubId}'::uuid`).replaceAll(':member', `'${memberId}'::uuid`),
    );
  try {
    await run(`create temp table made as
    select n, uuidv7() as batch_id, uuidv7() as honey_id, uuidv7() as seed_id, uuidv7() as creamed_id,
      ${seededAt} as seeded_at, 5 + 9 * abs(sin(n * 12.9898)) as days, 1600 + n % 301 as moisture
    from generate_series(1, ${count}) n`);
    await run(
      `insert into batch (club_id, id, member_id, name) select :club, batch_id, :member, 'Batch ' || n from made`,
    );
    await client.query('begin');
    await run(`insert into lot (club_id, id, kind, name, holder_id, initial_mass_g, remaining_mass_g, moisture_centi_percent, input_mass_g, depth, batch_id)
    select :club, honey_id, 'honey'::lot_kind, 'Honey', :member, 20000, 20000, moisture, 0, 0, null::uuid from made
    union all select :club, seed_id, 'seed', 'Seed', :member, 2000, 2000, null, 0, 0, null from made
    union all select :club, creamed_id, 'creamed', 'Creamed', :member, 22000, 22000, null, 22000, 1, batch_id from made`);
    await run(`insert into lot_input (club_id, child_id, parent_id, mass_g, child_input_mass_g, child_depth, parent_depth, at, recorded_by_id)
    select :club, creamed_id, honey_id, 20000, 22000, 1, 0, seeded_at, :member from made
    union all select :club, creamed_id, seed_id, 2000, 22000, 1, 0, seeded_at, :member from made`);
    await client.query('commit');
    await run(`insert into lot_floral_share (club_id, lot_id, floral_source_id, centi_percent)
    select :club, honey_id, (select id from floral_source where club_id = :club limit 1), 10000 from made`);
    await run(
      `insert into batch_step (club_id, batch_id, kind, at, recorded_at, recorded_by_id) select :club, batch_id, 'seeded', seeded_at, seeded_at, :member from made`,
    );
    await run(`insert into setting_check (club_id, batch_id, at, recorded_at, state, checked_by_id)
    select :club, batch_id, at, at, state, :member from made, lateral (values
      (seeded_at + make_interval(secs => 86400 * (days - 2)), 'liquid'::setting_state),
      (seeded_at + make_interval(secs => 86400 * days), 'set')) looks (at, state)
    where at <= now()`);
    await client.query('analyze');
  } finally {
    await client.end();
  }
}
