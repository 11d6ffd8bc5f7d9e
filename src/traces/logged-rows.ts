import { Prisma } from '../platform/prisma-client/client';

/**
 * As JSON, what each probe read while a batch was warmed, from loading to clearing, and while it set, from shelving (else potting) until
 * it was found set: in its honey, or in a station while the batch had places there. Stands in a statement whose `batches` (id) it reads.
 */
export function loggedRows(clubId: string): Prisma.Sql {
  const club = Prisma.sql`${clubId}::uuid`;
  return Prisma.sql`
    with step as (
      select s.batch_id, s.kind, s.at, s.recorded_at from batches b join batch_step s on s.club_id = ${club} and s.batch_id = b.id
    ), stretch as (
      select l.batch_id, 'warming' as name, 'warm'::duty as duty, l.at as since, c.at as until,
        greatest(l.recorded_at, c.recorded_at) as recorded_at
      from step l join step c on c.batch_id = l.batch_id and c.kind = 'cleared' where l.kind = 'loaded'
      union all
      select t.batch_id, 'setting', 'cool', t.at, s.at, greatest(t.recorded_at, s.recorded_at)
      from (select distinct on (batch_id) * from step where kind in ('potted', 'shelved') order by batch_id, kind desc) t
      join step s on s.batch_id = t.batch_id and s.kind = 'set'
    ), place as (
      select t.batch_id, t.name, 'honey' as probe_in, w.probe_id, greatest(t.since, w.starts_at) as since,
        least(t.until, coalesce(w.ends_at, 'infinity')) as until
      from stretch t join probe_placement w on w.club_id = ${club} and w.batch_id = t.batch_id
      union all
      select t.batch_id, t.name, 'station', w.probe_id, greatest(t.since, coalesce(b.arrived_at, b.starts_at), w.starts_at),
        least(t.until, coalesce(b.cleared_at, b.ends_at), coalesce(w.ends_at, 'infinity'))
      from stretch t
      join booking b on b.club_id = ${club} and b.batch_id = t.batch_id and b.duty = t.duty and b.active
      join probe_placement w on w.club_id = ${club} and w.station_id = b.station_id
    ), hour as (
      select p.batch_id, p.name, p.probe_in, p.probe_id, min(r.at) as first_at, max(r.at) as last_at, min(r.temperature_deci_c) as min_deci_c,
        max(r.temperature_deci_c) as max_deci_c, avg(r.temperature_deci_c)::float8 as mean_deci_c, count(distinct r.at)::int as readings,
        max(r.recorded_at) as recorded_at
      from place p
      join reading r on r.club_id = ${club} and r.probe_id = p.probe_id and r.at between p.since and p.until
      group by 1, 2, 3, 4, date_bin('1 hour', r.at, '2000-01-01T00:00:00Z')
    ), logged as (
      select h.batch_id, h.name, h.probe_in, h.probe_id, min(h.first_at) as first_at, max(h.last_at) as last_at,
        min(h.min_deci_c) as min_deci_c, max(h.max_deci_c) as max_deci_c, avg(h.mean_deci_c) as mean_deci_c,
        sum(h.readings)::int as readings, max(h.recorded_at) as recorded_at
      from hour h group by 1, 2, 3, 4
    )
    select json_agg(json_build_object('batchId', g.batch_id, 'stretch', g.name, 'probeId', g.probe_id, 'probeIn', g.probe_in, 'at', t.until,
      'firstAt', g.first_at, 'lastAt', g.last_at, 'minDeciC', g.min_deci_c, 'maxDeciC', g.max_deci_c, 'meanDeciC', g.mean_deci_c,
      'readings', g.readings, 'recordedAt', greatest(g.recorded_at, t.recorded_at))
      order by t.until, g.batch_id, g.name, g.probe_in, g.probe_id)
    from logged g join stretch t on t.batch_id = g.batch_id and t.name = g.name`;
}
