/** A loan of which something is still owed: whole grams, above 0. */
export interface OwedLoan {
  readonly id: string;
  readonly lenderId: string;
  readonly borrowerId: string;
  readonly owedMassG: number;
}

/** What stands between two members, all loans either way taken together. */
export interface PairBalance<Loan extends OwedLoan = OwedLoan> {
  /** Who has seed to come; of two who are even, the one with the smaller id. */
  readonly creditorId: string;
  readonly debtorId: string;
  /** What the debtor owes the creditor beyond what they are owed: grams, 0 or more. */
  readonly netMassG: number;
  /** In the order given. */
  readonly loans: readonly Loan[];
}

export interface MemberBalance {
  readonly memberId: string;
  /** Grams that others owe this member, and that this member owes others. */
  readonly owedToG: number;
  readonly owesG: number;
}

export interface Balances<Loan extends OwedLoan = OwedLoan> {
  /** By the ids of creditor and debtor. */
  readonly pairs: readonly PairBalance<Loan>[];
  /** Those with an open loan, by id. */
  readonly members: readonly MemberBalance[];
}

/**
 * Who owes whom how much seed: net between every two members with an open loan, and for each member. To the gram: what all are owed is what
 * all owe.
 */
export function balancesOf<Loan extends OwedLoan>(loans: readonly Loan[]): Balances<Loan> {
  const byPair = new Map<string, Loan[]>();
  const members = new Map<string, { owedToG: number; owesG: number }>();
  const member = (id: string) => {
    const known = members.get(id) ?? { owedToG: 0, owesG: 0 };
    members.set(id, known);
    return known;
  };
  for (const loan of loans) {
    const key = [loan.lenderId, loan.borrowerId].sort().join(' ');
    byPair.set(key, [...(byPair.get(key) ?? []), loan]);
    member(loan.lenderId).owedToG += loan.owedMassG;
    member(loan.borrowerId).owesG += loan.owedMassG;
  }
  return {
    pairs: [...byPair.values()].map(pairOf).sort(byIds),
    members: [...members]
      .map(([memberId, masses]) => ({ memberId, ...masses }))
      .sort((a, b) => (a.memberId < b.memberId ? -1 : 1)),
  };
}

function pairOf<Loan extends OwedLoan>(loans: readonly Loan[]): PairBalance<Loan> {
  const [one = '', other = ''] = loans.slice(0, 1).flatMap((loan) => idsOf(loan).sort());
  const owedToOneG = loans.reduce(
    (sum, loan) => sum + (loan.lenderId === one ? loan.owedMassG : -loan.owedMassG),
    0,
  );
  return owedToOneG >= 0
    ? { creditorId: one, debtorId: other, netMassG: owedToOneG, loans }
    : { creditorId: other, debtorId: one, netMassG: -owedToOneG, loans };
}

function idsOf({ lenderId, borrowerId }: OwedLoan): string[] {
  return [lenderId, borrowerId];
}

function byIds(a: PairBalance, b: PairBalance): number {
  return `${a.creditorId} ${a.debtorId}` < `${b.creditorId} ${b.debtorId}` ? -1 : 1;
}
