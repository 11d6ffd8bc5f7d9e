import { Prisma } from '../platform/prisma-client/client';
import type { Grain, LotKind, MovementKind } from '../platform/prisma-client/enums';

/** A lot with all that its answer shows. */
export interface LotRow {
  id: string;
  code: string;
  kind: LotKind;
  name: string;
  holderId: string;
  holderName: string;
  initialMassG: number;
  remainingMassG: number;
  reservedMassG: number;
  usedMassG: number;
  lentMassG: number;
  pottedMassG: number;
  lostMassG: number;
  inputMassG: number;
  depth: number;
  moistureCentiPercent: number | null;
  refractiveIndexE5: number | null;
  readAtDeciC: number | null;
  extractedOn: string | null;
  origin: string;
  grain: Grain | null;
  note: string;
  batchId: string | null;
  createdAt: Date;
  floralShares: { floralSourceId: string; name: string; centiPercent: number }[];
  originShares: { countryCode: string; centiPercent: number }[];
  onHold: string[];
}

/** The lots of a club for which `condition` holds; `l` is the lot. */
export function lotRows(clubId: string, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select l.id, l.code, l.kind::text as kind, l.name, l.holder_id as "holderId", p.name as "holderName",
      l.initial_mass_g as "initialMassG", l.remaining_mass_g as "remainingMassG",
      (select coalesce(sum(r.mass_g), 0)::int from batch_seed r
        where r.club_id = l.club_id and r.lot_id = l.id and r.active) as "reservedMassG", l.used_mass_g as "usedMassG",
      l.lent_mass_g as "lentMassG", l.potted_mass_g as "pottedMassG", l.lost_mass_g as "lostMassG",
      l.input_mass_g as "inputMassG", l.depth, l.moisture_centi_percent as "moistureCentiPercent",
      l.refractive_index_e5 as "refractiveIndexE5", l.read_at_deci_c as "readAtDeciC",
      to_char(l.extracted_on, 'YYYY-MM-DD') as "extractedOn", l.origin, l.grain::text as grain, l.note,
      l.batch_id as "batchId", l.created_at as "createdAt",
      coalesce((
        select json_agg(json_build_object('floralSourceId', s.floral_source_id, 'name', f.name, 'centiPercent', s.centi_percent)
          order by s.centi_percent desc, s.floral_source_id)
        from lot_floral_share s join floral_source f on f.club_id = s.club_id and f.id = s.floral_source_id
        where s.club_id = l.club_id and s.lot_id = l.id), '[]') as "floralShares",
      coalesce((
        select json_agg(json_build_object('countryCode', s.country_code, 'centiPercent', s.centi_percent)
          order by s.centi_percent desc, s.country_code)
        from lot_origin_share s where s.club_id = l.club_id and s.lot_id = l.id), '[]') as "originShares",
      case when exists (select from hold where club_id = ${clubId}::uuid and released_at is null)
        then coalesce((select json_agg(reaching order by reaching) from holds_reaching(l.club_id, l.id) reaching), '[]')
        else '[]' end as "onHold"
    from lot l
    join member m on m.club_id = l.club_id and m.id = l.holder_id
    join person p on p.id = m.person_id
    where l.club_id = ${clubId}::uuid and ${condition}
    order by l.id desc limit ${limit}::int`;
}

/** Mass that left a lot, with all that its answer shows. */
export interface MovementRow {
  id: string;
  kind: MovementKind;
  massG: number;
  intoLotId: string | null;
  intoLotName: string | null;
  at: Date;
  note: string;
  recordedById: string;
  recordedByName: string;
  recordedAt: Date;
  correctionId: string | null;
}

/** The movements of a club's lots for which `condition` holds, as they were recorded; `v` is the movement. */
export function movementRows(clubId: string, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select v.id, v.kind::text as kind, v.mass_g as "massG", v.into_lot_id as "intoLotId", o.name as "intoLotName", v.at, v.note,
      v.recorded_by_id as "recordedById", p.name as "recordedByName", v.recorded_at as "recordedAt",
      v.correction_id as "correctionId"
    from lot_movement v
    left join lot o on o.club_id = v.club_id and o.id = v.into_lot_id
    join member m on m.club_id = v.club_id and m.id = v.recorded_by_id
    join person p on p.id = m.person_id
    where v.club_id = ${clubId}::uuid and ${condition}
    order by v.id limit ${limit}::int`;
}
