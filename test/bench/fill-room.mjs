import pg from 'pg';

const pastDays = 5000;
const futureDays = 50;

/**
 * In the club of the bench: a room with two cabinets, a bench and a cool room, 100,000 bookings in the past and 2,000 ahead, and honey and
 * seed to plan a run with. Written straight into the database.
 */
export async function fillRoom(databaseUrl, { clubId, memberId }) {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const one = async (sql, values) => (await client.query(sql, values)).rows[0];
  const station = async (name, duty, minDeciC, maxDeciC, places) => {
    const { id } = await one(
      `insert into station (club_id, name, place_load_g, changeover_minutes) values ($1, $2, 30000, 60) returning id`,
      [clubId, name],
    );
    await one(
      `insert into station_duty (club_id, station_id, duty, min_deci_c, max_deci_c) values ($1, $2, $3::duty, $4, $5)`,
      [clubId, id, duty, minDeciC, maxDeciC],
    );
    await one(
      `insert into place (club_id, station_id, number) select $1, $2, n from generate_series(1, $3::int) n`,
      [clubId, id, places],
    );
    return id;
  };
  // Of each station so many places have a booking a day, which ends before the next begins.
  const book = (stationId, duty, minDeciC, maxDeciC, places, hours, from, until) =>
    client.query(
      `with days as (select day from generate_series($8::int, $9::int) n,
         lateral (select date_trunc('day', now()) + make_interval(days => n) as day) d),
       made as (
         insert into booking (club_id, station_id, duty, member_id, min_deci_c, max_deci_c, starts_at, ends_at, changeover_minutes)
         select $1, $2, $3::duty, $4, $5, $6, day, day + make_interval(hours => $10), 60
         from days, generate_series(1, $7::int)
         returning *
       )
       insert into booking_place (club_id, booking_id, place_id, station_id, starts_at, ends_at)
       select m.club_id, m.id, p.id, m.station_id, m.starts_at, m.ends_at
       from (select *, row_number() over (partition by starts_at) as position from made) m
       join place p on p.club_id = m.club_id and p.station_id = m.station_id and p.number = m.position`,
      [clubId, stationId, duty, memberId, minDeciC, maxDeciC, places, from, until, hours],
    );
  const cabinets = [
    await station('North cabinet', 'warm', 300, 550, 8),
    await station('South cabinet', 'warm', 300, 550, 8),
  ];
  const bench = await station('Mixing bench', 'bench', 150, 250, 1);
  const cool = await station('Cool room', 'cool', 80, 180, 40);
  for (const [from, until] of [
    [-pastDays, -2],
    [0, futureDays - 1],
  ]) {
    for (const cabinet of cabinets) await book(cabinet, 'warm', 420, 480, 5, 22, from, until);
    await book(bench, 'bench', 150, 250, 1, 9, from, until);
    // What is ahead is denser than what was.
    await book(cool, 'cool', 120, 160, from < 0 ? 9 : 29, 24, from, until);
  }
  const { id: sourceId } = await one(`select id from floral_source where club_id = $1 limit 1`, [
    clubId,
  ]);
  const lot = async (kind, massG) => {
    const { id } = await one(
      `insert into lot (club_id, kind, name, holder_id, initial_mass_g, remaining_mass_g, moisture_centi_percent, origin, grain)
       values ($1, $2::lot_kind, $2, $3, $4, $4, 1740, 'Apiary', case $2 when 'seed' then 'fine'::grain end) returning id`,
      [clubId, kind, memberId, massG],
    );
    await one(
      `insert into lot_origin_share (club_id, lot_id, country_code, centi_percent) values ($1, $2, 'AT', 10000)`,
      [clubId, id],
    );
    await one(
      `insert into lot_floral_share (club_id, lot_id, floral_source_id, centi_percent) values ($1, $2, $3, 10000)`,
      [clubId, id, sourceId],
    );
    return id;
  };
  const honeyId = await lot('honey', 1_000_000);
  await lot('seed', 100_000);
  const { count, ahead } = await one(
    `select count(*)::int as count, count(*) filter (where ends_at > now())::int as ahead
     from booking where club_id = $1 and station_id = any($2::uuid[])`,
    [clubId, [...cabinets, bench, cool]],
  );
  await client.query('analyze');
  await client.end();
  return { honeyId, count, ahead };
}
