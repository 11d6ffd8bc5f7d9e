import { aDatabase, type TestDatabase } from '../support/database';

// What is out of use holds no booking after it went: each promise by the name of its constraint, in plain SQL.

let database: TestDatabase;
let ids: Record<'club' | 'member' | 'station' | 'place', string>;

beforeAll(async () => {
  database = await aDatabase();
});
afterAll(() => database.drop());
beforeEach(async () => {
  const [row] = await database.query<typeof ids>(`
    with c as (insert into club (name, time_zone) values ('c', 'UTC') returning id),
    p as (insert into person (name, email, password_hash) values ('p', gen_random_uuid() || '@example.org', '') returning id),
    m as (insert into member (club_id, person_id, role) select c.id, p.id, 'member' from c, p returning id),
    s as (insert into station (club_id, name, place_load_g, changeover_minutes) select id, 'cabinet', 30000, 0 from c returning id),
    d as (insert into station_duty (club_id, station_id, duty, min_deci_c, max_deci_c) select c.id, s.id, 'warm', 300, 550 from c, s),
    l as (insert into place (club_id, station_id, number) select c.id, s.id, 1 from c, s returning id)
    select c.id as club, m.id as member, s.id as station, l.id as place from c, m, s, l`);
  ids = row!;
});

/** Hours count from the start of 2027. */
function hour(hours: number): Date {
  return new Date(Date.UTC(2027, 0, 1) + hours * 3_600_000);
}

async function book(from: number, to: number): Promise<string> {
  const [row] = await database.query<{ id: string }>(
    `with b as (
       insert into booking (club_id, station_id, duty, member_id, min_deci_c, max_deci_c, starts_at, ends_at, changeover_minutes)
       values ($1, $2, 'warm', $3, 400, 450, $4, $5, 0) returning *
     ), h as (
       insert into booking_place (club_id, booking_id, place_id, station_id, starts_at, ends_at)
       select club_id, id, $6, station_id, starts_at, ends_at from b
     ) select id from b`,
    [ids.club, ids.station, ids.member, hour(from), hour(to), ids.place],
  );
  return row!.id;
}

function move(id: string, to: number) {
  return database.query(`update booking set ends_at = $2 where id = $1`, [id, hour(to)]);
}

function cancel(id: string) {
  return database.query(`update booking set active = false, cancelled_at = now() where id = $1`, [
    id,
  ]);
}

function retire(table: 'station' | 'station_duty' | 'place', at: number | null) {
  const key = table === 'station' ? 'id' : 'station_id';
  return database.query(`update ${table} set retired_at = $2 where ${key} = $1`, [
    ids.station,
    at === null ? null : hour(at),
  ]);
}

function violates(constraint: string) {
  return { constraint };
}

describe.each([
  ['station', 'station_retired_unbooked', 'booking_station_in_use'],
  ['station_duty', 'station_duty_retired_unbooked', 'booking_duty_served'],
  ['place', 'place_retired_unbooked', 'booking_place_in_use'],
] as const)('a %s', (table, whileBooked, inUse) => {
  test(`${whileBooked}: stays while it is booked; what was before stays as it was`, async () => {
    await book(0, 5);
    const ahead = await book(5, 10);

    await expect(retire(table, 5)).rejects.toMatchObject(violates(whileBooked));
    await expect(retire(table, 9)).rejects.toMatchObject(violates(whileBooked));
    await cancel(ahead);
    await retire(table, 5);
    await expect(retire(table, 4)).rejects.toMatchObject(violates(whileBooked));
  });

  test(`${inUse}: out of use, it is not booked, and nothing is moved on to it, until it is in use again`, async () => {
    const past = await book(0, 5);
    const gone = await book(6, 7);
    await cancel(gone);
    await retire(table, 5);

    const refused = violates(inUse);
    await expect(book(5, 6)).rejects.toMatchObject(refused);
    await expect(book(10, 11)).rejects.toMatchObject(refused);
    await expect(move(past, 6)).rejects.toMatchObject(refused);
    await expect(
      database.query(`update booking set active = true, cancelled_at = null where id = $1`, [gone]),
    ).rejects.toMatchObject(refused);
    await move(past, 4);
    await book(4, 5);

    await retire(table, null);
    await book(5, 6);
  });

  test('of a booking and its going at the same moment one is refused', async () => {
    for (let round = 0; round < 20; round++) {
      const results = await Promise.allSettled([
        book(round * 10, round * 10 + 5),
        retire(table, round * 10 + 1),
      ]);
      expect(results.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
      await retire(table, null);
    }
  });
});

test('duty_window_duty_served: a duty window is set for what the station serves', async () => {
  const keep = (from: number, to: number) =>
    database.query(
      `insert into duty_window (club_id, station_id, duty, starts_at, ends_at, set_by_id) values ($1, $2, 'warm', $3, $4, $5)`,
      [ids.club, ids.station, hour(from), hour(to), ids.member],
    );
  await keep(0, 5);

  await expect(retire('station_duty', 4)).rejects.toMatchObject(
    violates('station_duty_retired_unbooked'),
  );
  await retire('station_duty', 5);
  await expect(keep(5, 6)).rejects.toMatchObject(violates('duty_window_duty_served'));
});

test('a place with a history cannot vanish', async () => {
  await book(0, 5);

  await expect(
    database.query(`delete from place where id = $1`, [ids.place]),
  ).rejects.toMatchObject({ code: '23001' });
});

test('station_club_id_name_key: a name is given once among those in use', async () => {
  const anew = () =>
    database.query(
      `insert into station (club_id, name, place_load_g, changeover_minutes) values ($1, 'cabinet', 1, 0)`,
      [ids.club],
    );
  await expect(anew()).rejects.toMatchObject({ constraint: 'station_club_id_name_key' });

  await retire('station', 5);
  await anew();
  await expect(retire('station', null)).rejects.toMatchObject({
    constraint: 'station_club_id_name_key',
  });
});
