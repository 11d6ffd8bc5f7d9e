import { lotGraph, orderFrom, type LotEdge } from './lot-graph';
import { compareFractions, type Fraction } from './rational';
import { addShares, ALL, NONE, partOf, type Share } from './share';
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
  if (!made.has(lotId)) return new Map([[lotId, ALL]]);
  const founding = new Map<string, Fraction>();
  for (const [ancestorId, { share }] of ancestorShares(edges, lotId)) {
    if (!made.has(ancestorId)) founding.set(ancestorId, share);
  }
  return founding;
}

/**
 * What a lot consists of by floral source, by origin, or by whatever else the keys stand for: the sum,
 * over its founding lots, of the lot's share times the part of the key in it, reckoned from the founding lots
 * on: a lot is made of what its inputs are made of, each by its mass. Exact while it is short, above 0, summing
 * to 1; the greatest weight first, equal weights by key.
 *
 * `makeups` must list every founding lot of the lot; what is not known deserves a key of its own. The
 * parts of a founding lot are whole hundredths of a percent that sum to 10,000. RangeError otherwise.
 */
export function composition(
  edges: readonly LotEdge[],
  lotId: string,
  makeups: ReadonlyMap<string, readonly MakeupPart[]>,
): ReadonlyMap<string, Share> {
  const { inputs, inputMassG } = lotGraph(edges);
  const inputsOf = (id: string): readonly LotEdge[] => inputs.get(id) ?? [];
  const order = orderFrom(lotId, (id) => inputsOf(id).map(({ parentId }) => parentId));
  const weightsOf = new Map<string, ReadonlyMap<string, Share>>();
  for (const id of order.reverse()) {
    const wholeG = inputMassG.get(id);
    weightsOf.set(
      id,
      wholeG === undefined
        ? statedWeights(checkedMakeup(id, makeups))
        : mixedWeights(inputsOf(id), wholeG, weightsOf),
    );
  }
  const present = [...(weightsOf.get(lotId) ?? [])].filter(([, weight]) => weight.numerator > 0n);
  return new Map(
    present.sort(([keyA, a], [keyB, b]) => compareFractions(b, a) || (keyA < keyB ? -1 : 1)),
  );
}

function statedWeights(parts: readonly MakeupPart[]): ReadonlyMap<string, Share> {
  const weights = new Map<string, Share>();
  for (const { key, hundredthsOfPercent } of parts) {
    if (hundredthsOfPercent === 0) continue;
    const part = partOf(ALL, BigInt(hundredthsOfPercent), BigInt(WHOLE_HUNDREDTHS_OF_PERCENT));
    weights.set(key, addShares(weights.get(key) ?? NONE, part));
  }
  return weights;
}

/** What a lot is made of: the weights of its inputs, each by its mass. */
function mixedWeights(
  inputs: readonly LotEdge[],
  wholeG: bigint,
  weightsOf: ReadonlyMap<string, ReadonlyMap<string, Share>>,
): ReadonlyMap<string, Share> {
  const weights = new Map<string, Share>();
  for (const { parentId, massG } of inputs) {
    for (const [key, weight] of weightsOf.get(parentId) ?? []) {
      const part = partOf(weight, BigInt(massG), wholeG);
      weights.set(key, addShares(weights.get(key) ?? NONE, part));
    }
  }
  return weights;
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
