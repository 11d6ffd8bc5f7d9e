import { notify } from '../notices/notify';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { kgOf } from '../platform/fields';
import type { LoanRow } from './loan-rows';

/** Tells both sides of a loan, but not whoever filed it. */
export async function tellOfLoan(
  tx: Transaction,
  caller: ClubCaller,
  loan: LoanRow,
): Promise<void> {
  const details = {
    lotName: loan.fromLotName,
    massKg: kgOf(loan.massG),
    lender: loan.lenderName,
    borrower: loan.borrowerName,
    byName: caller.personName,
    dueOn: loan.dueOn,
  };
  const sides = [
    { memberId: loan.borrowerId, kind: 'loan.received' },
    { memberId: loan.lenderId, kind: 'loan.given' },
  ];
  await notify(
    tx,
    caller.clubId,
    sides
      .filter(({ memberId }) => memberId !== caller.memberId)
      .map((side) => ({ ...side, event: `${side.kind} ${loan.id}`, subjectId: loan.id, details })),
  );
}
