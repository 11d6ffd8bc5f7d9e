import { requirePositive, requireRange } from './require-range';

/**
 * The two ways in which makers speak of the same seed. "Ten per cent" may mean 10 g of seed for every
 * 100 g of honey (9.1 % of the blend) or 10 g in every 100 g of blend (11.1 g for 100 g of honey).
 */
export interface SeedShares {
  perHundredOfHoney: number;
  percentOfBlend: number;
}

export interface SeedAndHoney {
  honeyMassG: number;
  seedMassG: number;
  blendMassG: number;
}

/**
 * How much seed does this honey take, at so many grams of seed for every 100 g of honey?
 *
 * seed = honey · share / 100; blend = honey + seed. A mass balance.
 * Range: honey above 0 g; share above 0 up to 100. Example: 25 kg at 10 per 100 take 2.5 kg.
 *
 * @throws RangeError outside that range.
 */
export function seedPerHoney(honeyMassG: number, perHundredOfHoney: number): SeedAndHoney {
  requirePositive('honeyMassG', honeyMassG);
  requireShare('perHundredOfHoney', perHundredOfHoney, 100);
  const seedMassG = (honeyMassG * perHundredOfHoney) / 100;
  return { honeyMassG, seedMassG, blendMassG: honeyMassG + seedMassG };
}

/**
 * How much seed does this honey take, if seed is to be so many per cent of the blend?
 *
 * seed = honey · share / (100 − share). A mass balance.
 * Range: honey above 0 g; share above 0 up to 50 %. Example: 22.5 kg at 10 % of the blend take 2.5 kg.
 *
 * @throws RangeError outside that range.
 */
export function seedForBlendShare(honeyMassG: number, percentOfBlend: number): SeedAndHoney {
  requirePositive('honeyMassG', honeyMassG);
  requireShare('percentOfBlend', percentOfBlend, 50);
  const seedMassG = (honeyMassG * percentOfBlend) / (100 - percentOfBlend);
  return { honeyMassG, seedMassG, blendMassG: honeyMassG + seedMassG };
}

/**
 * How much honey and seed make a blend of this mass, seed being so many per cent of it?
 *
 * Whole grams: seed rounded to the nearest gram, honey the rest, so that they add up exactly.
 * Range: blend a whole number of grams, 2 or more; share above 0 up to 50 %.
 * Example: 30 kg at 10 % of the blend are 3 kg of seed and 27 kg of honey.
 *
 * @throws RangeError outside that range.
 */
export function splitBlend(blendMassG: number, percentOfBlend: number): SeedAndHoney {
  if (!Number.isInteger(blendMassG)) throw new RangeError('blendMassG must be whole grams');
  requireRange('blendMassG', blendMassG, 2, Infinity);
  requireShare('percentOfBlend', percentOfBlend, 50);
  const seedMassG = Math.max(1, Math.round((blendMassG * percentOfBlend) / 100));
  return { honeyMassG: blendMassG - seedMassG, seedMassG, blendMassG };
}

/**
 * What do these masses come to in either way of speaking?
 *
 * Range: both masses above 0 g. Example: 2.5 kg into 25 kg: 10 per 100 of honey, 9.09 % of the blend.
 *
 * @throws RangeError outside that range.
 */
export function seedShares(honeyMassG: number, seedMassG: number): SeedShares {
  requirePositive('honeyMassG', honeyMassG);
  requirePositive('seedMassG', seedMassG);
  return {
    perHundredOfHoney: (100 * seedMassG) / honeyMassG,
    percentOfBlend: (100 * seedMassG) / (honeyMassG + seedMassG),
  };
}

function requireShare(name: string, share: number, highest: number): void {
  requireRange(name, requirePositive(name, share), 0, highest);
}
