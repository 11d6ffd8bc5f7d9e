import { Prisma } from '../platform/prisma-client/client';
import type { Grain } from '../platform/prisma-client/enums';

/** What is to be known of honey that seed is looked for. */
export interface HoneyFacts {
  /** Whose seed need not be borrowed. */
  memberId: string;
  honeyMassG: number;
  /** Of what is stated of its lots: parts of the whole. */
  shares: { floralSourceId: string; part: number }[];
  sources: { id: string; grain: Grain }[];
  /** Seed that is reserved for it already: free for it, and for nobody else. */
  reserved: { lotId: string; massG: number }[];
  isSeeded: boolean;
}

const sourcesOf = Prisma.sql`coalesce((
  select json_agg(json_build_object('id', f.id, 'grain', f.grain) order by f.id) from floral_source f where f.club_id = c.id), '[]') as sources`;

/** The honey of a batch, in one row; none: no such batch. */
export function honeyOfBatch(clubId: string, batchId: string): Prisma.Sql {
  return Prisma.sql`
    select b.member_id as "memberId", whole.mass_g as "honeyMassG", ${sourcesOf},
      coalesce((select json_agg(json_build_object('floralSourceId', q.id, 'part', q.part) order by q.id) from (
        select s.floral_source_id as id, sum(h.mass_g::float8 * s.centi_percent) / (10000 * whole.mass_g::float8) as part
        from batch_honey h join lot_floral_share s on s.club_id = h.club_id and s.lot_id = h.lot_id
        where h.club_id = b.club_id and h.batch_id = b.id group by s.floral_source_id) q), '[]') as shares,
      coalesce((select json_agg(json_build_object('lotId', r.lot_id, 'massG', r.mass_g)) from batch_seed r
        where r.club_id = b.club_id and r.batch_id = b.id and r.active), '[]') as reserved,
      exists (select from batch_step t where t.club_id = b.club_id and t.batch_id = b.id and t.kind = 'seeded') as "isSeeded"
    from batch b join club c on c.id = b.club_id
    cross join lateral (select coalesce(sum(h.mass_g), 0)::int as mass_g from batch_honey h
      where h.club_id = b.club_id and h.batch_id = b.id) whole
    where b.club_id = ${clubId}::uuid and b.id = ${batchId}::uuid`;
}

/** The club's floral sources, in one row. */
export function sourcesOfClub(clubId: string): Prisma.Sql {
  return Prisma.sql`select ${sourcesOf} from club c where c.id = ${clubId}::uuid`;
}
