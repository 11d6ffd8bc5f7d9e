import { notify } from '../notices/notify';
import type { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { isOverdue, loanRows, type LoanRow } from './loan-rows';
import { loanDetails } from './tell-of-loan';

const job = { requestId: 'sweep-overdue-loans', ifMatch: null, idempotency: null };
const atOnce = 500;

/**
 * Tells borrower and lender of each loan of which something is still owed after its day, by the club's calendar: once, and once more
 * when that day was moved and is over, too. Changes no loan. For a job that runs every minute; several at a time do no harm. Answers of how many it told.
 */
export async function sweepOverdueLoans(database: Database, now: Date): Promise<number> {
  const late = await database.rows<{ clubId: string; id: string }>(Prisma.sql`
    select n.club_id as "clubId", n.id from loan n join club c on c.id = n.club_id
    where ${isOverdue(now)} and not exists (
      select from notice t where t.club_id = n.club_id and t.member_id = n.borrower_id and t.event = 'loan.overdue ' || n.id || ' ' || n.due_on)
    order by n.id limit ${atOnce}::int`);
  for (const clubId of new Set(late.map((one) => one.clubId))) {
    const ids = late.filter((one) => one.clubId === clubId).map(({ id }) => id);
    await database.write(job, async (tx) => {
      // Read anew: what was given back meanwhile is owed no more.
      const rows = await tx.$queryRaw<LoanRow[]>(
        loanRows(clubId, Prisma.sql`n.id = any(${ids}::uuid[]) and ${isOverdue(now)}`, atOnce, now),
      );
      await notify(tx, clubId, rows.flatMap(newsOf));
    });
  }
  return late.length;
}

function newsOf(loan: LoanRow) {
  return [loan.borrowerId, loan.lenderId]
    .filter((memberId) => memberId !== null)
    .map((memberId) => ({
      memberId,
      kind: 'loan.overdue',
      event: `loan.overdue ${loan.id} ${loan.dueOn ?? ''}`,
      subjectId: loan.id,
      details: loanDetails(loan),
    }));
}
