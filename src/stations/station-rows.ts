import { Refusal } from '../core/refusal';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { toStationResponse, type StationResponse, type StationRow } from './stations.responses';

/** The statement that reads stations `s` of a club with the duties and the places in use, for which `condition` holds. */
export function stationQuery(clubId: string, condition: Prisma.Sql): Prisma.Sql {
  return Prisma.sql`
    select s.id, s.name, s.place_load_g as "placeLoadG", s.changeover_minutes as "changeoverMinutes", s.retired_at as "retiredAt",
      (select json_agg(json_build_object('duty', duty, 'minDeciC', min_deci_c, 'maxDeciC', max_deci_c) order by duty)
       from station_duty d where d.club_id = s.club_id and d.station_id = s.id and d.retired_at is null) as duties,
      (select count(*)::int from place p where p.club_id = s.club_id and p.station_id = s.id and p.retired_at is null) as "placeCount"
    from station s where s.club_id = ${clubId}::uuid and ${condition}`;
}

/** The station as it is answered, for a transaction. Refuses when the club has none such. */
export async function readStation(
  tx: Transaction,
  clubId: string,
  id: string,
): Promise<StationResponse> {
  const [row] = await tx.$queryRaw<StationRow[]>(
    stationQuery(clubId, Prisma.sql`s.id = ${id}::uuid`),
  );
  if (row === undefined) throw new Refusal('not-found');
  return toStationResponse(row);
}
