import { Prisma } from '../platform/prisma-client/client';
import type { Grain, LotKind } from '../platform/prisma-client/enums';

export interface HoneyFact {
  lotId: string;
  name: string;
  kind: LotKind;
  holderId: string;
  remainingMassG: number;
  moistureCentiPercent: number | null;
  /** Epoch milliseconds of its day. */
  extractedAt: number | null;
  shares: { floralSourceId: string; centiPercent: number }[];
  /** Meant for batches that have not been seeded yet. */
  plannedMassG: number;
}

export interface SeedFact {
  lotId: string;
  name: string;
  holderId: string;
  holderName: string;
  freeMassG: number;
  reservedMassG: number;
  grain: Grain | null;
  /** Epoch milliseconds. */
  madeAt: number;
  /** It may not be used until it is released. */
  onHold: boolean;
  /** Of what is known of its ancestors, parts of the whole. */
  shares: { floralSourceId: string; part: number }[];
}

/** What a plan needs to know beside the room: honey, seed, floral sources, whose it is. */
export interface PlanFacts {
  timeZone: string;
  memberName: string | null;
  sources: { id: string; name: string; grain: Grain; sets: boolean }[];
  honey: HoneyFact[];
  /** The club's seed of which something remains, the member's own first. */
  seed: SeedFact[];
}

const MOST_SEED_LOTS = 200;
/** Ancestors that make up less than this are not looked for any further. */
const LEAST_PART = 0.02;

/** One row. */
export function planFacts(
  clubId: string,
  memberId: string,
  honeyLotIds: readonly string[],
): Prisma.Sql {
  const club = Prisma.sql`${clubId}::uuid`;
  const member = Prisma.sql`${memberId}::uuid`;
  return Prisma.sql`
    with recursive seed as materialized (
      select l.id, l.name, l.holder_id, l.remaining_mass_g, l.grain, l.created_at,
        (select coalesce(sum(r.mass_g), 0)::int from batch_seed r
         where r.club_id = l.club_id and r.lot_id = l.id and r.active) as reserved_g,
        exists (select from hold h where h.club_id = ${club} and h.released_at is null)
          and exists (select from holds_reaching(l.club_id, l.id)) as on_hold
      from lot l where l.club_id = ${club} and l.kind = 'seed' and l.remaining_mass_g > 0
      order by l.holder_id <> ${member}, l.id desc limit ${MOST_SEED_LOTS}::int
    ), up (seed_id, lot_id, part) as (
      select id, id, 1::float8 from seed
      union all
      select up.seed_id, i.parent_id, up.part * i.mass_g / i.child_input_mass_g
      from up join lot_input i on i.club_id = ${club} and i.child_id = up.lot_id
      where up.part >= ${LEAST_PART}
    ), floral as (
      select up.seed_id, s.floral_source_id, sum(up.part * s.centi_percent / 10000) as part
      from up join lot_floral_share s on s.club_id = ${club} and s.lot_id = up.lot_id
      group by up.seed_id, s.floral_source_id
    )
    select c.time_zone as "timeZone",
      (select p.name from member m join person p on p.id = m.person_id
       where m.club_id = ${club} and m.id = ${member} and m.left_at is null) as "memberName",
      coalesce((
        select json_agg(json_build_object('id', f.id, 'name', f.name, 'grain', f.grain, 'sets', f.sets) order by f.id)
        from floral_source f where f.club_id = ${club}), '[]') as sources,
      coalesce((
        select json_agg(json_build_object('lotId', l.id, 'name', l.name, 'kind', l.kind, 'holderId', l.holder_id,
          'remainingMassG', l.remaining_mass_g, 'moistureCentiPercent', l.moisture_centi_percent,
          'extractedAt', (extract(epoch from l.extracted_on::timestamp at time zone 'UTC') * 1000)::int8,
          'shares', coalesce((
            select json_agg(json_build_object('floralSourceId', q.floral_source_id, 'centiPercent', q.centi_percent) order by q.floral_source_id)
            from lot_floral_share q where q.club_id = l.club_id and q.lot_id = l.id), '[]'),
          'plannedMassG', (
            select coalesce(sum(h.mass_g), 0) from batch_honey h where h.club_id = l.club_id and h.lot_id = l.id and not exists (
              select from batch_step t where t.club_id = h.club_id and t.batch_id = h.batch_id and t.kind in ('seeded', 'abandoned')))) order by l.id)
        from lot l where l.club_id = ${club} and l.id = any(${honeyLotIds}::uuid[])), '[]') as honey,
      coalesce((
        select json_agg(json_build_object('lotId', l.id, 'name', l.name, 'holderId', l.holder_id, 'holderName', p.name,
          'freeMassG', l.remaining_mass_g - l.reserved_g, 'reservedMassG', l.reserved_g, 'grain', l.grain, 'onHold', l.on_hold,
          'madeAt', (extract(epoch from l.created_at) * 1000)::int8,
          'shares', coalesce((
            select json_agg(json_build_object('floralSourceId', f.floral_source_id, 'part', f.part) order by f.floral_source_id)
            from floral f where f.seed_id = l.id), '[]')) order by l.holder_id <> ${member}, l.id desc)
        from seed l join member m on m.club_id = ${club} and m.id = l.holder_id join person p on p.id = m.person_id), '[]') as seed
    from club c where c.id = ${club}`;
}
