/** Seed that one member lent to another; `at` is epoch milliseconds. */
export interface LentSeed {
  id: string;
  lenderId: string;
  borrowerId: string;
  /** Whole grams. */
  massG: number;
  at: number;
}

/**
 * How many grams of each loan are still to be given back, by the loan's id; loans that are given back whole are left out.
 *
 * Seed is given back in kind: what the borrower lends to the lender later counts first towards what they owe, the oldest loan first, and
 * only the rest of it is a loan of its own.
 */
export function openLoans(loans: readonly LentSeed[]): Map<string, number> {
  const open = new Map<string, number>();
  const inOrder = [...loans].sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
  inOrder.forEach((loan, index) => {
    let leftG = loan.massG;
    for (const earlier of inOrder.slice(0, index)) {
      const owedG = open.get(earlier.id);
      const isOwed = earlier.lenderId === loan.borrowerId && earlier.borrowerId === loan.lenderId;
      if (owedG === undefined || !isOwed || leftG === 0) continue;
      const backG = Math.min(owedG, leftG);
      leftG -= backG;
      if (backG === owedG) open.delete(earlier.id);
      else open.set(earlier.id, owedG - backG);
    }
    if (leftG > 0) open.set(loan.id, leftG);
  });
  return open;
}
