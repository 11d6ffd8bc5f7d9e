import { createRequire } from 'node:module';
import pg from 'pg';

const require = createRequire(import.meta.url);
const { hashSecret, newToken } = require('../../dist/src/platform/secrets.js');

/** A club with a member's token, a room of 20 places with 2,000 bookings, and 500 lots, written straight into the database. */
export async function fillClub(databaseUrl, email = 'bench@example.org') {
  const token = newToken();
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const one = async (sql, values) => (await client.query(sql, values)).rows[0];
  const { id: clubId } = await one(
    `insert into club (name, time_zone) values ('Bench', 'UTC') returning id`,
  );
  const { id: personId } = await one(
    `insert into person (name, email, password_hash) values ('Bench', $1, '-') returning id`,
    [email],
  );
  const { id: memberId } = await one(
    `insert into member (club_id, person_id, role) values ($1, $2, 'steward') returning id`,
    [clubId, personId],
  );
  await one(
    `insert into token (person_id, name, secret_hash, ending, scopes, expires_at, last_used_at)
     values ($1, 'bench', $2, '0000', '{read,record,book,steward}', now() + interval '1 day', now())`,
    [personId, Buffer.from(hashSecret(token))],
  );
  const { id: stationId } = await one(
    `insert into station (club_id, name, place_load_g, changeover_minutes) values ($1, 'Room', 30000, 60) returning id`,
    [clubId],
  );
  await one(
    `insert into station_duty (club_id, station_id, duty, min_deci_c, max_deci_c) values ($1, $2, 'cool', 80, 180)`,
    [clubId, stationId],
  );
  await one(
    `insert into place (club_id, station_id, number) select $1, $2, n from generate_series(1, 20) n`,
    [clubId, stationId],
  );
  await one(
    `with made as (
       insert into booking (club_id, station_id, duty, member_id, min_deci_c, max_deci_c, starts_at, ends_at, changeover_minutes)
       select $1, $2, 'cool', $3, 100, 140, day, day + interval '20 hours', 60
       from generate_series(0, 99) n, lateral (select timestamptz '2049-01-01' + make_interval(days => n) as day) d, generate_series(1, 20)
       returning *
     )
     insert into booking_place (club_id, booking_id, place_id, station_id, starts_at, ends_at)
     select m.club_id, m.id, p.id, m.station_id, m.starts_at, m.ends_at
     from (select *, row_number() over (partition by starts_at) as position from made) m
     join place p on p.club_id = m.club_id and p.station_id = m.station_id and p.number = m.position`,
    [clubId, stationId, memberId],
  );
  await one(
    `with source as (insert into floral_source (club_id, name, grain, sets) values ($1, 'Lime', 'fine', true) returning id),
     made as (
       insert into lot (club_id, kind, name, holder_id, initial_mass_g, remaining_mass_g, moisture_centi_percent, origin)
       select $1, 'honey', 'Pail ' || n, $2, 25000, 25000, 1740, 'Apiary' from generate_series(1, 500) n returning id
     ),
     origins as (insert into lot_origin_share (club_id, lot_id, country_code, centi_percent) select $1, id, 'AT', 10000 from made)
     insert into lot_floral_share (club_id, lot_id, floral_source_id, centi_percent)
     select $1, made.id, source.id, 10000 from made, source`,
    [clubId, memberId],
  );
  const { id: lotId } = await one(`select id from lot where club_id = $1 limit 1`, [clubId]);
  await client.query('analyze');
  await client.end();
  return { clubId, memberId, stationId, lotId, token };
}
