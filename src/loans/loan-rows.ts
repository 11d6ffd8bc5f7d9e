import { Prisma } from '../platform/prisma-client/client';

/** A loan with all that its answer shows. */
export interface LoanRow {
  id: string;
  lenderId: string;
  lenderName: string;
  borrowerId: string;
  borrowerName: string;
  fromLotId: string;
  fromLotName: string;
  toLotId: string;
  toLotName: string;
  massG: number;
  lentAt: Date;
  dueOn: string | null;
  note: string;
}

/** The loans of a club for which `condition` holds, the newest first; `n` is the loan. */
export function loanRows(clubId: string, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select n.id, n.lender_id as "lenderId", lp.name as "lenderName", n.borrower_id as "borrowerId", bp.name as "borrowerName",
      n.from_lot_id as "fromLotId", f.name as "fromLotName", n.to_lot_id as "toLotId", t.name as "toLotName",
      n.mass_g as "massG", n.lent_at as "lentAt", to_char(n.due_on, 'YYYY-MM-DD') as "dueOn", n.note
    from loan n
    join member lm on lm.club_id = n.club_id and lm.id = n.lender_id
    join person lp on lp.id = lm.person_id
    join member bm on bm.club_id = n.club_id and bm.id = n.borrower_id
    join person bp on bp.id = bm.person_id
    join lot f on f.club_id = n.club_id and f.id = n.from_lot_id
    join lot t on t.club_id = n.club_id and t.id = n.to_lot_id
    where n.club_id = ${clubId}::uuid and ${condition}
    order by n.id desc limit ${limit}::int`;
}
