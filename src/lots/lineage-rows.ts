import type { LotEdge } from '../core/lineage/lot-graph';
import { Prisma } from '../platform/prisma-client/client';
import type { LotKind } from '../platform/prisma-client/enums';

/** A lot as a trace needs it. */
export interface TracedLot {
  id: string;
  code: string;
  kind: LotKind;
  name: string;
  holderId: string;
  holderName: string;
  initialMassG: number;
}

/** What a founding lot is stated to consist of. */
export interface StatedParts {
  lotId: string;
  floral: { key: string; name: string; centiPercent: number }[];
  origin: { key: string; centiPercent: number }[];
}

/** Each column by itself: of a thousand lots that is half the work to write and to read. */
type Columns<Row> = { [Key in keyof Row]: Row[Key][] | null };

export interface LineageRow {
  lots: Columns<TracedLot>;
  edges: Columns<LotEdge>;
  /** Of founding lots; none on the way down. */
  stated: StatedParts[];
}

/** The rows that columns of one length make up; none when they are empty. */
export function rowsOf<Row extends object>(columns: Columns<Row>): Row[] {
  const names = Object.keys(columns) as (keyof Row)[];
  const [first] = names;
  const count = first === undefined ? 0 : (columns[first]?.length ?? 0);
  return Array.from({ length: count }, (_, index) => {
    const row = {} as Row;
    for (const name of names) row[name] = columns[name]?.[index] as Row[keyof Row];
    return row;
  });
}

// `offset 0` keeps each look-up by key: how many lots a trace reaches the planner cannot know, and it would rather read the whole club.

const tracedLots = (clubId: string) => Prisma.sql`
  (select json_build_object('id', json_agg(l.id), 'code', json_agg(l.code), 'kind', json_agg(l.kind), 'name', json_agg(l.name), 'holderId', json_agg(l.holder_id),
      'holderName', json_agg(p.name), 'initialMassG', json_agg(l.initial_mass_g))
    from reached r
    cross join lateral (select * from lot where club_id = ${clubId}::uuid and id = r.id offset 0) l
    join member m on m.club_id = l.club_id and m.id = l.holder_id
    join person p on p.id = m.person_id) as lots`;

const inputsOf = (clubId: string) => Prisma.sql`
  (select json_build_object('childId', json_agg(i.child_id), 'parentId', json_agg(i.parent_id), 'massG', json_agg(i.mass_g))
    from reached r
    cross join lateral (select * from lot_input where club_id = ${clubId}::uuid and child_id = r.id offset 0) i) as edges`;

/** The lot, all that is in it, what went into what, and what the founding lots consist of: one row. */
export function upwards(clubId: string, lotId: string): Prisma.Sql {
  return Prisma.sql`
    with recursive reached(id) as (
      select ${lotId}::uuid
      union
      select i.parent_id from reached r join lot_input i on i.club_id = ${clubId}::uuid and i.child_id = r.id
    )
    select ${tracedLots(clubId)}, ${inputsOf(clubId)},
      coalesce((
        select json_agg(json_build_object('lotId', l.id,
          'floral', coalesce((
            select json_agg(json_build_object('key', s.floral_source_id, 'name', f.name, 'centiPercent', s.centi_percent))
            from lot_floral_share s join floral_source f on f.club_id = s.club_id and f.id = s.floral_source_id
            where s.club_id = l.club_id and s.lot_id = l.id), '[]'),
          'origin', coalesce((
            select json_agg(json_build_object('key', s.country_code, 'centiPercent', s.centi_percent))
            from lot_origin_share s where s.club_id = l.club_id and s.lot_id = l.id), '[]')))
        from reached r
        cross join lateral (select * from lot where club_id = ${clubId}::uuid and id = r.id and depth = 0 offset 0) l), '[]') as stated`;
}

/** The lot, all that it is in, and every input of those, related or not: one row. */
export function downwards(clubId: string, lotId: string): Prisma.Sql {
  return Prisma.sql`
    with recursive reached(id) as (
      select ${lotId}::uuid
      union
      select i.child_id from reached r join lot_input i on i.club_id = ${clubId}::uuid and i.parent_id = r.id
    )
    select ${tracedLots(clubId)}, ${inputsOf(clubId)}, '[]'::json as stated`;
}
