import type { TestDatabase } from './database';

/**
 * Reads the database as an outsider would and answers every breach of a promise, in words; none when all is well. Knows nothing of the
 * service's code and does not lean on the constraints: it compares pairs of rows.
 */
export async function breaches(database: TestDatabase): Promise<string[]> {
  const found = await Promise.all(
    Object.entries(questions).map(async ([name, sql]) => {
      const rows = await database.query(sql);
      return rows.map((row) => `${name}: ${JSON.stringify(row)}`);
    }),
  );
  return found.flat();
}

const pairsOfOneStation = `
  from booking a join booking b on a.club_id = b.club_id and a.station_id = b.station_id and a.id < b.id
  where a.cancelled_at is null and b.cancelled_at is null`;

const questions: Record<string, string> = {
  'a place is held twice at one time': `
    select p.place_id, a.id as one, b.id as other from booking_place p
    join booking_place q on q.place_id = p.place_id and q.booking_id > p.booking_id
    join booking a on a.id = p.booking_id join booking b on b.id = q.booking_id
    where a.cancelled_at is null and b.cancelled_at is null and a.starts_at < b.ends_at and b.starts_at < a.ends_at`,
  'two duties at one time, or too little time to change over': `
    select a.id as one, b.id as other ${pairsOfOneStation} and a.duty <> b.duty
      and a.starts_at < b.ends_at + make_interval(mins => b.changeover_minutes)
      and b.starts_at < a.ends_at + make_interval(mins => a.changeover_minutes)`,
  'temperatures that do not go together': `
    select a.id as one, b.id as other ${pairsOfOneStation} and a.starts_at < b.ends_at and b.starts_at < a.ends_at
      and (a.min_deci_c > b.max_deci_c or b.min_deci_c > a.max_deci_c)`,
  'a booking while the station is closed': `
    select b.id, c.id as closure from booking b join closure c on c.club_id = b.club_id and c.station_id = b.station_id
    where b.cancelled_at is null and b.starts_at < c.ends_at and c.starts_at < b.ends_at`,
  'a booking of a place, a duty or a station after it went out of use': `
    select b.id from booking b
    join station s on s.id = b.station_id
    join station_duty d on d.station_id = b.station_id and d.duty = b.duty
    join booking_place h on h.booking_id = b.id
    join place p on p.id = h.place_id
    where b.cancelled_at is null and b.ends_at > least(s.retired_at, d.retired_at, p.retired_at)`,
  'places in use that do not count from 1 without a gap': `
    select station_id from place where retired_at is null group by station_id having max(number) <> count(*)`,
  'a booking without places': `
    select b.id from booking b where not exists (select from booking_place p where p.booking_id = b.id)`,
  'a place held for other times than its booking': `
    select b.id from booking b join booking_place p on p.booking_id = b.id
    where (p.starts_at, p.ends_at, p.station_id, p.active) <> (b.starts_at, b.ends_at, b.station_id, b.cancelled_at is null)`,
  'a wish to which nothing is offered though it says so, or more than one thing': `
    select w.id from waiting_wish w where w.state = 'offered' and 1 <> (
      select count(*) from booking b where b.kept_for_id = w.id and b.cancelled_at is null and b.kept_until is not null)`,
  'something is kept for a wish that does not say so': `
    select b.id, w.state from booking b join waiting_wish w on w.id = b.kept_for_id
    where b.cancelled_at is null and b.kept_until is not null and w.state <> 'offered'`,
  'a wish that was taken without its booking': `
    select w.id from waiting_wish w where w.state = 'taken' and not exists (
      select from booking b where b.kept_for_id = w.id and b.kept_until is null and b.member_id = w.member_id)`,
  'a lot is overdrawn or its ledger does not close': `
    select id, name from lot where remaining_mass_g < 0
      or initial_mass_g <> remaining_mass_g + used_mass_g + lent_mass_g + potted_mass_g + lost_mass_g`,
  'movements of a lot do not add up to its ledger': `
    select l.id, l.name from lot l left join (
      select club_id, lot_id, coalesce(sum(mass_g) filter (where kind = 'used'), 0) as used,
        coalesce(sum(mass_g) filter (where kind = 'lent'), 0) as lent,
        coalesce(sum(mass_g) filter (where kind = 'potted'), 0) as potted,
        coalesce(sum(mass_g) filter (where kind = 'lost'), 0) as lost
      from lot_movement group by club_id, lot_id) m on m.club_id = l.club_id and m.lot_id = l.id
    where (l.used_mass_g, l.lent_mass_g, l.potted_mass_g, l.lost_mass_g)
      <> (coalesce(m.used, 0), coalesce(m.lent, 0), coalesce(m.potted, 0), coalesce(m.lost, 0))`,
  'inputs of a lot do not add up to what was declared': `
    select l.id, l.name from lot l
    where l.input_mass_g <> (select coalesce(sum(i.mass_g), 0) from lot_input i where i.club_id = l.club_id and i.child_id = l.id)`,
  'more seed is reserved than its lot holds': `
    select l.id, l.name from lot l
    where l.remaining_mass_g < (
      select coalesce(sum(r.mass_g), 0) from batch_seed r where r.club_id = l.club_id and r.lot_id = l.id and r.active)`,
  'seed is still reserved for a batch that was seeded or given up': `
    select r.batch_id from batch_seed r join batch_step s on s.club_id = r.club_id and s.batch_id = r.batch_id
    where r.active and s.kind in ('seeded', 'abandoned')`,
  'a booked plan without all of its parts': `
    select n.id from plan n where n.batch_id is not null and (
      not exists (select from batch_honey h where h.club_id = n.club_id and h.batch_id = n.batch_id)
      or not exists (select from batch_seed r where r.club_id = n.club_id and r.batch_id = n.batch_id)
      or (select array_agg(b.duty order by b.duty) from booking b where b.club_id = n.club_id and b.plan_id = n.id)
        is distinct from '{warm,cool,bench}'::duty[])`,
  'a booking of a plan that was not booked, or of another batch': `
    select b.id from booking b join plan n on n.club_id = b.club_id and n.id = b.plan_id
    where n.batch_id is distinct from b.batch_id`,
  'an input that is no deeper than what it came from': `
    select i.child_id from lot_input i join lot c on c.id = i.child_id join lot p on p.id = i.parent_id where c.depth <= p.depth`,
  'a change of a booking without its entry in the history': `
    select b.id from booking b where not exists (
      select from audit_entry e where e.club_id = b.club_id and e.subject_id = b.id and e.action = 'booking.made')`,
};
