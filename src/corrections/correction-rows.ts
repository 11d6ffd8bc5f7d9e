import { Prisma } from '../platform/prisma-client/client';

/** A correction with all that its answer shows. */
export interface CorrectionRow {
  id: string;
  lotId: string;
  wrongLotId: string;
  wrongLotName: string;
  rightLotId: string | null;
  rightLotName: string | null;
  massG: number;
  because: string;
  recordedById: string;
  recordedByName: string;
  recordedAt: Date;
  firstRecord: { massG: number; at: string; byId: string; byName: string; recordedAt: string };
  inputs: { lotId: string; name: string; massG: number }[];
}

/** The corrections of a club for which `condition` holds, the newest first; `c` is the correction. */
export function correctionRows(clubId: string, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select c.id, c.child_id as "lotId", c.wrong_parent_id as "wrongLotId", w.name as "wrongLotName",
      c.right_parent_id as "rightLotId", r.name as "rightLotName", c.mass_g as "massG", c.because,
      c.recorded_by_id as "recordedById", p.name as "recordedByName", c.recorded_at as "recordedAt",
      (select json_build_object('massG', v.mass_g, 'at', v.at, 'byId', v.recorded_by_id, 'byName', vp.name, 'recordedAt', v.recorded_at)
        from lot_movement v
        join member vm on vm.club_id = v.club_id and vm.id = v.recorded_by_id
        join person vp on vp.id = vm.person_id
        where v.club_id = c.club_id and v.lot_id = c.wrong_parent_id and v.into_lot_id = c.child_id and v.mass_g > 0
        order by v.id limit 1) as "firstRecord",
      coalesce((
        select json_agg(json_build_object('lotId', i.parent_id, 'name', l.name, 'massG', i.mass_g) order by i.mass_g desc, i.parent_id)
        from lot_input i join lot l on l.club_id = i.club_id and l.id = i.parent_id
        where i.club_id = c.club_id and i.child_id = c.child_id), '[]') as inputs
    from lot_correction c
    join lot w on w.club_id = c.club_id and w.id = c.wrong_parent_id
    left join lot r on r.club_id = c.club_id and r.id = c.right_parent_id
    join member m on m.club_id = c.club_id and m.id = c.recorded_by_id
    join person p on p.id = m.person_id
    where c.club_id = ${clubId}::uuid and ${condition}
    order by c.id desc limit ${limit}::int`;
}
