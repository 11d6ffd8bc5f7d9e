import { rankSeed, type SeedLot, type SeedObstacle, type SeedWish } from './rank-seed';

export interface SeedChoice<Lot extends SeedLot = SeedLot> {
  /** Those that fit, the best first. */
  readonly fitting: readonly Lot[];
  /** With the gravest of what speaks against each. */
  readonly unfit: readonly { readonly lot: Lot; readonly because: SeedObstacle }[];
}

/** Which seed for a honey? Those that fit and those that do not, both in the order of `rankSeed`. */
export function chooseSeed<Lot extends SeedLot>(
  lots: readonly Lot[],
  wish: SeedWish,
): SeedChoice<Lot> {
  const ranked = rankSeed(lots, wish);
  return {
    fitting: ranked.filter(({ obstacles }) => obstacles.length === 0).map(({ lot }) => lot),
    unfit: ranked.flatMap(({ lot, obstacles: [because] }) =>
      because === undefined ? [] : [{ lot, because }],
    ),
  };
}
