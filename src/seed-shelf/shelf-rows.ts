import type { TextureCounts } from '../core/seed/texture-score';
import type { LotEdge } from '../core/lineage/lot-graph';
import type { LotKind } from '../core/lineage/seed-line';
import type { StatedParts } from '../lots/lineage-rows';
import { Prisma } from '../platform/prisma-client/client';
import type { Grain } from '../platform/prisma-client/enums';

/** Seed of which something is left, as the shelf shows it. Times are epoch milliseconds. */
export interface ShelfLot {
  id: string;
  code: string;
  name: string;
  holderId: string;
  holderName: string;
  remainingMassG: number;
  reservedMassG: number;
  /** Lent from it and still owed. */
  lentOutMassG: number;
  grain: Grain | null;
  /** When the seed was made or brought in; of lent seed, before it was lent. */
  madeAt: number;
  /** Whether it may not be used until it is released. */
  onHold: boolean;
  textures: TextureCounts;
  standsAt: { stationId: string; stationName: string; places: number[]; until: number } | null;
}

/** A page of the shelf, with all that is in its seed. */
export interface ShelfRow {
  lots: ShelfLot[];
  kinds: { id: string; kind: LotKind }[];
  edges: LotEdge[];
  stated: StatedParts[];
  /** Of all the club's batches. */
  clubTextures: TextureCounts;
}

/** Whether the lot `l` is seed of which something is left. */
export const isOnShelf = Prisma.sql`l.kind = 'seed' and l.remaining_mass_g > 0`;

/** Whether a seed lot may not be used until it is released. The one place that says so for shelf and ranking. */
const onHold = Prisma.sql`exists (select from hold h where h.club_id = l.club_id and h.released_at is null)
  and exists (select from holds_reaching(l.club_id, l.id))`;

/** Whether some of the lot `l` is of that floral source, over all its ancestors. */
export function isPartlyOf(clubId: string, floralSourceId: string): Prisma.Sql {
  return Prisma.sql`exists (
    with recursive up(id) as (
      select l.id
      union
      select i.parent_id from up join lot_input i on i.club_id = ${clubId}::uuid and i.child_id = up.id
    )
    select from up join lot_floral_share s on s.club_id = ${clubId}::uuid and s.lot_id = up.id
    where s.floral_source_id = ${floralSourceId}::uuid)`;
}

const counts = Prisma.sql`json_build_object('smooth', count(*) filter (where k.texture = 'smooth'),
  'grainy', count(*) filter (where k.texture = 'grainy'), 'gritty', count(*) filter (where k.texture = 'gritty'))`;

/**
 * The club's seed lots of which something is left and for which `condition` holds, in one row; `l` is the lot. Lent seed, and seed given back
 * as it is, is the same seed in other hands: it has the age of the lot that it was lent from, and shares in what all of it made.
 */
export function shelfRow(
  clubId: string,
  now: Date,
  { condition, order, limit }: { condition: Prisma.Sql; order: Prisma.Sql; limit: number },
): Prisma.Sql {
  const club = Prisma.sql`${clubId}::uuid`;
  return Prisma.sql`
    with recursive page as materialized (
      select l.*, row_number() over (order by ${order}) as place
      from lot l where l.club_id = ${club} and ${isOnShelf} and ${condition}
      order by ${order} limit ${limit}::int
    ), reached(id) as (
      select id from page
      union
      select i.parent_id from reached r join lot_input i on i.club_id = ${club} and i.child_id = r.id
    ), lent_from(root, id) as (
      select id, id from page
      union
      select s.root, i.parent_id from lent_from s join lot_input i on i.club_id = ${club} and i.child_id = s.id and i.kind = 'lent'
    ), origin(root, id) as materialized (
      select s.root, s.id from lent_from s
      where not exists (select from lot_input i where i.club_id = ${club} and i.child_id = s.id and i.kind = 'lent')
    ), same(root, id) as (
      select root, id from origin
      union
      select s.root, i.child_id from same s join lot_input i on i.club_id = ${club} and i.parent_id = s.id and i.kind = 'lent'
    ), looked as materialized (
      select distinct on (x.batch_id) x.batch_id, x.texture from setting_check x
      where x.club_id = ${club} and x.struck_at is null and x.texture is not null
      order by x.batch_id, x.at desc, x.id desc
    ), made as (
      select distinct s.root, c.batch_id from same s
      join lot_input i on i.club_id = ${club} and i.parent_id = s.id
      join lot c on c.club_id = i.club_id and c.id = i.child_id and c.kind = 'creamed' and c.batch_id is not null
    )
    select
      coalesce((select json_agg(json_build_object('id', l.id, 'code', l.code, 'name', l.name, 'holderId', l.holder_id, 'holderName', p.name,
          'remainingMassG', l.remaining_mass_g, 'grain', l.grain, 'onHold', ${onHold},
          'reservedMassG', (select coalesce(sum(r.mass_g), 0) from batch_seed r
            where r.club_id = l.club_id and r.lot_id = l.id and r.active),
          'lentOutMassG', (select coalesce(sum(n.mass_g - n.returned_mass_g - n.forgiven_mass_g), 0) from loan n
            where n.club_id = l.club_id and n.from_lot_id = l.id and n.state = 'lent'),
          'madeAt', (select round(extract(epoch from coalesce(
              (select max(i.at) from lot_input i where i.club_id = f.club_id and i.child_id = f.id),
              f.extracted_on::timestamp at time zone 'UTC', f.created_at)) * 1000)::float8
            from origin o join lot f on f.club_id = ${club} and f.id = o.id where o.root = l.id limit 1),
          'textures', (select ${counts} from made m join looked k on k.batch_id = m.batch_id where m.root = l.id),
          'standsAt', (select json_build_object('stationId', w.id, 'stationName', w.name,
              'until', round(extract(epoch from b.ends_at) * 1000)::float8,
              'places', (select coalesce(json_agg(e.number order by e.number), '[]') from booking_place h
                join place e on e.club_id = h.club_id and e.id = h.place_id where h.club_id = b.club_id and h.booking_id = b.id))
            from booking b join station w on w.club_id = b.club_id and w.id = b.station_id
            where b.club_id = l.club_id and b.batch_id = l.batch_id and b.duty = 'cool' and b.active and b.kept_until is null
              and b.cleared_at is null and b.starts_at <= ${now} and (b.ends_at > ${now} or b.arrived_at is not null)
            order by b.starts_at desc, b.id limit 1)) order by l.place)
        from page l
        join member m on m.club_id = l.club_id and m.id = l.holder_id
        join person p on p.id = m.person_id), '[]') as lots,
      coalesce((select json_agg(json_build_object('id', l.id, 'kind', l.kind)) from reached r
        cross join lateral (select id, kind from lot where club_id = ${club} and id = r.id offset 0) l), '[]') as kinds,
      coalesce((select json_agg(json_build_object('childId', i.child_id, 'parentId', i.parent_id, 'massG', i.mass_g)) from reached r
        cross join lateral (select * from lot_input where club_id = ${club} and child_id = r.id offset 0) i), '[]') as edges,
      coalesce((select json_agg(json_build_object('lotId', l.id,
          'floral', coalesce((select json_agg(json_build_object('key', s.floral_source_id, 'name', f.name, 'centiPercent', s.centi_percent))
            from lot_floral_share s join floral_source f on f.club_id = s.club_id and f.id = s.floral_source_id
            where s.club_id = ${club} and s.lot_id = l.id), '[]'),
          'origin', coalesce((select json_agg(json_build_object('key', s.country_code, 'centiPercent', s.centi_percent))
            from lot_origin_share s where s.club_id = ${club} and s.lot_id = l.id), '[]'))) from reached r
        cross join lateral (select id from lot where club_id = ${club} and id = r.id and depth = 0 offset 0) l), '[]') as stated,
      (select ${counts} from looked k) as "clubTextures"`;
}
