/** Where the honey of one lot is, in whole grams from 0 to 2^53 - 1. */
export type LotLedger = {
  readonly initialMassG: number;
  readonly remainingMassG: number;
  /** Went into other lots. */
  readonly usedMassG: number;
  /** Is with another member, to be returned in kind. */
  readonly lentMassG: number;
  readonly pottedMassG: number;
  readonly lostMassG: number;
};

export type LedgerCheck = {
  readonly closes: boolean;
  /** Grams not accounted for: above 0 when some are missing, below 0 when more left than came. */
  readonly unaccountedG: number;
};

/**
 * Does the ledger of a lot close? Unaccounted = initial - (remaining + used + lent + potted + lost), in
 * grams; it closes when that is exactly 0, without tolerance. Throws RangeError for an entry that is not
 * whole grams from 0 on, or a sum beyond 2^53 - 1.
 */
export function checkLedger(ledger: LotLedger): LedgerCheck {
  for (const [name, massG] of Object.entries(ledger)) requireWhole(name, massG);
  const whereabouts = [
    ledger.remainingMassG,
    ledger.usedMassG,
    ledger.lentMassG,
    ledger.pottedMassG,
    ledger.lostMassG,
  ];
  const accountedG = whereabouts.reduce((sum, massG) => sum + massG, 0);
  requireWhole('sum of all masses', accountedG);
  const unaccountedG = ledger.initialMassG - accountedG;
  return { closes: unaccountedG === 0, unaccountedG };
}

/**
 * Splits whole grams by whole weights so that not a gram is lost or made. Everyone first gets total
 * times weight / sum of weights rounded down; the grams still over go, one each, to the largest
 * remainders, of equal remainders to the earlier in the list. No part is a gram or more from its exact
 * quota, and a weight of 0 gets nothing.
 *
 * `totalG` and every weight are whole numbers from 0 to 2^53 - 1 and one weight is above 0; RangeError
 * otherwise. Source: the method of largest remainders, M. L. Balinski and H. P. Young, Fair
 * Representation (2nd edition, 2001), where it is called Hamilton's method.
 */
export function shareOut(totalG: number, weights: readonly number[]): number[] {
  requireWhole('totalG', totalG);
  for (const weight of weights) requireWhole('weights', weight);
  const weightSum = weights.reduce((sum, weight) => sum + BigInt(weight), 0n);
  if (weightSum === 0n) throw new RangeError('weights must hold at least one weight above 0');

  const quotas = weights.map((weight, index) => {
    const product = BigInt(totalG) * BigInt(weight);
    return { index, wholeG: Number(product / weightSum), remainder: product % weightSum };
  });
  const partsG = quotas.map((quota) => quota.wholeG);
  const overG = totalG - partsG.reduce((sum, partG) => sum + partG, 0);
  const largestFirst = [...quotas].sort((a, b) =>
    a.remainder === b.remainder ? a.index - b.index : a.remainder > b.remainder ? -1 : 1,
  );
  for (const { index, wholeG } of largestFirst.slice(0, overG)) partsG[index] = wholeG + 1;
  return partsG;
}

function requireWhole(name: string, value: number): void {
  if (!Number.isSafeInteger(value) || value < 0) {
    throw new RangeError(`${name} must be a whole number from 0 to 2^53 - 1, got ${value}`);
  }
}
