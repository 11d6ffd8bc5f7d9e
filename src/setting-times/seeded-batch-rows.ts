import type { SettingCheck } from '../core/setting/checks-to-observation';
import { Prisma } from '../platform/prisma-client/client';

/** A seeded batch and what was seen of it. Times are epoch milliseconds. */
export interface SeededBatchRow {
  seededAt: number;
  isAbandoned: boolean;
  /** The source of more than half of its honey; none: mixed. */
  floralSourceId: string | null;
  floralSourceName: string | null;
  checks: SettingCheck[];
}

/** The club's batches seeded from `from` until, not including, `until`. A look at the moment of seeding tells nothing. */
export function seededBatchRows(
  clubId: string,
  from: Date | undefined,
  until: Date | undefined,
): Prisma.Sql {
  return Prisma.sql`
    with seeded as (
      select batch_id, at from batch_step
      where club_id = ${clubId}::uuid and kind = 'seeded'
        and at >= coalesce(${from?.toISOString() ?? null}::timestamptz, '-infinity')
        and at < coalesce(${until?.toISOString() ?? null}::timestamptz, 'infinity')
    ),
    honey as (
      select s.batch_id, i.parent_id as lot_id, i.mass_g from seeded s
      join lot made on made.club_id = ${clubId}::uuid and made.batch_id = s.batch_id and made.kind = 'creamed'
      join lot_input i on i.club_id = made.club_id and i.child_id = made.id
      join lot o on o.club_id = i.club_id and o.id = i.parent_id and o.kind = 'honey'
    ),
    whole as (select batch_id, sum(mass_g) as mass_g from honey group by batch_id),
    dominant as (
      select h.batch_id, s.floral_source_id from honey h
      join whole w on w.batch_id = h.batch_id
      join lot_floral_share s on s.club_id = ${clubId}::uuid and s.lot_id = h.lot_id
      group by h.batch_id, s.floral_source_id, w.mass_g
      having 2 * sum(h.mass_g::bigint * s.centi_percent) > 10000 * w.mass_g
    )
    select (extract(epoch from s.at) * 1000)::float8 as "seededAt",
      exists (select from batch_step a
        where a.club_id = ${clubId}::uuid and a.batch_id = s.batch_id and a.kind = 'abandoned') as "isAbandoned",
      d.floral_source_id as "floralSourceId", f.name as "floralSourceName",
      coalesce((
        select json_agg(json_build_object('at', (extract(epoch from c.at) * 1000)::float8, 'state', c.state) order by c.at, c.id)
        from setting_check c
        where c.club_id = ${clubId}::uuid and c.batch_id = s.batch_id and c.at > s.at and c.struck_at is null), '[]') as checks
    from seeded s
    left join dominant d on d.batch_id = s.batch_id
    left join floral_source f on f.club_id = ${clubId}::uuid and f.id = d.floral_source_id
    order by s.at, s.batch_id`;
}
