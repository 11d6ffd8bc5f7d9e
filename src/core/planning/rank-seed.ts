import type { Grain } from '../honey/seed-grain';

const FROM_FINE_TO_COARSE: readonly Grain[] = ['fine', 'medium', 'coarse'];

/** Parts of the whole by floral source, 0 to 1. */
export type FloralParts = ReadonlyMap<string, number>;

export interface SeedLot {
  readonly lotId: string;
  /** What remains and is not reserved, whole grams. */
  readonly freeMassG: number;
  /** Null: not on record. */
  readonly grain: Grain | null;
  readonly floralParts: FloralParts;
  /** When it was made or brought in, epoch milliseconds. */
  readonly madeAt: number;
  /** How smooth the batches it made became, 0 to 1; left out or null: nothing is known. */
  readonly textureScore?: number | null;
  /** Whether it need not be borrowed first; yes, unless told otherwise. */
  readonly isOwn?: boolean;
  /** Whether it may not be used until it is released; no, unless told otherwise. */
  readonly onHold?: boolean;
}

export interface SeedWish {
  readonly massG: number;
  /** In which the honey would set by itself; null: not known. */
  readonly honeyGrain: Grain | null;
  readonly floralParts: FloralParts;
}

/** What speaks against a lot, the gravest first. */
export type SeedObstacle = 'on-hold' | 'too-little' | 'too-coarse';

export interface RankedSeed<Lot extends SeedLot = SeedLot> {
  readonly lot: Lot;
  /** None: it fits. */
  readonly obstacles: readonly SeedObstacle[];
  /** The part of lot and honey that is of the same floral sources, whole percent. */
  readonly percentInCommon: number;
}

/** The gravest obstacle decides; seed that is too coarse could still be used, too little of it together with other. */
const gravity: Record<SeedObstacle, number> = { 'on-hold': 3, 'too-little': 2, 'too-coarse': 1 };

/**
 * Which seed fits a honey, the best first? A lot fits when it is not held back, enough of it is free and its grain is not coarser than the
 * honey would set by itself; a grain that is not on record is let pass. The better one is
 * 1. the one with the lesser obstacle: none, too coarse, too little, on hold,
 * 2. of known grain,
 * 3. nearer in floral source, by whole percents in common, so that the label stays true to the source,
 * 4. the one whose batches became smoother, by tenths of the score; nothing known counts as between smooth and gritty,
 * 5. finer,
 * 6. one's own rather than one to be borrowed,
 * 7. fresher: crystals of old seed have grown,
 * and the id decides what is left. Every lot given is in the answer once. Source: common practice, no source.
 */
export function rankSeed<Lot extends SeedLot>(
  lots: readonly Lot[],
  wish: SeedWish,
): RankedSeed<Lot>[] {
  return lots
    .map((lot) => ({
      lot,
      obstacles: obstaclesOf(lot, wish),
      percentInCommon: Math.round(100 * partInCommon(lot.floralParts, wish.floralParts)),
    }))
    .sort(
      (a, b) =>
        gravityOf(a) - gravityOf(b) ||
        Number(a.lot.grain === null) - Number(b.lot.grain === null) ||
        b.percentInCommon - a.percentInCommon ||
        tenthsOf(b.lot) - tenthsOf(a.lot) ||
        rank(a.lot.grain) - rank(b.lot.grain) ||
        Number(b.lot.isOwn ?? true) - Number(a.lot.isOwn ?? true) ||
        b.lot.madeAt - a.lot.madeAt ||
        (a.lot.lotId < b.lot.lotId ? -1 : 1),
    );
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

function obstaclesOf(lot: SeedLot, { massG, honeyGrain }: SeedWish): SeedObstacle[] {
  const isTooCoarse =
    honeyGrain !== null && lot.grain !== null && rank(lot.grain) > rank(honeyGrain);
  return [
    ...(lot.onHold === true ? ['on-hold' as const] : []),
    ...(lot.freeMassG < massG ? ['too-little' as const] : []),
    ...(isTooCoarse ? ['too-coarse' as const] : []),
  ];
}

function gravityOf({ obstacles: [gravest] }: RankedSeed): number {
  return gravest === undefined ? 0 : gravity[gravest];
}

const NOTHING_KNOWN = 0.5;

function tenthsOf({ textureScore }: SeedLot): number {
  return Math.round(10 * (textureScore ?? NOTHING_KNOWN));
}

function rank(grain: Grain | null): number {
  return grain === null ? FROM_FINE_TO_COARSE.length : FROM_FINE_TO_COARSE.indexOf(grain);
}
