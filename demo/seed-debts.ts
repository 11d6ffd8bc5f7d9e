import {
  daysAfter,
  dayOf,
  type LoanEndRecord,
  type LoanRecord,
  type LoanReturnRecord,
} from './records';

/** More than that of a batch nobody puts by to give it back. */
const mostOfBatch = 0.2;

interface Debt {
  loan: LoanRecord;
  leftG: number;
}

/** Who owes whom seed: given back in kind from the next batches, the oldest first, in parts where one batch is not enough. */
export class SeedDebts {
  readonly returns: LoanReturnRecord[] = [];
  private readonly debts: Debt[] = [];

  lent(loan: LoanRecord): void {
    this.debts.push({ loan, leftG: loan.massG });
  }

  /** So much of a batch of that mass its maker puts by for what they owe. */
  putByG(member: string, massG: number, at: Date): number {
    const owedG = this.owedBy(member, at).reduce((sum, { leftG }) => sum + leftG, 0);
    return Math.min(owedG, Math.floor((massG * mostOfBatch) / 10) * 10);
  }

  /** Gives back what was put by for it. */
  giveBack(member: string, fromLot: string, putByG: number, pottedAt: Date, at: Date): void {
    let restG = putByG;
    for (const debt of this.owedBy(member, pottedAt)) {
      const massG = Math.min(debt.leftG, restG);
      if (massG === 0) return;
      restG -= massG;
      debt.leftG -= massG;
      const ref = `R${String(this.returns.length + 1).padStart(2, '0')}`;
      this.returns.push({ ref, loan: debt.loan.ref, fromLot, borrower: member, massG, at });
    }
  }

  /**
   * How it stands on that day: one loan is late, and of one the lender waives what is still owed; of all that came late the youngest stays
   * late, and the others are waived. Where nothing is late or waived by itself, a loan is made so.
   */
  settle(reference: Date): LoanEndRecord[] {
    const today = dayOf(reference);
    const late = this.debts.filter(({ loan, leftG }) => leftG > 0 && loan.dueOn < today);
    if (late.length === 0) this.makeLate(reference);
    const waived = late.length > 1 ? late.slice(0, -1) : this.cameInParts().slice(0, 1);
    for (const debt of waived.filter(({ leftG }) => leftG === 0)) this.takeBackLast(debt);
    return waived.map(({ loan: { ref, lender } }) => ({
      loan: ref,
      lender,
      note: 'It went into the jar for the summer party.',
    }));
  }

  /** The last loan that is a month old came to nothing yet, and was wanted back some days ago. */
  private makeLate(reference: Date): void {
    const monthAgo = daysAfter(reference, -30);
    const debt = this.debts.filter(({ loan }) => loan.at < monthAgo).at(-1);
    if (debt === undefined) return;
    while (debt.leftG < debt.loan.massG) this.takeBackLast(debt);
    debt.loan.dueOn = dayOf(daysAfter(reference, -5));
  }

  /** Loans that were given back whole, in two parts or more. */
  private cameInParts(): Debt[] {
    return this.debts.filter(
      ({ loan, leftG }) =>
        leftG === 0 && this.returns.filter((one) => one.loan === loan.ref).length > 1,
    );
  }

  private takeBackLast(debt: Debt): void {
    const last = this.returns.findLastIndex((one) => one.loan === debt.loan.ref);
    for (const { massG } of this.returns.splice(last, 1)) debt.leftG += massG;
  }

  private owedBy(member: string, at: Date): Debt[] {
    return this.debts
      .filter(({ loan, leftG }) => loan.borrower === member && leftG > 0 && loan.at < at)
      .sort((a, b) => a.loan.at.getTime() - b.loan.at.getTime());
  }
}
