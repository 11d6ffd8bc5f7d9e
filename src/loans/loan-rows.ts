import { Prisma } from '../platform/prisma-client/client';
import type { LoanBeginning, LoanState } from '../platform/prisma-client/enums';

/** A loan with all that its answer shows. */
export interface LoanRow {
  id: string;
  state: LoanState;
  beganAs: LoanBeginning;
  /** Null: asked for from anybody. */
  lenderId: string | null;
  lenderName: string | null;
  borrowerId: string;
  borrowerName: string;
  /** Null: no lot was named yet. */
  fromLotId: string | null;
  fromLotName: string | null;
  /** Null until it is handed over, as is `lentAt`. */
  toLotId: string | null;
  toLotName: string | null;
  massG: number;
  returnedMassG: number;
  forgivenMassG: number;
  owedMassG: number;
  begunAt: Date;
  acceptedAt: Date | null;
  lentAt: Date | null;
  dueOn: string | null;
  overdue: boolean;
  note: string;
  endedAt: Date | null;
  endedById: string | null;
  endedByName: string | null;
  endedBecause: string;
}

/** What is still owed for the loan `n`. */
export const owedMassG = Prisma.sql`(case when n.state = 'lent' then n.mass_g - n.returned_mass_g - n.forgiven_mass_g else 0 end)`;

/** Whether something is still owed for the loan `n` after the day it was wanted back by, by the clock of the club `c`. */
export function isOverdue(now: Date): Prisma.Sql {
  return Prisma.sql`(n.state = 'lent' and n.due_on is not null and n.due_on < (${now}::timestamptz at time zone c.time_zone)::date)`;
}

/** Whether the loan `n`, or what was given back for it, went out of that lot or into it. */
export function isAbout(lotId: string): Prisma.Sql {
  return Prisma.sql`(${lotId}::uuid in (n.from_lot_id, n.to_lot_id) or exists (
    select from loan_return r where r.club_id = n.club_id and r.loan_id = n.id and ${lotId}::uuid in (r.from_lot_id, r.to_lot_id)))`;
}

/** The loans of a club for which `condition` holds, the newest first; `n` is the loan, `c` the club. */
export function loanRows(
  clubId: string,
  condition: Prisma.Sql,
  limit: number,
  now: Date,
): Prisma.Sql {
  return Prisma.sql`
    select n.id, n.state::text as state, n.began_as::text as "beganAs", n.lender_id as "lenderId", lp.name as "lenderName",
      n.borrower_id as "borrowerId", bp.name as "borrowerName", n.from_lot_id as "fromLotId", f.name as "fromLotName",
      n.to_lot_id as "toLotId", t.name as "toLotName", n.mass_g as "massG", n.returned_mass_g as "returnedMassG",
      n.forgiven_mass_g as "forgivenMassG", ${owedMassG} as "owedMassG", n.begun_at as "begunAt", n.accepted_at as "acceptedAt",
      n.lent_at as "lentAt", to_char(n.due_on, 'YYYY-MM-DD') as "dueOn", ${isOverdue(now)} as overdue, n.note,
      n.ended_at as "endedAt", n.ended_by_id as "endedById", ep.name as "endedByName", n.ended_because as "endedBecause"
    from loan n
    join club c on c.id = n.club_id
    left join member lm on lm.club_id = n.club_id and lm.id = n.lender_id
    left join person lp on lp.id = lm.person_id
    join member bm on bm.club_id = n.club_id and bm.id = n.borrower_id
    join person bp on bp.id = bm.person_id
    left join member em on em.club_id = n.club_id and em.id = n.ended_by_id
    left join person ep on ep.id = em.person_id
    left join lot f on f.club_id = n.club_id and f.id = n.from_lot_id
    left join lot t on t.club_id = n.club_id and t.id = n.to_lot_id
    where n.club_id = ${clubId}::uuid and ${condition}
    order by n.id desc limit ${limit}::int`;
}

/** Seed given back for a loan, with all that its answer shows. */
export interface LoanReturnRow {
  id: string;
  fromLotId: string;
  fromLotName: string;
  toLotId: string;
  toLotName: string;
  massG: number;
  at: Date;
  note: string;
  recordedById: string;
  recordedByName: string;
  recordedAt: Date;
}

/** What was given back for a loan, as it was recorded; `r` is the return. */
export function loanReturnRows(clubId: string, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select r.id, r.from_lot_id as "fromLotId", f.name as "fromLotName", r.to_lot_id as "toLotId", t.name as "toLotName",
      r.mass_g as "massG", r.at, r.note, r.recorded_by_id as "recordedById", p.name as "recordedByName", r.recorded_at as "recordedAt"
    from loan_return r
    join lot f on f.club_id = r.club_id and f.id = r.from_lot_id
    join lot t on t.club_id = r.club_id and t.id = r.to_lot_id
    join member m on m.club_id = r.club_id and m.id = r.recorded_by_id
    join person p on p.id = m.person_id
    where r.club_id = ${clubId}::uuid and ${condition}
    order by r.id limit ${limit}::int`;
}
