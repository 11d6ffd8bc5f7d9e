import { Refusal } from '../core/refusal';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { toProbeResponse, type ProbeResponse, type ProbeRow } from './probes.responses';

/** A placement w with the name of where it is. */
const placement = Prisma.sql`json_build_object(
  'stationId', w.station_id, 'batchId', w.batch_id, 'name', coalesce(
    (select s.name from station s where s.club_id = w.club_id and s.id = w.station_id),
    (select b.name from batch b where b.club_id = w.club_id and b.id = w.batch_id)),
  'startsAt', w.starts_at, 'endsAt', w.ends_at)`;

/** What a list tells of a probe p. */
export const listedProbeColumns = Prisma.sql`
  p.id, p.name, p.note,
  (select ${placement} from probe_placement w
   where w.club_id = p.club_id and w.probe_id = p.id and w.ends_at is null) as placement,
  (select json_build_object('at', r.at, 'temperatureDeciC', r.temperature_deci_c) from reading r
   where r.club_id = p.club_id and r.probe_id = p.id order by r.at desc limit 1) as "lastReading"`;

/** One probe with all that is told of it. */
export function probeQuery(clubId: string, id: string): Prisma.Sql {
  return Prisma.sql`
    select ${listedProbeColumns},
      coalesce((
        select json_agg(${placement} order by w.starts_at desc)
        from (select * from probe_placement where club_id = p.club_id and probe_id = p.id
          order by starts_at desc limit 200) w), '[]') as placements,
      (select count(*)::int from reading r where r.club_id = p.club_id and r.probe_id = p.id) as readings
    from probe p where p.club_id = ${clubId}::uuid and p.id = ${id}::uuid`;
}

/** The probe as it stands in a transaction. */
export async function readProbe(
  tx: Transaction,
  clubId: string,
  id: string,
): Promise<ProbeResponse> {
  const [row] = await tx.$queryRaw<ProbeRow[]>(probeQuery(clubId, id));
  if (row === undefined) throw new Refusal('not-found');
  return toProbeResponse(row);
}

/** Makes other changes of the probe, and other uploads to it, wait. Refuses when the club has no such probe. */
export async function lockProbe(tx: Transaction, clubId: string, id: string): Promise<void> {
  const found = await tx.$queryRaw<unknown[]>(Prisma.sql`
    select 1 from probe where club_id = ${clubId}::uuid and id = ${id}::uuid for no key update`);
  if (found.length === 0) throw new Refusal('not-found');
}
