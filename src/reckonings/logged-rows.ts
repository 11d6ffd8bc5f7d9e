import { Prisma } from '../platform/prisma-client/client';
import { placedReadings } from '../probes/placed-readings';

/** What one probe logged of a batch's warming and cooling, thinned for a drawing. */
export interface LoggedRow {
  probeId: string;
  probeName: string;
  place: 'honey' | 'air';
  readings: number;
  /** The first reading that was as warm as honey must be to be clear. */
  clearAt: Date | null;
  /** The first after that which was as cool as seed needs it. */
  coolEnoughAt: Date | null;
  warmestDeciC: number;
  warmestAt: Date;
  points: { at: string; meanDeciC: number; minDeciC: number; maxDeciC: number }[];
}

export interface LoggedWanted {
  batchId: string;
  from: Date;
  until: Date;
  /** The station in which it is warmed, and from when to when; null: nothing is booked. */
  air: { stationId: string; from: Date; until: Date } | null;
  clearDeciC: number;
  seedDeciC: number;
}

const mostProbes = 20;
/** More points than these a drawing of a page's width cannot show. */
const mostPoints = 240;
const pointMinutes = [1, 5, 10, 15, 30, 60, 120, 240];

/** By probe, honey first: what was read in the honey of a batch, and in the air of the station that warms it. */
export function loggedRows(clubId: string, wanted: LoggedWanted): Prisma.Sql {
  const { air, clearDeciC, seedDeciC } = wanted;
  return Prisma.sql`
    with placed as materialized (
      select 'honey' as place, probe_id, at, temperature_deci_c from (${placedReadings(clubId)}) r
      where batch_id = ${wanted.batchId}::uuid and at >= ${wanted.from} and at <= ${wanted.until}
      union all
      select 'air', probe_id, at, temperature_deci_c from (${placedReadings(clubId)}) r
      where station_id = ${air?.stationId ?? null}::uuid and at >= ${air?.from ?? null}::timestamptz and at <= ${air?.until ?? null}::timestamptz
    ), width as (
      select make_interval(mins => coalesce(min(m), ${pointMinutes.at(-1)}::int)) as of_point
      from (select extract(epoch from max(at) - min(at)) / 60 as minutes from placed) whole
      join unnest(${pointMinutes}::int[]) m on m >= whole.minutes / ${mostPoints}
    ), probes as (
      select place, probe_id, count(*)::int as readings, max(temperature_deci_c) as warmest,
        min(at) filter (where temperature_deci_c >= ${clearDeciC}::int) as clear_at
      from placed group by place, probe_id
    )
    select s.probe_id as "probeId", p.name as "probeName", s.place, s.readings, s.clear_at as "clearAt", s.warmest as "warmestDeciC",
      (select min(r.at) from placed r where r.place = s.place and r.probe_id = s.probe_id
        and r.at > s.clear_at and r.temperature_deci_c <= ${seedDeciC}::int) as "coolEnoughAt",
      (select min(r.at) from placed r where r.place = s.place and r.probe_id = s.probe_id
        and r.temperature_deci_c = s.warmest) as "warmestAt",
      (select json_agg(q order by q.at) from (
        select to_timestamp(avg(extract(epoch from r.at))::float8) as at, avg(r.temperature_deci_c)::float8 as "meanDeciC",
          min(r.temperature_deci_c) as "minDeciC", max(r.temperature_deci_c) as "maxDeciC"
        from placed r cross join width w where r.place = s.place and r.probe_id = s.probe_id
        group by date_bin(w.of_point, r.at, '2000-01-01T00:00:00Z')) q) as points
    from probes s join probe p on p.club_id = ${clubId}::uuid and p.id = s.probe_id
    order by s.place desc, p.name limit ${mostProbes}::int`;
}
