import { HOTTEST_C } from '../plans/plan-assumptions';
import { Prisma } from '../platform/prisma-client/client';
import { placedReadings } from '../probes/placed-readings';

/** What somebody should look at: honey or seed of it on hold, honey that stands past its booking, or one that got too hot. */
export const batchTroubles = ['on-hold', 'overstay', 'too-hot'] as const;
export type BatchTrouble = (typeof batchTroubles)[number];

/** The troubles of a batch b, whose last step is `last`, as an array of text. */
export function troublesOf(clubId: string, now: Date): Prisma.Sql {
  const ofBatch = (letter: string) =>
    Prisma.raw(`${letter}.club_id = b.club_id and ${letter}.batch_id = b.id`);
  const hottest = HOTTEST_C * 10;
  return Prisma.sql`array_remove(array[
    case when exists (select from hold h where h.club_id = ${clubId}::uuid and h.released_at is null) and exists (
        select from (
          select l.id from lot l where ${ofBatch('l')}
          union all select h.lot_id from batch_honey h where ${ofBatch('h')}
          union all select r.lot_id from batch_seed r where ${ofBatch('r')} and r.active) concerned
        cross join lateral holds_reaching(b.club_id, concerned.id))
      then 'on-hold' end,
    case when exists (select from booking k where ${ofBatch('k')} and k.active and k.ends_at <= ${now}
        and k.arrived_at is not null and k.cleared_at is null)
      then 'overstay' end,
    case when exists (select from batch_step s where ${ofBatch('s')} and s.temperature_deci_c > ${hottest}::int)
        or coalesce(last.kind::text, 'planned') not in ('set', 'abandoned') and exists (
          select from (${placedReadings(clubId)}) r where r.batch_id = b.id and r.temperature_deci_c > ${hottest}::int)
      then 'too-hot' end], null)`;
}
