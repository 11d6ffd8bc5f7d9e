import type { Grain } from '../honey/seed-grain';

const FROM_FINE_TO_COARSE: readonly Grain[] = ['fine', 'medium', 'coarse'];

/** Parts of the whole by floral source, 0 to 1. */
export type FloralParts = ReadonlyMap<string, number>;

export interface SeedLot {
  readonly lotId: string;
  /** What remains and is not reserved. */
  readonly freeMassG: number;
  /** Null: not on record. */
  readonly grain: Grain | null;
  readonly floralParts: FloralParts;
  /** When it was made or brought in, epoch milliseconds. */
  readonly madeAt: number;
}

export interface SeedWish {
  readonly massG: number;
  /** In which the honey would set by itself; null: not known. */
  readonly honeyGrain: Grain | null;
  readonly floralParts: FloralParts;
}

export type UnfitBecause = 'too-little' | 'too-coarse';

export interface SeedChoice<Lot extends SeedLot = SeedLot> {
  /** Those that fit, the best first. */
  readonly fitting: readonly Lot[];
  readonly unfit: readonly { readonly lot: Lot; readonly because: UnfitBecause }[];
}

/**
 * Which seed for a honey? It fits when enough of it is free and its grain is not coarser than the honey would set by itself; a grain that is
 * not on record is let pass, but comes last. Of those that fit the better one is
 * 1. of known grain,
 * 2. nearer in floral source: the greater part that both have in common,
 * 3. finer,
 * 4. older, so that no seed is left to grow old,
 * and the id decides what is left. Masses in whole grams. Source: common practice, no source.
 */
export function chooseSeed<Lot extends SeedLot>(
  lots: readonly Lot[],
  wish: SeedWish,
): SeedChoice<Lot> {
  const fitting: Lot[] = [];
  const unfit: { lot: Lot; because: UnfitBecause }[] = [];
  for (const lot of lots) {
    const because = unfitBecause(lot, wish);
    if (because === null) fitting.push(lot);
    else unfit.push({ lot, because });
  }
  const inCommon = new Map(
    fitting.map((lot) => [lot.lotId, partInCommon(lot.floralParts, wish.floralParts)]),
  );
  fitting.sort(
    (a, b) =>
      Number(a.grain === null) - Number(b.grain === null) ||
      (inCommon.get(b.lotId) ?? 0) - (inCommon.get(a.lotId) ?? 0) ||
      rank(a.grain) - rank(b.grain) ||
      a.madeAt - b.madeAt ||
      (a.lotId < b.lotId ? -1 : 1),
  );
  return { fitting, unfit };
}

/**
 * The part of two honeys that is of the same floral sources: the sum of the smaller of both parts, 0 to 1. Example: all lime beside half
 * lime, half rape: 0.5.
 */
export function partInCommon(one: FloralParts, other: FloralParts): number {
  let sum = 0;
  for (const [floralSourceId, part] of one) sum += Math.min(part, other.get(floralSourceId) ?? 0);
  return sum;
}

function unfitBecause(lot: SeedLot, { massG, honeyGrain }: SeedWish): UnfitBecause | null {
  if (lot.freeMassG < massG) return 'too-little';
  if (honeyGrain !== null && lot.grain !== null && rank(lot.grain) > rank(honeyGrain)) {
    return 'too-coarse';
  }
  return null;
}

function rank(grain: Grain | null): number {
  return grain === null ? FROM_FINE_TO_COARSE.length : FROM_FINE_TO_COARSE.indexOf(grain);
}
