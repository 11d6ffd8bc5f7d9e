import type { LotHistory } from '../core/epcis/lot-history';
import { Prisma } from '../platform/prisma-client/client';
import { loggedRows } from './logged-rows';

type Told<T> = T extends Date
  ? string
  : T extends readonly (infer Item)[]
    ? Told<Item>[]
    : T extends object
      ? { [Key in keyof T]: Told<T[Key]> }
      : T;

/** A history as the statement tells it: times are text yet. */
export type HistoryRow = Told<LotHistory>;

/** A lot, all that is in it, and everything on record of those: one row. */
export function historyRow(clubId: string, lotId: string): Prisma.Sql {
  return Prisma.sql`
    with recursive reached(id) as (
      select ${lotId}::uuid
      union
      select i.parent_id from reached r join lot_input i on i.club_id = ${clubId}::uuid and i.child_id = r.id
    ),
    found as (
      select l.* from reached r
      cross join lateral (select * from lot where club_id = ${clubId}::uuid and id = r.id offset 0) l
    ),
    batches as (select distinct batch_id as id from found where batch_id is not null)
    select ${lotId}::uuid as "lotId", c.id as "clubId", c.time_zone as "timeZone",
      coalesce((select json_agg(json_build_object('id', l.id, 'code', l.code, 'kind', l.kind, 'name', l.name,
        'initialMassG', l.initial_mass_g, 'batchId', l.batch_id, 'origin', l.origin,
        'extractedOn', to_char(l.extracted_on, 'YYYY-MM-DD'), 'recordedAt', l.created_at,
        'firstUsedAt', least(
          (select min(v.at) from lot_movement v where v.club_id = l.club_id and v.lot_id = l.id),
          (select min(s.at) from lot_input i
            join lot made on made.club_id = i.club_id and made.id = i.child_id
            join batch_step s on s.club_id = made.club_id and s.batch_id = made.batch_id and s.kind = 'loaded'
            where l.kind = 'honey' and i.club_id = l.club_id and i.parent_id = l.id)),
        'floralShares', coalesce((
          select json_agg(json_build_object('name', f.name, 'percent', s.centi_percent / 100.0) order by s.centi_percent desc, f.name)
          from lot_floral_share s join floral_source f on f.club_id = s.club_id and f.id = s.floral_source_id
          where s.club_id = l.club_id and s.lot_id = l.id), '[]'),
        'originShares', coalesce((
          select json_agg(json_build_object('countryCode', s.country_code, 'percent', s.centi_percent / 100.0)
            order by s.centi_percent desc, s.country_code)
          from lot_origin_share s where s.club_id = l.club_id and s.lot_id = l.id), '[]')) order by l.depth, l.id)
        from found l), '[]') as lots,
      coalesce((select json_agg(json_build_object('childId', i.child_id, 'parentId', i.parent_id, 'massG', i.mass_g, 'at', i.at)
        order by i.child_id, i.parent_id)
        from reached r
        cross join lateral (select * from lot_input where club_id = c.id and child_id = r.id offset 0) i), '[]') as inputs,
      coalesce((select json_agg(json_build_object('id', v.id, 'lotId', v.lot_id, 'kind', v.kind, 'massG', v.mass_g, 'at', v.at,
        'recordedAt', v.recorded_at) order by v.id)
        from reached r
        cross join lateral (
          select * from lot_movement where club_id = c.id and lot_id = r.id and into_lot_id is null offset 0) v), '[]') as movements,
      coalesce((select json_agg(json_build_object('id', n.id, 'toLotId', n.to_lot_id, 'lenderId', n.lender_id,
        'borrowerId', n.borrower_id) order by n.id)
        from reached r join (
          select id, to_lot_id, lender_id, borrower_id from loan where club_id = ${clubId}::uuid and to_lot_id is not null
          union all
          -- What is given back goes the other way.
          select b.id, b.to_lot_id, o.borrower_id, o.lender_id from loan_return b
          join loan o on o.club_id = b.club_id and o.id = b.loan_id where b.club_id = ${clubId}::uuid) n on n.to_lot_id = r.id), '[]') as loans,
      coalesce((select json_agg(json_build_object('batchId', s.batch_id, 'at', s.at, 'deciC', s.temperature_deci_c) order by s.kind)
        from batches b join batch_step s on s.club_id = c.id and s.batch_id = b.id
        where s.temperature_deci_c is not null and s.kind <= 'seeded'), '[]') as temperatures,
      coalesce((${loggedRows(clubId)}), '[]') as logged,
      coalesce((select json_agg(json_build_object('batchId', p.batch_id, 'netMassG', p.net_mass_g, 'count', p.count)
        order by p.batch_id, p.net_mass_g desc)
        from batches b join batch_pots p on p.club_id = c.id and p.batch_id = b.id), '[]') as pots
    from club c where c.id = ${clubId}::uuid`;
}

/** The same with times. */
export function toHistory(row: HistoryRow): LotHistory {
  const dated = <Event extends { at: string }>(event: Event) => ({
    ...event,
    at: new Date(event.at),
  });
  return {
    ...row,
    lots: row.lots.map((lot) => ({
      ...lot,
      recordedAt: new Date(lot.recordedAt),
      firstUsedAt: lot.firstUsedAt === null ? null : new Date(lot.firstUsedAt),
    })),
    inputs: row.inputs.map(dated),
    movements: row.movements.map((movement) => ({
      ...dated(movement),
      recordedAt: new Date(movement.recordedAt),
    })),
    temperatures: row.temperatures.map(dated),
    logged: row.logged.map((logged) => ({
      ...dated(logged),
      firstAt: new Date(logged.firstAt),
      lastAt: new Date(logged.lastAt),
      recordedAt: new Date(logged.recordedAt),
    })),
  };
}
