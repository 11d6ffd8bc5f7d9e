import type { LotEdge } from './lot-graph';
import type { Fraction } from './rational';

/** What a lot's ledger says, in whole grams. */
export type LotMasses = {
  readonly lotId: string;
  /** What went into it from other lots; 0 for a lot that was brought in. */
  readonly inputMassG: number;
  readonly initialMassG: number;
  readonly remainingMassG: number;
  /** Used and lent: into other lots, or out of the club's sight. */
  readonly usedMassG: number;
  readonly lentMassG: number;
  readonly pottedMassG: number;
  readonly lostMassG: number;
};

/** Where the suspect lot's mass in one lot is, in whole grams. */
export type Whereabouts = {
  /** Still in the lot. */
  readonly inLotG: number;
  readonly pottedG: number;
  /** Taken out for some use that made no other lot. */
  readonly withdrawnG: number;
  /** Lost from the lot, or in making it. */
  readonly lostG: number;
};

/**
 * Where all of a suspect lot is now: for it and each of its descendants, how much of it is still there, in pots, withdrawn or lost.
 *
 * What is in a lot is spread evenly, so of each of its masses the suspect lot has its share. What went on into another lot is counted
 * there, what was lost in the making as lost by the lot that was made. So all whereabouts together are exactly the suspect lot's initial
 * mass; each is rounded to whole grams by the method of largest remainders (see `shareOut`), and the sum is still exactly that.
 *
 * `lots` must hold the suspect lot and all its descendants, `shares` the share of it in each (1 in itself), `edges` every input of the
 * descendants. RangeError when the ledgers and the inputs do not tell the same, so that mass would be lost or made.
 */
export function whereabouts(
  suspectId: string,
  lots: readonly LotMasses[],
  edges: readonly LotEdge[],
  shareOf: (lotId: string) => Fraction,
): ReadonlyMap<string, Whereabouts> {
  const intoLotsG = new Map<string, number>();
  for (const { parentId, massG } of edges) {
    intoLotsG.set(parentId, (intoLotsG.get(parentId) ?? 0) + massG);
  }
  const quotas = lots.flatMap((lot) => {
    const withdrawnG = lot.usedMassG + lot.lentMassG - (intoLotsG.get(lot.lotId) ?? 0);
    const inMakingG = lot.lotId === suspectId ? 0 : lot.inputMassG - lot.initialMassG;
    const massesG = [lot.remainingMassG, lot.pottedMassG, withdrawnG, lot.lostMassG + inMakingG];
    const share = shareOf(lot.lotId);
    return massesG.map((massG) => quotaOf(share, massG));
  });
  const suspect = lots.find(({ lotId }) => lotId === suspectId);
  const grams = toWholeGrams(quotas, BigInt(suspect?.initialMassG ?? 0));
  return new Map(
    lots.map(({ lotId }, index) => {
      const [inLotG = 0, pottedG = 0, withdrawnG = 0, lostG = 0] = grams.slice(
        4 * index,
        4 * index + 4,
      );
      return [lotId, { inLotG, pottedG, withdrawnG, lostG }];
    }),
  );
}

/** A mass in whole grams rounded down, and what is over in 2^-128 of a gram, rounded down. */
type Quota = { readonly wholeG: bigint; readonly over: bigint };

const OVER_BITS = 128n;

function quotaOf({ numerator, denominator }: Fraction, massG: number): Quota {
  const product = numerator * BigInt(massG);
  const wholeG = product / denominator;
  return { wholeG, over: ((product - wholeG * denominator) << OVER_BITS) / denominator };
}

function toWholeGrams(quotas: readonly Quota[], totalG: bigint): number[] {
  const grams = quotas.map(({ wholeG }) => Number(wholeG));
  const overG = Number(totalG - quotas.reduce((sum, { wholeG }) => sum + wholeG, 0n));
  const largestFirst = [...quotas.keys()]
    .filter((index) => (quotas[index]?.over ?? 0n) > 0n)
    .sort((a, b) => compare(quotas[b]?.over ?? 0n, quotas[a]?.over ?? 0n) || a - b);
  if (overG < 0 || overG > largestFirst.length) {
    throw new RangeError('ledgers and inputs must tell the same: mass would be lost or made');
  }
  for (const index of largestFirst.slice(0, overG)) grams[index] = (grams[index] ?? 0) + 1;
  return grams;
}

function compare(a: bigint, b: bigint): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
