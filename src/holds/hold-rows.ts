import { Prisma } from '../platform/prisma-client/client';
import type { LotKind } from '../platform/prisma-client/enums';

/** A hold with all that its answer shows. */
export interface HoldRow {
  id: string;
  lotId: string;
  lotName: string;
  reason: string;
  evidence: string;
  placedById: string;
  placedByName: string;
  placedAt: Date;
  releasedAt: Date | null;
  releasedById: string | null;
  releasedByName: string | null;
  releasedBecause: string;
  releaseEvidence: string;
  branches: {
    lotId: string;
    lotName: string;
    releasedById: string;
    releasedByName: string;
    releasedAt: string;
    because: string;
    evidence: string;
  }[];
}

/** The holds of a club for which `condition` holds, the newest first; `h` is the hold. */
export function holdRows(clubId: string, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select h.id, h.lot_id as "lotId", l.name as "lotName", h.reason, h.evidence, h.placed_by_id as "placedById", p.name as "placedByName",
      h.placed_at as "placedAt", h.released_at as "releasedAt", h.released_by_id as "releasedById", rp.name as "releasedByName",
      h.released_because as "releasedBecause", h.release_evidence as "releaseEvidence",
      coalesce((
        select json_agg(json_build_object('lotId', b.lot_id, 'lotName', bl.name, 'releasedById', b.released_by_id,
          'releasedByName', bp.name, 'releasedAt', b.released_at, 'because', b.because, 'evidence', b.evidence)
          order by b.released_at, b.lot_id)
        from branch_release b
        join lot bl on bl.club_id = b.club_id and bl.id = b.lot_id
        join member bm on bm.club_id = b.club_id and bm.id = b.released_by_id
        join person bp on bp.id = bm.person_id
        where b.club_id = h.club_id and b.hold_id = h.id), '[]') as branches
    from hold h
    join lot l on l.club_id = h.club_id and l.id = h.lot_id
    join member m on m.club_id = h.club_id and m.id = h.placed_by_id
    join person p on p.id = m.person_id
    left join member rm on rm.club_id = h.club_id and rm.id = h.released_by_id
    left join person rp on rp.id = rm.person_id
    where h.club_id = ${clubId}::uuid and ${condition}
    order by h.id desc limit ${limit}::int`;
}

/** A lot that a hold reaches. */
export interface ReachedRow {
  lotId: string;
  name: string;
  kind: LotKind;
  holderId: string;
  holderName: string;
  remainingMassG: number;
}

/** The lots that an open hold reaches, the held lot first. */
export function reachedRows(clubId: string, holdId: string): Prisma.Sql {
  return Prisma.sql`
    select l.id as "lotId", l.name, l.kind::text as kind, l.holder_id as "holderId", p.name as "holderName",
      l.remaining_mass_g as "remainingMassG"
    from lots_under_hold(${clubId}::uuid, ${holdId}::uuid) reached
    cross join lateral (select * from lot where club_id = ${clubId}::uuid and id = reached offset 0) l
    join member m on m.club_id = l.club_id and m.id = l.holder_id
    join person p on p.id = m.person_id
    where exists (select from hold where club_id = ${clubId}::uuid and id = ${holdId}::uuid and released_at is null)
    order by l.depth, l.id`;
}
