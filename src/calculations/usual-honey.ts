/**
 * What a honey is taken to be where nobody said. 17.2 % water: White et al. 1962, USDA Technical Bulletin 1261, mean of 490 samples.
 * 15 g of crystals per 100 g: a usual set honey, from memory (medium).
 */
export const USUAL = { moisturePercent: 17.2, crystalPercent: 15 } as const;
