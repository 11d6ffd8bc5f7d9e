import { createRequire } from 'node:module';
import pg from 'pg';
import { fillBatches } from './fill-batches.mjs';
import { fillClub } from './fill-club.mjs';

const require = createRequire(import.meta.url);
const { hashPassword } = require('../../dist/src/people/passwords.js');

const email = 'page@example.org';
const password = 'seven slow bees hum along';

/**
 * A club with as much as the page has to show at once: 2,000 bookings within the two weeks of the room's screen and 500 batches of one
 * member, of which the latest still set. Gives how to sign in.
 */
export async function fillPage(databaseUrl) {
  const club = await fillClub(databaseUrl, email);
  await fillBatches(databaseUrl, club, {
    count: 500,
    seededAt: `date_trunc('hour', now()) - make_interval(hours => n * 2)`,
  });
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  try {
    await client.query(
      `insert into batch_step (club_id, batch_id, kind, at, recorded_at, recorded_by_id)
       select club_id, batch_id, 'potted'::step_kind, at + interval '20 minutes', at + interval '20 minutes', recorded_by_id from batch_step where club_id = $1
       union all select club_id, batch_id, 'shelved', at + interval '40 minutes', at + interval '40 minutes', recorded_by_id from batch_step where club_id = $1
       union all select club_id, batch_id, 'set', at, at, checked_by_id from setting_check where club_id = $1 and state = 'set'`,
      [club.clubId],
    );
    await client.query(
      `with made as (
         insert into lot (club_id, kind, name, holder_id, initial_mass_g, remaining_mass_g, moisture_centi_percent, origin, grain)
         select $1, 'seed', 'Tub ' || n, $2, 5000, 5000, 1740, 'Apiary', 'fine' from generate_series(1, 100) n returning id
       ),
       origins as (insert into lot_origin_share (club_id, lot_id, country_code, centi_percent) select $1, id, 'AT', 10000 from made)
       insert into lot_floral_share (club_id, lot_id, floral_source_id, centi_percent)
       select $1, made.id, f.id, 10000 from made, (select id from floral_source where club_id = $1 limit 1) f`,
      [club.clubId, club.memberId],
    );
    // Four cool rooms of 36 places; each place has a booking a day.
    await client.query(
      `with stations as (
         insert into station (club_id, name, place_load_g, changeover_minutes)
         select $1, 'Cool room ' || n, 30000, 60 from generate_series(1, 4) n returning id
       ),
       duties as (
         insert into station_duty (club_id, station_id, duty, min_deci_c, max_deci_c) select $1, id, 'cool', 80, 180 from stations
       )
       insert into place (club_id, station_id, number) select $1, id, n from stations, generate_series(1, 36) n`,
      [club.clubId],
    );
    await client.query(
      `with made as (
         insert into booking (club_id, station_id, duty, member_id, min_deci_c, max_deci_c, starts_at, ends_at, changeover_minutes)
         select $1, s.id, 'cool', $2, 100, 140, day, day + interval '20 hours', 60
         from station s, generate_series(0, 13) n, generate_series(1, 36),
           lateral (select date_trunc('day', now()) + make_interval(days => n) as day) d
         where s.club_id = $1 and s.name like 'Cool room %'
         returning *
       )
       insert into booking_place (club_id, booking_id, place_id, station_id, starts_at, ends_at)
       select m.club_id, m.id, p.id, m.station_id, m.starts_at, m.ends_at
       from (select *, row_number() over (partition by station_id, starts_at) as position from made) m
       join place p on p.club_id = m.club_id and p.station_id = m.station_id and p.number = m.position`,
      [club.clubId, club.memberId],
    );
    // What has not set yet stands there today.
    await client.query(
      `with unset as (
         select b.id, row_number() over (order by b.id) as position from batch b
         where b.club_id = $1 and not exists (select from batch_step s where s.club_id = b.club_id and s.batch_id = b.id and s.kind = 'set')
       ),
       today as (
         select id, row_number() over (order by id) as position from booking
         where club_id = $1 and starts_at <= now() and ends_at > now() - interval '1 day'
       )
       update booking k set batch_id = unset.id from today join unset using (position) where k.club_id = $1 and k.id = today.id`,
      [club.clubId],
    );
    await client.query(`update person set password_hash = $1 where email = $2`, [
      await hashPassword(password),
      email,
    ]);
    await client.query('analyze');
    const { rows } = await client.query(
      `select (select count(*)::int from booking where club_id = $1 and starts_at between now() - interval '1 day' and now() + interval '15 days') as bookings,
         (select count(*)::int from batch where club_id = $1) as batches`,
      [club.clubId],
    );
    return { ...rows[0], email, password };
  } finally {
    await client.end();
  }
}
