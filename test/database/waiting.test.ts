import { aDatabase, type TestDatabase } from '../support/database';

// The promises of the migrations about the waiting list and kept bookings, by the name of each constraint, in plain SQL.

let database: TestDatabase;
let club: { clubId: string; memberId: string; stationId: string };

beforeAll(async () => {
  database = await aDatabase();
});
afterAll(() => database.drop());

beforeEach(async () => {
  club = await aRoom();
});

async function aRoom() {
  const [row] = await database.query<typeof club>(`
    with c as (insert into club (name, time_zone) values ('c', 'UTC') returning id),
    p as (insert into person (name, email, password_hash) values ('p', gen_random_uuid() || '@example.org', '') returning id),
    m as (insert into member (club_id, person_id, role) select c.id, p.id, 'member' from c, p returning id),
    s as (insert into station (club_id, name, place_load_g, changeover_minutes) select id, 'cabinet', 30000, 60 from c returning id)
    select c.id as "clubId", m.id as "memberId", s.id as "stationId" from c, m, s`);
  await database.query(
    `insert into station_duty (club_id, station_id, duty, min_deci_c, max_deci_c) values ($1, $2, 'warm', 300, 550)`,
    [row!.clubId, row!.stationId],
  );
  return row!;
}

interface Wish {
  low?: number;
  places?: number;
  minutes?: number;
  notAfter?: string;
  state?: string;
  endedAt?: string | null;
}

async function wait(wish: Wish = {}): Promise<string> {
  const { low = 400, places = 1, minutes = 60, notAfter = '2027-01-01T10:00Z' } = wish;
  const { state = 'waiting', endedAt = null } = wish;
  const [row] = await database.query<{ id: string }>(
    `insert into waiting_wish (club_id, member_id, station_id, duty, min_deci_c, max_deci_c, places, minutes, not_before, not_after, state, ended_at)
     values ($1, $2, $3, 'warm', $4, 450, $5, $6, '2027-01-01T09:00Z', $7, $8::waiting_state, $9) returning id`,
    [club.clubId, club.memberId, club.stationId, low, places, minutes, notAfter, state, endedAt],
  );
  return row!.id;
}

interface Kept {
  keptForId?: string | null;
  keptUntil?: string | null;
  arrivedAt?: string | null;
  clearedAt?: string | null;
  day?: number;
}

async function book(kept: Kept): Promise<string> {
  const { keptForId = null, keptUntil = null, arrivedAt = null, clearedAt = null, day = 1 } = kept;
  const [row] = await database.query<{ id: string }>(
    `insert into booking (club_id, station_id, duty, member_id, min_deci_c, max_deci_c, starts_at, ends_at, changeover_minutes,
       kept_for_id, kept_until, arrived_at, cleared_at)
     values ($1, $2, 'warm', $3, 400, 450, $4, $4::timestamptz + interval '1 hour', 60, $5, $6, $7, $8) returning id`,
    [
      club.clubId,
      club.stationId,
      club.memberId,
      `2027-01-0${day}T09:00Z`,
      keptForId,
      keptUntil,
      arrivedAt,
      clearedAt,
    ],
  );
  return row!.id;
}

const keptUntil = '2027-01-01T08:00Z';

describe('a wish', () => {
  test.each([
    ['waiting_wish_band_in_order', { low: 451 }],
    ['waiting_wish_asks_for_something', { places: 0 }],
    ['waiting_wish_asks_for_something', { minutes: 0 }],
    ['waiting_wish_fits_its_span', { minutes: 61 }],
    ['waiting_wish_ended_or_not', { state: 'taken' }],
    ['waiting_wish_ended_or_not', { endedAt: '2027-01-01T09:00Z' }],
  ])('%s', async (constraint, wish) => {
    await expect(wait(wish)).rejects.toMatchObject({ constraint });
  });

  test('may take all the time that it has', async () => {
    await wait({ minutes: 60 });
    await wait({ state: 'lapsed', endedAt: '2027-01-01T09:00Z' });
  });
});

describe('a kept booking', () => {
  test('booking_kept_for_a_wish: is kept for somebody', async () => {
    await expect(book({ keptUntil })).rejects.toMatchObject({
      constraint: 'booking_kept_for_a_wish',
    });
    await book({ keptForId: await wait(), keptUntil });
  });

  test('booking_kept_once: one offer at a time for one wish', async () => {
    const keptForId = await wait();
    const first = await book({ keptForId, keptUntil });
    await expect(book({ keptForId, keptUntil, day: 2 })).rejects.toMatchObject({
      constraint: 'booking_kept_once',
    });
    await database.query(`update booking set active = false, cancelled_at = now() where id = $1`, [
      first,
    ]);
    await book({ keptForId, keptUntil, day: 2 });
  });

  test('booking_club_id_kept_for_id_fkey: is never kept for somebody of another club', async () => {
    const keptForId = await wait();
    club = await aRoom();

    await expect(book({ keptForId, keptUntil })).rejects.toMatchObject({
      constraint: 'booking_club_id_kept_for_id_fkey',
    });
  });
});

test('booking_cleared_after_arrival: what came in is cleared afterwards', async () => {
  const arrivedAt = '2027-01-01T09:30Z';
  await expect(book({ arrivedAt, clearedAt: '2027-01-01T09:29Z' })).rejects.toMatchObject({
    constraint: 'booking_cleared_after_arrival',
  });
  await book({ arrivedAt, clearedAt: arrivedAt });
  await book({ clearedAt: arrivedAt, day: 2 });
});
