import { aDatabase, type TestDatabase } from '../support/database';

// Each promise of the migrations about probes and their readings, by the name of its constraint, in plain SQL.

let database: TestDatabase;
let club: Club;

interface Club {
  clubId: string;
  memberId: string;
  stationId: string;
  batchId: string;
  probeId: string;
}

beforeAll(async () => {
  database = await aDatabase();
});
afterAll(() => database.drop());
beforeEach(async () => {
  club = await aClubWithProbe();
});

async function aClubWithProbe(): Promise<Club> {
  const [row] = await database.query<Club>(`
    with c as (insert into club (name, time_zone) values ('c', 'UTC') returning id),
    p as (insert into person (name, email, password_hash) values ('p', gen_random_uuid() || '@example.org', '') returning id),
    m as (insert into member (club_id, person_id, role) select c.id, p.id, 'member' from c, p returning id),
    s as (insert into station (club_id, name, place_load_g, changeover_minutes) select id, 'cool room', 30000, 60 from c returning id),
    b as (insert into batch (club_id, name, member_id) select c.id, 'lime', m.id from c, m returning id),
    t as (insert into probe (club_id, name) select id, 'top shelf' from c returning id)
    select c.id as "clubId", m.id as "memberId", s.id as "stationId", b.id as "batchId", t.id as "probeId" from c, m, s, b, t`);
  return row!;
}

/** Puts the probe into the station, or the batch; hours count from the start of 2026. */
function place(
  from: number,
  until: number | null,
  { stationId, batchId, probeId }: Partial<Record<keyof Club, string | null>> = {},
) {
  return database.query(
    `insert into probe_placement (club_id, probe_id, station_id, batch_id, starts_at, ends_at) values ($1, $2, $3, $4, $5, $6)`,
    [
      club.clubId,
      probeId ?? club.probeId,
      stationId === undefined ? club.stationId : stationId,
      batchId ?? null,
      hour(from),
      until === null ? null : hour(until),
    ],
  );
}

function read(at: number, temperatureDeciC: number, { probeId, memberId } = club) {
  return database.query(
    `insert into reading (club_id, probe_id, at, temperature_deci_c, recorded_by_id) values ($1, $2, $3, $4, $5)`,
    [club.clubId, probeId, hour(at), temperatureDeciC, memberId],
  );
}

function hour(hours: number): Date {
  return new Date(Date.UTC(2026, 0, 1) + hours * 3_600_000);
}

test('probe_club_id_name_key: two probes of a club have two names', async () => {
  const sql = `insert into probe (club_id, name) values ($1, 'top shelf')`;
  await expect(database.query(sql, [club.clubId])).rejects.toMatchObject({
    constraint: 'probe_club_id_name_key',
  });
  await aClubWithProbe();
});

test('probe_once: a probe is in one place at a time, and may be moved on at once', async () => {
  await place(0, 10);

  await expect(place(9, 12, { stationId: null, batchId: club.batchId })).rejects.toMatchObject({
    constraint: 'probe_once',
  });
  await place(10, null);
  await expect(place(20, 21)).rejects.toMatchObject({ constraint: 'probe_once' });
  await expect(place(30, null)).rejects.toMatchObject({ constraint: 'probe_once' });
});

test('probe_placement_in_one_thing: it is in a station or in a batch, never in both or in neither', async () => {
  const refused = { constraint: 'probe_placement_in_one_thing' };
  await expect(place(0, 1, { batchId: club.batchId })).rejects.toMatchObject(refused);
  await expect(place(0, 1, { stationId: null })).rejects.toMatchObject(refused);
  await place(0, 1, { stationId: null, batchId: club.batchId });
});

test('probe_placement_ends_after_start: it stays for a while', async () => {
  const refused = { constraint: 'probe_placement_ends_after_start' };
  await expect(place(5, 5)).rejects.toMatchObject(refused);
  // Turned round it is no range at all, which PostgreSQL notices first.
  await expect(place(5, 4)).rejects.toMatchObject({
    code: expect.stringMatching(/^2(2000|3514)$/),
  });
});

test('reading_temperature_possible: from −40 to 150 °C', async () => {
  const refused = { constraint: 'reading_temperature_possible' };
  await expect(read(0, -401)).rejects.toMatchObject(refused);
  await expect(read(0, 1501)).rejects.toMatchObject(refused);
  await read(0, -400);
  await read(1, 1500);
});

test('reading_pkey: one temperature for a probe and a time', async () => {
  await read(0, 140);
  await expect(read(0, 140)).rejects.toMatchObject({ constraint: 'reading_pkey' });
});

test.each([
  ['changed', `update reading set temperature_deci_c = 1`],
  ['taken away', `delete from reading`],
  ['swept away', `truncate reading`],
])('reading_is_history: no reading is %s', async (_, sql) => {
  await read(0, 140);
  await expect(database.query(sql)).rejects.toMatchObject({ constraint: 'reading_is_history' });
});

test('a probe with readings is not taken away; one without goes with where it was', async () => {
  const remove = `delete from probe where id = $1`;
  await place(0, null);
  await read(0, 140);
  await expect(database.query(remove, [club.probeId])).rejects.toMatchObject({
    constraint: 'reading_club_id_probe_id_fkey',
  });

  club = await aClubWithProbe();
  await place(0, null);
  await database.query(remove, [club.probeId]);
  const sql = `select from probe_placement where probe_id = $1`;
  expect(await database.query(sql, [club.probeId])).toEqual([]);
});

test('a station or batch in which a probe was is not taken away', async () => {
  await place(0, 1);
  await place(1, 2, { stationId: null, batchId: club.batchId });
  await expect(
    database.query(`delete from station where id = $1`, [club.stationId]),
  ).rejects.toMatchObject({ constraint: 'probe_placement_club_id_station_id_fkey' });
  await expect(
    database.query(`delete from batch where id = $1`, [club.batchId]),
  ).rejects.toMatchObject({ constraint: 'probe_placement_club_id_batch_id_fkey' });
});

test('nothing of a probe names a station, batch, member or probe of another club', async () => {
  const there = await aClubWithProbe();
  const refused = { code: '23503' };

  await expect(place(0, 1, { stationId: there.stationId })).rejects.toMatchObject(refused);
  await expect(place(0, 1, { stationId: null, batchId: there.batchId })).rejects.toMatchObject(
    refused,
  );
  await expect(place(0, 1, { probeId: there.probeId })).rejects.toMatchObject(refused);
  await expect(read(0, 1, { ...club, probeId: there.probeId })).rejects.toMatchObject(refused);
  await expect(read(0, 1, { ...club, memberId: there.memberId })).rejects.toMatchObject(refused);
});
