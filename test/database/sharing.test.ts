import { aDatabase, type TestDatabase } from '../support/database';

// Each promise of the migration about sharing the room, by the name of its constraint, in plain SQL.

let database: TestDatabase;
let ids: Record<'club' | 'member' | 'station' | 'batch' | 'seed', string>;

beforeAll(async () => {
  database = await aDatabase();
});
afterAll(() => database.drop());
beforeEach(async () => {
  ids = await aClub();
});

/** A club with a member, a cabinet that warms and cools, a batch, and 5 kg of seed. */
async function aClub() {
  const [row] = await database.query<{ club: string; member: string; station: string }>(`
    with c as (insert into club (name, time_zone) values ('c', 'UTC') returning id),
    p as (insert into person (name, email, password_hash) values ('p', gen_random_uuid() || '@example.org', '') returning id),
    m as (insert into member (club_id, person_id, role) select c.id, p.id, 'member' from c, p returning id),
    s as (insert into station (club_id, name, place_load_g, changeover_minutes) select id, 'cabinet', 30000, 0 from c returning id)
    select c.id as club, m.id as member, s.id as station from c, m, s`);
  const { club, member, station } = row!;
  await database.query(
    `insert into station_duty (club_id, station_id, duty, min_deci_c, max_deci_c)
     values ($1, $2, 'warm', 300, 550), ($1, $2, 'cool', 80, 180)`,
    [club, station],
  );
  const batch = await made(
    `insert into batch (club_id, member_id, name) values ($1, $2, 'b') returning id`,
    [club, member],
  );
  const seed = await made(
    `insert into lot (club_id, kind, name, holder_id, initial_mass_g, remaining_mass_g)
     values ($1, 'seed', 's', $2, 5000, 5000) returning id`,
    [club, member],
  );
  return { ...row!, batch, seed };
}

async function made(sql: string, values: unknown[]): Promise<string> {
  const [row] = await database.query<{ id: string }>(sql, values);
  return row!.id;
}

function violates(constraint: string) {
  return { constraint };
}

/** Hours count from the start of 2027. */
function hour(hours: number): Date {
  return new Date(Date.UTC(2027, 0, 1) + hours * 3_600_000);
}

function open(weekday: number, opensMinute: number, closesMinute: number) {
  return database.query(
    `insert into opening_hours (club_id, weekday, opens_minute, closes_minute) values ($1, $2, $3, $4)`,
    [ids.club, weekday, opensMinute, closesMinute],
  );
}

function keepFor(duty: string, from: number, to: number) {
  return made(
    `insert into duty_window (club_id, station_id, duty, starts_at, ends_at, set_by_id)
     values ($1, $2, $3::duty, $4, $5, $6) returning id`,
    [ids.club, ids.station, duty, hour(from), hour(to), ids.member],
  );
}

function book(duty: string, from: number, to: number) {
  const [low, high] = duty === 'warm' ? [400, 450] : [100, 140];
  return made(
    `insert into booking (club_id, station_id, duty, member_id, min_deci_c, max_deci_c, starts_at, ends_at, changeover_minutes)
     values ($1, $2, $3::duty, $4, $5, $6, $7, $8, 0) returning id`,
    [ids.club, ids.station, duty, ids.member, low, high, hour(from), hour(to)],
  );
}

const wishColumns = {
  min_deci_c: 400,
  max_deci_c: 450,
  places: 1,
  minutes: 60,
  not_before: hour(0),
  not_after: hour(10),
  state: 'waiting',
  ended_at: null as Date | null,
};

function wish(different: Partial<typeof wishColumns> = {}) {
  const row = { ...wishColumns, ...different };
  return made(
    `insert into waiting_wish (club_id, member_id, station_id, duty, min_deci_c, max_deci_c, places, minutes, not_before, not_after, state, ended_at)
     values ($1, $2, $3, 'warm', $4, $5, $6, $7, $8, $9, $10::waiting_state, $11) returning id`,
    [ids.club, ids.member, ids.station, ...Object.values(row)],
  );
}

describe('the club', () => {
  test.each([
    ['club_fair_share_sensible', 'place_days_ahead', [0, 100_001], [1, 100_000, null]],
    ['club_offer_minutes_sensible', 'offer_minutes', [14, 20_161], [15, 20_160]],
    ['club_no_show_minutes_sensible', 'no_show_minutes', [14, 20_161], [15, 20_160]],
  ])('%s', async (constraint, column, wrong, right) => {
    const set = (value: number | null) =>
      database.query(`update club set ${column} = $2 where id = $1`, [ids.club, value]);
    for (const value of wrong) {
      await expect(set(value)).rejects.toMatchObject(violates(constraint));
    }
    for (const value of right) await set(value);
  });
});

describe('opening hours', () => {
  test('opening_hours_weekday: Monday is 1, Sunday is 7', async () => {
    for (const day of [0, 8]) {
      await expect(open(day, 0, 60)).rejects.toMatchObject(violates('opening_hours_weekday'));
    }
    await open(1, 0, 60);
    await open(7, 0, 60);
  });

  test('opening_hours_close_after_they_open: within one day', async () => {
    for (const [opens, closes] of [
      [60, 60],
      [61, 60],
      [-1, 60],
      [60, 1441],
    ] as const) {
      await expect(open(1, opens, closes)).rejects.toMatchObject(
        violates('opening_hours_close_after_they_open'),
      );
    }
    await open(1, 0, 1440);
  });

  test('opening_hours_once: those of a day may touch, and do not overlap', async () => {
    await open(1, 480, 720);
    await expect(open(1, 719, 800)).rejects.toMatchObject(violates('opening_hours_once'));
    await open(1, 720, 800);
    await open(2, 480, 720);
  });

  test('closed_day_club_id_day_key: a day is closed once', async () => {
    const close = () =>
      database.query(
        `insert into closed_day (club_id, day, reason) values ($1, '2027-12-24', 'r')`,
        [ids.club],
      );
    await close();
    await expect(close()).rejects.toMatchObject(violates('closed_day_club_id_day_key'));
    ids = await aClub();
    await close();
  });
});

describe('duty windows', () => {
  test('duty_window_ends_after_start', async () => {
    await expect(keepFor('cool', 5, 5)).rejects.toMatchObject(
      violates('duty_window_ends_after_start'),
    );
  });

  test('duty_window_once: those of a station do not overlap, whatever their duty', async () => {
    await keepFor('cool', 0, 10);
    for (const duty of ['cool', 'warm']) {
      await expect(keepFor(duty, 9, 11)).rejects.toMatchObject(violates('duty_window_once'));
    }
    await keepFor('warm', 10, 20);
  });

  test('one for a duty that the station has not is refused', async () => {
    await expect(keepFor('bench', 0, 1)).rejects.toMatchObject({
      constraint: 'duty_window_club_id_station_id_duty_fkey',
    });
  });

  test('booking_in_duty_windows: no other duty is booked within one, nor moved into it', async () => {
    await keepFor('cool', 10, 20);
    const refused = violates('booking_in_duty_windows');
    await expect(book('warm', 9, 11)).rejects.toMatchObject(refused);
    await book('cool', 9, 11);
    await book('warm', 20, 25);
    const id = await book('warm', 5, 9);

    const move = (from: number, to: number, active = true) =>
      database.query(
        `update booking set starts_at = $2, ends_at = $3, active = $4,
           cancelled_at = case when $4 then null else now() end where id = $1`,
        [id, hour(from), hour(to), active],
      );
    await expect(move(15, 16)).rejects.toMatchObject(refused);
    await move(15, 16, false);
    await expect(move(15, 16)).rejects.toMatchObject(refused);
  });

  test('duty_window_off_bookings: one does not come over bookings of another duty', async () => {
    await book('warm', 0, 10);
    const refused = violates('duty_window_off_bookings');
    await expect(keepFor('cool', 9, 20)).rejects.toMatchObject(refused);
    await keepFor('warm', 0, 10);
    const id = await keepFor('cool', 10, 20);

    await book('cool', 30, 40);
    await expect(
      database.query(`update duty_window set duty = 'warm', ends_at = $2 where id = $1`, [
        id,
        hour(31),
      ]),
    ).rejects.toMatchObject(refused);
  });

  test('of a booking and a window of another duty at the same moment one is refused', async () => {
    for (let round = 0; round < 20; round++) {
      const from = round * 10;
      const results = await Promise.allSettled([
        book('warm', from, from + 5),
        keepFor('cool', from, from + 5),
      ]);
      expect(results.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    }
  });
});

describe('the waiting list', () => {
  test.each<[string, Partial<typeof wishColumns>]>([
    ['waiting_wish_band_in_order', { min_deci_c: 451 }],
    ['waiting_wish_asks_for_something', { places: 0 }],
    ['waiting_wish_asks_for_something', { minutes: 0 }],
    ['waiting_wish_fits_its_span', { minutes: 601 }],
    ['waiting_wish_ended_or_not', { ended_at: hour(1) }],
    ['waiting_wish_ended_or_not', { state: 'taken' }],
    ['waiting_wish_ended_or_not', { state: 'offered', ended_at: hour(1) }],
  ])('%s: %j', async (constraint, different) => {
    await expect(wish(different)).rejects.toMatchObject(violates(constraint));
  });

  test('a wish that just fits its span, and ones that ended, are taken', async () => {
    await wish({ minutes: 600 });
    for (const state of ['taken', 'lapsed', 'withdrawn']) await wish({ state, ended_at: hour(1) });
  });

  test('booking_kept_for_a_wish: what is kept until a time is kept for somebody', async () => {
    const id = await book('warm', 0, 1);
    const keep = (wishId: string | null, until: Date | null) =>
      database.query(`update booking set kept_for_id = $2, kept_until = $3 where id = $1`, [
        id,
        wishId,
        until,
      ]);
    await expect(keep(null, hour(1))).rejects.toMatchObject(violates('booking_kept_for_a_wish'));
    const wishId = await wish();
    await keep(wishId, hour(1));
    await keep(wishId, null);
  });

  test('booking_kept_once: one wish has one offer at a time', async () => {
    const wishId = await wish();
    const keep = async (from: number) => {
      const id = await book('warm', from, from + 1);
      await database.query(`update booking set kept_for_id = $2, kept_until = $3 where id = $1`, [
        id,
        wishId,
        hour(1),
      ]);
      return id;
    };
    const first = await keep(0);
    await expect(keep(2)).rejects.toMatchObject(violates('booking_kept_once'));
    await database.query(`update booking set active = false, cancelled_at = now() where id = $1`, [
      first,
    ]);
    await keep(4);
  });

  test('booking_cleared_after_arrival', async () => {
    const id = await book('warm', 0, 5);
    const came = (arrived: Date | null, cleared: Date | null) =>
      database.query(`update booking set arrived_at = $2, cleared_at = $3 where id = $1`, [
        id,
        arrived,
        cleared,
      ]);
    await expect(came(hour(2), hour(1))).rejects.toMatchObject(
      violates('booking_cleared_after_arrival'),
    );
    await came(hour(1), hour(1));
    await came(null, hour(1));
  });
});

test('plan_booked_with_its_batch: a plan is booked and has a batch, or neither', async () => {
  const plan = (batchId: string | null, bookedAt: Date | null) =>
    database.query(
      `insert into plan (club_id, member_id, expires_at, request, alternatives, batch_id, booked_at)
       values ($1, $2, now(), '{}', '[]', $3, $4)`,
      [ids.club, ids.member, batchId, bookedAt],
    );
  const refused = violates('plan_booked_with_its_batch');
  await expect(plan(ids.batch, null)).rejects.toMatchObject(refused);
  await expect(plan(null, hour(0))).rejects.toMatchObject(refused);
  await plan(null, null);
  await plan(ids.batch, hour(0));
  await expect(plan(ids.batch, hour(0))).rejects.toMatchObject(
    violates('plan_club_id_batch_id_key'),
  );
});

describe('reserved seed', () => {
  const reserve = (massG: number, lotId = ids.seed) =>
    database.query(
      `insert into batch_seed (club_id, batch_id, lot_id, mass_g) values ($1, $2, $3, $4)`,
      [ids.club, ids.batch, lotId, massG],
    );
  const draw = (massG: number) =>
    database.query(
      `insert into lot_movement (club_id, lot_id, kind, mass_g, at, recorded_by_id) values ($1, $2, 'lost', $3, '2027-02-01', $4)`,
      [ids.club, ids.seed, massG, ids.member],
    );

  test('batch_seed_has_mass', async () => {
    await expect(reserve(0)).rejects.toMatchObject(violates('batch_seed_has_mass'));
  });

  test('seed_reserved: no more is reserved than the lot holds', async () => {
    await expect(reserve(5001)).rejects.toMatchObject(violates('seed_reserved'));
    await reserve(5000);
  });

  test('seed_reserved: what is reserved is not drawn, until it is let go', async () => {
    await reserve(4000);
    await draw(1000);
    await expect(draw(1)).rejects.toMatchObject(violates('seed_reserved'));
    await database.query(`update batch_seed set active = false where lot_id = $1`, [ids.seed]);
    await draw(1);
  });

  test('of two who reserve the last seed at the same moment one is refused', async () => {
    const other = await made(
      `insert into batch (club_id, member_id, name) values ($1, $2, 'c') returning id`,
      [ids.club, ids.member],
    );
    const results = await Promise.allSettled(
      [ids.batch, other].map((batch) =>
        database.query(
          `insert into batch_seed (club_id, batch_id, lot_id, mass_g) values ($1, $2, $3, 3000)`,
          [ids.club, batch, ids.seed],
        ),
      ),
    );
    expect(results.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
  });
});

test('notice_club_id_member_id_event_key: a member is told of one event once', async () => {
  const tell = (event: string) =>
    database.query(
      `insert into notice (club_id, member_id, kind, event, subject_id) values ($1, $2, 'k', $3, $1)`,
      [ids.club, ids.member, event],
    );
  await tell('one');
  await expect(tell('one')).rejects.toMatchObject(violates('notice_club_id_member_id_event_key'));
  await tell('two');
});

test('no window, wish, offer or reserved seed names what belongs to another club', async () => {
  const here = ids;
  const there = await aClub();
  const refused = { code: '23503' };

  ids = { ...here, station: there.station };
  await expect(keepFor('cool', 0, 1)).rejects.toMatchObject(refused);
  await expect(wish()).rejects.toMatchObject(refused);
  ids = { ...here, member: there.member };
  await expect(keepFor('cool', 0, 1)).rejects.toMatchObject(refused);
  await expect(wish()).rejects.toMatchObject(refused);
  ids = there;
  const theirWish = await wish();
  ids = here;
  const ourBooking = await book('warm', 0, 1);
  await expect(
    database.query(`update booking set kept_for_id = $2 where id = $1`, [ourBooking, theirWish]),
  ).rejects.toMatchObject(refused);
  await expect(
    database.query(
      `insert into batch_seed (club_id, batch_id, lot_id, mass_g) values ($1, $2, $3, 1)`,
      [here.club, here.batch, there.seed],
    ),
  ).rejects.toMatchObject(refused);
});
