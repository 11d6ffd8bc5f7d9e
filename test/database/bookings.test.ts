import { aDatabase, type TestDatabase } from '../support/database';

// Each promise of the migrations about stations and bookings, by the name of its constraint, in plain SQL.

let database: TestDatabase;
let club: { clubId: string; memberId: string; stationId: string; placeIds: string[] };

beforeAll(async () => {
  database = await aDatabase();
});
afterAll(() => database.drop());
beforeEach(async () => {
  club = await aRoom();
});

async function aRoom() {
  const [row] = await database.query<{ clubId: string; memberId: string; stationId: string }>(`
    with c as (insert into club (name, time_zone) values ('c', 'UTC') returning id),
    p as (insert into person (name, email, password_hash) values ('p', gen_random_uuid() || '@example.org', '') returning id),
    m as (insert into member (club_id, person_id, role) select c.id, p.id, 'member' from c, p returning id),
    s as (insert into station (club_id, name, place_load_g, changeover_minutes) select id, 'cabinet', 30000, 60 from c returning id)
    select c.id as "clubId", m.id as "memberId", s.id as "stationId" from c, m, s`);
  const { clubId, stationId } = row!;
  await database.query(
    `insert into station_duty (club_id, station_id, duty, min_deci_c, max_deci_c)
     values ($1, $2, 'warm', 300, 550), ($1, $2, 'cool', 80, 180)`,
    [clubId, stationId],
  );
  const places = await database.query<{ id: string }>(
    `insert into place (club_id, station_id, number) values ($1, $2, 1), ($1, $2, 2) returning id`,
    [clubId, stationId],
  );
  return { ...row!, placeIds: places.map(({ id }) => id) };
}

interface Wish {
  from: number;
  to: number;
  duty?: string;
  low?: number;
  high?: number;
  place?: number;
}

/** Books by hand; hours count from the start of 2027. Answers the id. */
async function book({ from, to, duty = 'warm', low = 400, high = 450, place = 0 }: Wish) {
  const [row] = await database.query<{ id: string }>(
    `with b as (
       insert into booking (club_id, station_id, duty, member_id, min_deci_c, max_deci_c, starts_at, ends_at, changeover_minutes)
       values ($1, $2, $3::duty, $4, $5, $6, $7, $8, 60) returning *
     ), h as (
       insert into booking_place (club_id, booking_id, place_id, station_id, starts_at, ends_at)
       select club_id, id, $9, station_id, starts_at, ends_at from b
     ) select id from b`,
    [
      club.clubId,
      club.stationId,
      duty,
      club.memberId,
      low,
      high,
      hour(from),
      hour(to),
      club.placeIds[place],
    ],
  );
  return row!.id;
}

function close(from: number, to: number) {
  return database.query(
    `insert into closure (club_id, station_id, starts_at, ends_at, reason, closed_by_id) values ($1, $2, $3, $4, 'r', $5)`,
    [club.clubId, club.stationId, hour(from), hour(to), club.memberId],
  );
}

function hour(hours: number): Date {
  return new Date(Date.UTC(2027, 0, 1) + hours * 3_600_000);
}

function violates(constraint: string) {
  return { constraint };
}

test('place_once: one place, one booking at a time', async () => {
  await book({ from: 0, to: 10 });

  await expect(book({ from: 9, to: 11 })).rejects.toMatchObject(violates('place_once'));
  await book({ from: 9, to: 11, place: 1 });
  await book({ from: 10, to: 11 });
});

test('place_once: a cancelled booking holds nothing', async () => {
  const id = await book({ from: 0, to: 10 });
  await database.query(`update booking set active = false, cancelled_at = now() where id = $1`, [
    id,
  ]);

  await book({ from: 0, to: 10 });
});

test('a place cannot be held for other times than its booking', async () => {
  const id = await book({ from: 0, to: 10 });

  await expect(
    database.query(`update booking_place set ends_at = $2 where booking_id = $1`, [id, hour(5)]),
  ).rejects.toMatchObject({ code: '23503' });
});

test('one_duty_at_a_time: the changeover lies between two duties, whichever comes first', async () => {
  await book({ from: 10, to: 20 });
  const cool = { duty: 'cool', low: 100, high: 140, place: 1 };

  const refused = violates('one_duty_at_a_time');
  await expect(book({ ...cool, from: 15, to: 30 })).rejects.toMatchObject(refused);
  await expect(book({ ...cool, from: 20.5, to: 30 })).rejects.toMatchObject(refused);
  await expect(book({ ...cool, from: 1, to: 9.5 })).rejects.toMatchObject(refused);
  await book({ ...cool, from: 21, to: 30 });
  await book({ ...cool, from: 1, to: 9 });
});

test('temperatures_agree: bands that overlap in time share a temperature', async () => {
  await book({ from: 0, to: 10, low: 400, high: 420 });

  const refused = violates('temperatures_agree');
  await expect(book({ from: 5, to: 15, low: 421, high: 450, place: 1 })).rejects.toMatchObject(
    refused,
  );
  await expect(book({ from: 5, to: 15, low: 350, high: 399, place: 1 })).rejects.toMatchObject(
    refused,
  );
  await book({ from: 5, to: 15, low: 420, high: 450, place: 1 });
});

test('temperatures_agree: a changed band counts from the moment of its change', async () => {
  const id = await book({ from: 0, to: 10, low: 400, high: 450 });
  await book({ from: 0, to: 10, low: 440, high: 460, place: 1 });

  await expect(
    database.query(`update booking set max_deci_c = 430 where id = $1`, [id]),
  ).rejects.toMatchObject(violates('temperatures_agree'));
  await database.query(`update booking set min_deci_c = 455, max_deci_c = 470 where id = $1`, [id]);
});

test('a booking moves in time and band at once though neither alone would do', async () => {
  await book({ from: 0, to: 10, low: 300, high: 350, place: 1 });
  await book({ from: 20, to: 30, low: 400, high: 450, place: 1 });
  const id = await book({ from: 0, to: 10, low: 340, high: 350 });
  await database.query(`delete from booking_place where booking_id = $1`, [id]);

  await database.query(
    `update booking set starts_at = $2, ends_at = $3, min_deci_c = 440, max_deci_c = 460 where id = $1`,
    [id, hour(20), hour(30)],
  );
});

test('booking_outside_closures and closure_off_bookings: neither comes over the other', async () => {
  await close(0, 10);
  await expect(book({ from: 9, to: 11 })).rejects.toMatchObject(
    violates('booking_outside_closures'),
  );
  await book({ from: 10, to: 20 });

  await expect(close(19, 21)).rejects.toMatchObject(violates('closure_off_bookings'));
  await close(20, 21);
});

test('of a booking and a closure at the same moment one is refused', async () => {
  for (let round = 0; round < 20; round++) {
    const from = round * 10;
    const results = await Promise.allSettled([book({ from, to: from + 5 }), close(from, from + 5)]);
    expect(results.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
  }
});

test.each([
  ['booking_ends_after_start', { from: 5, to: 5 }],
  ['booking_band_in_order', { from: 0, to: 5, low: 450, high: 400 }],
])('%s', async (constraint, wish) => {
  await expect(book(wish)).rejects.toMatchObject(violates(constraint));
});

test('a booking for a duty that the station has not is refused', async () => {
  await expect(book({ from: 0, to: 1, duty: 'bench' })).rejects.toMatchObject({
    constraint: 'booking_club_id_station_id_duty_fkey',
  });
});

test.each([
  ['booking_active_unless_cancelled', `update booking set active = false where id = $1`],
  ['booking_changeover_sensible', `update booking set changeover_minutes = -1 where id = $1`],
])('%s', async (constraint, sql) => {
  const id = await book({ from: 0, to: 5 });
  await expect(database.query(sql, [id])).rejects.toMatchObject(violates(constraint));
});

test.each([
  [
    'closure_ends_after_start',
    `insert into closure (club_id, station_id, starts_at, ends_at, reason, closed_by_id) values ($1, $2, '2027-01-02', '2027-01-02', '', $3)`,
  ],
  [
    'station_bears_something',
    `update station set place_load_g = 0 where club_id = $1 and id = $2 and $3::uuid is not null`,
  ],
  [
    'station_changeover_sensible',
    `update station set changeover_minutes = 10081 where club_id = $1 and id = $2 and $3::uuid is not null`,
  ],
  [
    'station_duty_band_in_order',
    `update station_duty set min_deci_c = 999 where club_id = $1 and station_id = $2 and $3::uuid is not null`,
  ],
  [
    'place_number_counts_from_one',
    `update place set number = 0 where club_id = $1 and station_id = $2 and number = 1 and $3::uuid is not null`,
  ],
])('%s', async (constraint, sql) => {
  await expect(
    database.query(sql, [club.clubId, club.stationId, club.memberId]),
  ).rejects.toMatchObject(violates(constraint));
});

test('no booking names a member, station or place of another club', async () => {
  const here = club;
  const there = await aRoom();

  club = { ...here, memberId: there.memberId };
  await expect(book({ from: 0, to: 1 })).rejects.toMatchObject({ code: '23503' });
  club = { ...here, stationId: there.stationId };
  await expect(book({ from: 0, to: 1 })).rejects.toMatchObject({ code: '23503' });
  club = { ...here, placeIds: there.placeIds };
  await expect(book({ from: 0, to: 1 })).rejects.toMatchObject({ code: '23503' });
});

test('random bookings are taken exactly when an independent judge would take them', async () => {
  let seed = 20270101;
  const random = (below: number) => {
    // Lehmer's generator, enough to vary cases.
    seed = (seed * 48271) % 2147483647;
    return seed % below;
  };
  const held: Required<Wish>[] = [];
  const counts = { taken: 0, refused: 0 };
  for (let round = 0; round < 600; round++) {
    const warm = random(3) > 0;
    const from = random(160);
    const low = warm ? 300 + random(200) : 80 + random(80);
    const wish = {
      from,
      to: from + 1 + random(8),
      duty: warm ? 'warm' : 'cool',
      low,
      high: low + random(20),
      place: random(2),
    };
    const fits = held.every((other) => goTogether(wish, other));
    const isTaken = await book(wish).then(
      () => true,
      () => false,
    );
    expect([wish, isTaken]).toEqual([wish, fits]);
    if (isTaken) held.push(wish);
    counts[isTaken ? 'taken' : 'refused']++;
  }
  expect(counts.taken).toBeGreaterThan(30);
  expect(counts.refused).toBeGreaterThan(200);
});

function goTogether(a: Required<Wish>, b: Required<Wish>): boolean {
  const overlap = a.from < b.to && b.from < a.to;
  if (a.duty !== b.duty) return a.from >= b.to + 1 || b.from >= a.to + 1;
  if (!overlap) return true;
  return a.place !== b.place && a.low <= b.high && b.low <= a.high;
}
