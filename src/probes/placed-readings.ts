import { Prisma } from '../platform/prisma-client/client';

/**
 * What the probes of a club read where: rows (station_id, batch_id, probe_id, at, temperature_deci_c), one of the two ids null. A reading
 * counts to the station or batch in which its probe was at that time; one from before, between or after counts nowhere. To stand in
 * a from clause, in brackets; ask it for a station or a batch and a time, and the look-ups go by key.
 */
export function placedReadings(clubId: string): Prisma.Sql {
  return Prisma.sql`
    select w.station_id, w.batch_id, w.probe_id, r.at, r.temperature_deci_c
    from probe_placement w
    join reading r on r.club_id = w.club_id and r.probe_id = w.probe_id
      and r.at >= w.starts_at and r.at < coalesce(w.ends_at, 'infinity')
    where w.club_id = ${clubId}::uuid`;
}
