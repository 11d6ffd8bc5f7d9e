import { Prisma } from '../platform/prisma-client/client';

/** Over a longer time without a reading nothing is supposed. */
const longestGapHours = 6;
const longestGap = `${longestGapHours} hours`;

/**
 * The mean temperature while each batch stood to set, by thermometers in its honey (`place_id` is the batch) and in its station: means of
 * the hours, gaps of up to six hours bridged by a straight line, where that tells of half the time or more. Continues the statement of
 * seededBatchRows, whose `stand` and `stood` it reads.
 *
 * Every reading is looked at once, whatever number of batches stood beside the thermometer.
 */
export function readingMeans(club: Prisma.Sql): Prisma.Sql {
  return Prisma.sql`,
    span as (
      select min(since) - ${longestGap}::interval as since, max(until) + ${longestGap}::interval as until from stand where until > since
    ),
    place(place_id) as (
      select batch_id from stand union select station_id from stood
    ),
    hour_mean as (
      select l.place_id, floor(extract(epoch from r.at) / 3600)::int as hour, avg(r.temperature_deci_c)::float8 / 10 as mean_c
      from place l
      join probe_placement p on p.club_id = ${club} and (p.batch_id = l.place_id or p.station_id = l.place_id)
      cross join span
      join reading r on r.club_id = ${club} and r.probe_id = p.probe_id
        and r.at >= greatest(p.starts_at, span.since) and r.at < least(coalesce(p.ends_at, 'infinity'), span.until)
      group by 1, 2
    ),
    hour_pair as (
      select place_id, hour, mean_c,
        lead(hour) over next as next_hour, lead(mean_c) over next as next_mean_c
      from hour_mean window next as (partition by place_id order by hour)
    ),
    hourly as materialized (
      select place_id, hour + step as hour, mean_c + coalesce((next_mean_c - mean_c) * step / (next_hour - hour), 0) as mean_c
      from hour_pair
      cross join lateral generate_series(0,
        case when next_hour - hour <= ${longestGapHours}::int then next_hour - hour - 1 else 0 end) step
    ),
    standing as (
      select t.batch_id, l.place_id,
        floor(extract(epoch from t.since) / 3600)::int as first_hour, floor(extract(epoch from t.until) / 3600)::int as last_hour
      from stand t
      left join stood o on o.batch_id = t.batch_id
      cross join lateral (select t.batch_id as place_id union all select o.station_id where o.station_id is not null) l
      where t.until > t.since
    ),
    reading_mean as (
      select w.batch_id, w.place_id, avg(h.mean_c) as mean_c
      from standing w
      cross join lateral generate_series(w.first_hour, w.last_hour) each(hour)
      join hourly h on h.place_id = w.place_id and h.hour = each.hour
      group by w.batch_id, w.place_id, w.first_hour, w.last_hour
      having 2 * count(*) >= w.last_hour - w.first_hour + 1
    )`;
}
