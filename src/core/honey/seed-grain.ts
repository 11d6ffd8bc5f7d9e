const FROM_FINE_TO_COARSE = ['fine', 'medium', 'coarse'] as const;

export type Grain = (typeof FROM_FINE_TO_COARSE)[number];

export interface GrainForecast {
  /** The set honey will have the seed's grain. */
  expected: Grain;
  /** The seed is coarser than the honey would set by itself: the batch would be spoilt, not helped. */
  seedTooCoarse: boolean;
}

/**
 * How fine will a batch set, and is this seed too coarse for this honey?
 *
 * Grain follows the seed: fine seed in a honey that sets coarse gives a fine set; coarse seed in a
 * fine honey gives a coarse one. Source: common practice.
 * Example: coarse seed in fine honey: expected coarse, seed too coarse.
 */
export function grainForecast(seed: Grain, honey: Grain): GrainForecast {
  const rank = (grain: Grain) => FROM_FINE_TO_COARSE.indexOf(grain);
  return { expected: seed, seedTooCoarse: rank(seed) > rank(honey) };
}
