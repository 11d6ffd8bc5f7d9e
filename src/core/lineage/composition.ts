import type { LotEdge } from './lot-graph';
import {
  addFractions,
  compareFractions,
  multiplyFractions,
  ONE,
  reduceFraction,
  ZERO,
  type Fraction,
} from './rational';
import { ancestorShares } from './shares';

/** One part of what a founding lot is made of: so many hundredths of a percent (0 to 10,000) of `key`. */
export type MakeupPart = { readonly key: string; readonly hundredthsOfPercent: number };

const WHOLE_HUNDREDTHS_OF_PERCENT = 10_000;

/**
 * The lots without inputs that are in this lot, with their exact shares, which sum to 1: what was
 * brought in from outside. A lot that was itself brought in is its own founding lot, share 1.
 * Needs the same edges, and throws the same errors, as `ancestorShares`.
 */
export function foundingShares(
  edges: readonly LotEdge[],
  lotId: string,
): ReadonlyMap<string, Fraction> {
  const made = new Set(edges.map((edge) => edge.childId));
  if (!made.has(lotId)) return new Map([[lotId, ONE]]);
  const founding = new Map<string, Fraction>();
  for (const [ancestorId, { share }] of ancestorShares(edges, lotId)) {
    if (!made.has(ancestorId)) founding.set(ancestorId, share);
  }
  return founding;
}

/**
 * What a lot consists of by floral source, by origin, or by whatever else the keys stand for: the sum,
 * over its founding lots, of the lot's share times the part of the key in it. Exact, above 0, summing
 * to 1; the greatest weight first, equal weights by key.
 *
 * `makeups` must list every founding lot of the lot; what is not known deserves a key of its own. The
 * parts of a founding lot are whole hundredths of a percent that sum to 10,000. RangeError otherwise.
 */
export function composition(
  edges: readonly LotEdge[],
  lotId: string,
  makeups: ReadonlyMap<string, readonly MakeupPart[]>,
): ReadonlyMap<string, Fraction> {
  const weights = new Map<string, Fraction>();
  for (const [foundingId, share] of foundingShares(edges, lotId)) {
    for (const part of checkedMakeup(foundingId, makeups)) {
      // Not reduced, so that all weights of one key keep the same denominator.
      const ofLot: Fraction = {
        numerator: BigInt(part.hundredthsOfPercent),
        denominator: BigInt(WHOLE_HUNDREDTHS_OF_PERCENT),
      };
      const weight = multiplyFractions(share, ofLot);
      weights.set(part.key, addFractions(weights.get(part.key) ?? ZERO, weight));
    }
  }
  const present = [...weights]
    .filter(([, weight]) => weight.numerator > 0n)
    .map(([key, weight]): [string, Fraction] => [key, reduceFraction(weight)]);
  return new Map(
    present.sort(([keyA, a], [keyB, b]) => compareFractions(b, a) || (keyA < keyB ? -1 : 1)),
  );
}

function checkedMakeup(
  lotId: string,
  makeups: ReadonlyMap<string, readonly MakeupPart[]>,
): readonly MakeupPart[] {
  const parts = makeups.get(lotId);
  if (!parts) throw new RangeError(`makeups must list founding lot ${lotId}`);
  let sum = 0;
  for (const { key, hundredthsOfPercent } of parts) {
    if (
      !Number.isInteger(hundredthsOfPercent) ||
      hundredthsOfPercent < 0 ||
      hundredthsOfPercent > WHOLE_HUNDREDTHS_OF_PERCENT
    ) {
      throw new RangeError(
        `hundredthsOfPercent must be a whole number from 0 to ${WHOLE_HUNDREDTHS_OF_PERCENT}, ` +
          `got ${hundredthsOfPercent} for ${key} in founding lot ${lotId}`,
      );
    }
    sum += hundredthsOfPercent;
  }
  if (sum !== WHOLE_HUNDREDTHS_OF_PERCENT) {
    throw new RangeError(
      `makeups must sum to ${WHOLE_HUNDREDTHS_OF_PERCENT}, got ${sum} for founding lot ${lotId}`,
    );
  }
  return parts;
}
