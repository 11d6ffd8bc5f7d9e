import { notify } from '../notices/notify';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { kgOf } from '../platform/fields';
import type { LoanRow } from './loan-rows';

export function loanDetails(loan: LoanRow): Record<string, string | number | boolean | null> {
  return {
    lotName: loan.fromLotName,
    massKg: kgOf(loan.massG),
    owedMassKg: kgOf(loan.owedMassG),
    lender: loan.lenderName,
    borrower: loan.borrowerName,
    dueOn: loan.dueOn,
  };
}

/** Tells members, once each, of what happened to a loan, but not whoever did it. `event` tells apart what may happen more than once. */
export async function tellOfLoan(
  tx: Transaction,
  caller: ClubCaller,
  loan: LoanRow,
  told: readonly { memberId: string | null; kind: string }[],
  more: { event?: string; details?: Record<string, string | number | null> } = {},
): Promise<void> {
  const details = { ...loanDetails(loan), byName: caller.personName, ...more.details };
  await notify(
    tx,
    caller.clubId,
    told.flatMap(({ memberId, kind }) =>
      memberId === null || memberId === caller.memberId
        ? []
        : [
            {
              memberId,
              kind,
              event: `${kind} ${more.event ?? loan.id}`,
              subjectId: loan.id,
              details,
            },
          ],
    ),
  );
}

/** Tells both sides that seed was handed over. */
export function tellOfHandover(tx: Transaction, caller: ClubCaller, loan: LoanRow): Promise<void> {
  return tellOfLoan(tx, caller, loan, [
    { memberId: loan.borrowerId, kind: 'loan.received' },
    { memberId: loan.lenderId, kind: 'loan.given' },
  ]);
}
