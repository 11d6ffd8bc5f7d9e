import { Injectable } from '@nestjs/common';
import { deedsOf } from '../core/loans/loan-deeds';
import { invalidField, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { Prisma } from '../platform/prisma-client/client';
import { dayOf, holdLoan, readLoan, refuseOthers } from './held-loan';
import type { LoanRow } from './loan-rows';
import type { LoanChange } from './loans.requests';
import { toLoanResponse, type LoanResponse } from './loans.responses';
import { tellOfLoan } from './tell-of-loan';

/** The day by which lent seed is wanted back is the lender's to move, while something is owed. */
@Injectable()
export class DueDaysService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  change(caller: ClubCaller, id: string, { dueOn }: LoanChange): Promise<LoanResponse> {
    const { clubId } = caller;
    const now = this.clock.now();
    return this.database.write(caller, async (tx) => {
      const loan = await holdLoan(tx, caller, id, now);
      refuseOthers(caller, loan.lenderId, 'the lender');
      refuseIfStale(caller, toLoanResponse(loan));
      if (dueOn === undefined || dueOn === loan.dueOn) return toLoanResponse(loan);
      refuseUnlessOwed(loan);
      await refuseDayOver(tx, clubId, dueOn, now);
      await tx.loan.update({
        where: { clubId_id: { clubId, id } },
        data: { dueOn: dayOf(dueOn) },
      });
      await audit(tx, caller, 'loan.due-changed', id, { from: loan.dueOn, to: dueOn });
      const row = await readLoan(tx, caller, id, now);
      const told = [row.borrowerId, row.lenderId].map((memberId) => ({
        memberId,
        kind: 'loan.due-changed',
      }));
      // It may be moved to and fro.
      const event = `${id} ${now.toISOString()}`;
      await tellOfLoan(tx, caller, row, told, { event, details: { dueBefore: loan.dueOn } });
      return toLoanResponse(row);
    });
  }
}

function refuseUnlessOwed({ state }: LoanRow): void {
  if (state === 'lent') return;
  throw new Refusal(
    'loan-out-of-order',
    `The loan is ${state}: only of what was handed over and is still owed the day is moved.`,
    { offers: { state, next: deedsOf(state) } },
  );
}

/** Nobody is late from one moment to the next: the day is not over yet, by the clock of the club. */
async function refuseDayOver(
  tx: Transaction,
  clubId: string,
  dueOn: string | null,
  now: Date,
): Promise<void> {
  if (dueOn === null) return;
  const [club] = await tx.$queryRaw<{ today: string }[]>(Prisma.sql`
    select to_char(${now}::timestamptz at time zone time_zone, 'YYYY-MM-DD') as today from club where id = ${clubId}::uuid`);
  if (club !== undefined && dueOn < club.today) {
    throw invalidField('#/dueOn', `That day is over: name ${club.today} or a later one.`);
  }
}
