import { Prisma } from '../platform/prisma-client/client';
import type { LotKind, MovementKind } from '../platform/prisma-client/enums';

/** A lot that the suspect one is in, or the suspect one itself, with what a recall needs to know of it. */
export interface RecalledLot {
  lotId: string;
  code: string;
  kind: LotKind;
  name: string;
  holderId: string;
  holderName: string;
  inputMassG: number;
  initialMassG: number;
  remainingMassG: number;
  usedMassG: number;
  lentMassG: number;
  pottedMassG: number;
  lostMassG: number;
  /** Where the batch that made it is now, as far as it is booked. */
  places: { stationName: string; numbers: number[]; endsAt: string }[];
  pots: { netMassG: number; count: number }[];
  loans: { borrowerName: string; lotId: string; massG: number; at: string }[];
  withdrawals: { kind: MovementKind; massG: number; at: string; note: string }[];
  onHold: string[];
}

export interface RecallRow {
  clubName: string;
  timeZone: string;
  lots: RecalledLot[];
  edges: { childId: string; parentId: string; massG: number }[];
}

// `offset 0` keeps each look-up by key: how many lots a trace reaches the planner cannot know.

const placesNow = (now: Date) => Prisma.sql`
  coalesce((
    select json_agg(json_build_object('stationName', s.name, 'endsAt', b.ends_at, 'numbers', (
      select json_agg(p.number order by p.number) from booking_place bp
      join place p on p.club_id = bp.club_id and p.id = bp.place_id
      where bp.club_id = b.club_id and bp.booking_id = b.id)) order by b.starts_at, b.id)
    from booking b join station s on s.club_id = b.club_id and s.id = b.station_id
    where l.kind = 'creamed' and b.club_id = l.club_id and b.batch_id = l.batch_id and b.active
      and b.starts_at <= ${now} and b.ends_at > ${now}), '[]')`;

const pots = Prisma.sql`
  coalesce((
    select json_agg(json_build_object('netMassG', q.net_mass_g, 'count', q.count) order by q.net_mass_g)
    from batch_pots q where l.kind = 'creamed' and q.club_id = l.club_id and q.batch_id = l.batch_id), '[]')`;

/** Seed of a lot that went into other hands: lent, or given back for seed that was lent. */
const loans = Prisma.sql`
  coalesce((
    select json_agg(json_build_object('borrowerName', gp.name, 'lotId', g.lot_id, 'massG', g.mass_g, 'at', g.at) order by g.id)
    from (
      select n.id, n.borrower_id as member_id, n.to_lot_id as lot_id, n.mass_g, n.lent_at as at from loan n
      where n.club_id = l.club_id and n.from_lot_id = l.id and n.to_lot_id is not null
      union all
      select r.id, n.lender_id, r.to_lot_id, r.mass_g, r.at from loan_return r
      join loan n on n.club_id = r.club_id and n.id = r.loan_id
      where r.club_id = l.club_id and r.from_lot_id = l.id) g
    join member gm on gm.club_id = l.club_id and gm.id = g.member_id
    join person gp on gp.id = gm.person_id), '[]')`;

const withdrawals = Prisma.sql`
  coalesce((
    select json_agg(json_build_object('kind', v.kind, 'massG', v.mass_g, 'at', v.at, 'note', v.note) order by v.at, v.id)
    from lot_movement v where v.club_id = l.club_id and v.lot_id = l.id and v.into_lot_id is null), '[]')`;

/** The suspect lot, all that it is in, and what went into those: one row; no lots when there is none of that id. */
export function recallRow(clubId: string, lotId: string, now: Date): Prisma.Sql {
  return Prisma.sql`
    with recursive reached(id) as (
      select ${lotId}::uuid
      union
      select i.child_id from reached r join lot_input i on i.club_id = ${clubId}::uuid and i.parent_id = r.id
    ),
    held as (
      select reaching.lot_id, json_agg(h.id order by h.id) as ids
      from hold h cross join lateral lots_under_hold(h.club_id, h.id) reaching (lot_id)
      where h.club_id = ${clubId}::uuid and h.released_at is null group by reaching.lot_id
    )
    select c.name as "clubName", c.time_zone as "timeZone",
      coalesce((
        select json_agg(json_build_object('lotId', l.id, 'code', l.code, 'kind', l.kind, 'name', l.name, 'holderId', l.holder_id, 'holderName', p.name,
          'inputMassG', l.input_mass_g, 'initialMassG', l.initial_mass_g, 'remainingMassG', l.remaining_mass_g,
          'usedMassG', l.used_mass_g, 'lentMassG', l.lent_mass_g, 'pottedMassG', l.potted_mass_g, 'lostMassG', l.lost_mass_g,
          'places', ${placesNow(now)}, 'pots', ${pots}, 'loans', ${loans}, 'withdrawals', ${withdrawals},
          'onHold', coalesce(held.ids, '[]')) order by l.depth, l.id)
        from reached r
        cross join lateral (select * from lot where club_id = c.id and id = r.id offset 0) l
        join member m on m.club_id = l.club_id and m.id = l.holder_id
        join person p on p.id = m.person_id
        left join held on held.lot_id = l.id), '[]') as lots,
      coalesce((
        select json_agg(json_build_object('childId', i.child_id, 'parentId', i.parent_id, 'massG', i.mass_g))
        from reached r
        cross join lateral (select * from lot_input where club_id = c.id and child_id = r.id offset 0) i), '[]') as edges
    from club c where c.id = ${clubId}::uuid`;
}
