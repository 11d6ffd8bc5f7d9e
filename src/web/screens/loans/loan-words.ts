import { text } from '../../text';
import type { Loan, LoanDeed } from './loan-queries';

const words = text.loans;

type Side = { id: string; name: string } | null;

/** What happened, seen by one of the members: "You lent Ines 1 kg". */
export function loanSentence(loan: Loan, memberId: string, mass: string): string {
  const isLenderFirst = loan.state !== 'asked';
  const name = (side: Side, isFirst: boolean) => {
    if (side === null) return words.anybody;
    if (side.id !== memberId) return side.name;
    return isFirst ? words.you : words.youObject;
  };
  const isFirstSaid =
    loan.state === 'lent' || loan.state === 'offered' || loan.state === 'accepted';
  return words.sentences[loan.state](
    name(loan.lender, isFirstSaid && isLenderFirst),
    name(loan.borrower, loan.state === 'asked'),
    mass,
  );
}

/** Which of the next deeds are this member's to do. The service decides; this only spares buttons that it would refuse. */
export function deedsOf(loan: Loan, memberId: string, isSteward: boolean): LoanDeed[] {
  const { lender, borrower, beganAs, state } = loan;
  const lenderId = lender?.id ?? null;
  const [beginnerId, addresseeId] =
    beganAs === 'asked' ? [borrower.id, lenderId] : [lenderId, borrower.id];
  const isIts = (id: string | null) => id === memberId || (isSteward && id !== null);
  const may: Record<LoanDeed, boolean> = {
    // Anybody was asked: whoever has some says yes.
    accept: addresseeId === null ? borrower.id !== memberId : isIts(addresseeId),
    decline: isIts(addresseeId),
    withdraw:
      isIts(beginnerId) ||
      (state === 'accepted' && (lenderId === memberId || borrower.id === memberId)),
    'hand-over': isIts(lenderId),
    return: isIts(borrower.id),
    forgive: isIts(lenderId),
    'move-day': state === 'lent' && isIts(lenderId),
  };
  return [...loan.next, 'move-day' as const].filter((deed) => may[deed]);
}

/** Whether somebody waits for this member: to answer, to hand over, or to give back what is overdue. */
export function isTurnOf(loan: Loan, memberId: string): boolean {
  const deeds = deedsOf(loan, memberId, false);
  return (
    deeds.includes('accept') ||
    deeds.includes('hand-over') ||
    (deeds.includes('return') && loan.overdue)
  );
}
