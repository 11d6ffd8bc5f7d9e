import { meltedFraction, meltingHeatJPerKg, type MeltingRange } from './crystals';
import { requirePositive, requireRange } from './require-range';

export interface BlendPart {
  massG: number;
  temperatureC: number;
  waterPercent: number;
  specificHeatJPerKgK: number;
}

/** Softened, not melted: the crystals it still has, and the range they melt over. */
export interface SeedPart extends BlendPart, MeltingRange {
  crystalPercent: number;
}

export interface Blend {
  massG: number;
  waterPercent: number;
  /** Once evened out, the melting of seed crystals paid for. */
  temperatureC: number;
  /** Part of the seed's crystals that melts in the blend, 0 to 1, not counting what had melted before. */
  seedMelted: number;
  /** The honey alone is warm enough to melt crystals where it first meets the seed. */
  meltsOnContact: boolean;
  /** Above 28 °C: warmer than any published recipe stirs seed in. */
  tooWarm: boolean;
  /** Above 24 and up to 28 °C: within published recipes, warmer than the cautious ones. */
  warmish: boolean;
}

/** FAO Bulletin 124: warm the mix to no more than 24 to 28 °C; others bring the honey to 24 °C. */
export const SEEDING_C = { cautious: 24, warmest: 28 } as const;

/**
 * What does stirring seed into honey give: how warm, how moist, and does the seed survive?
 *
 * Mass and water add up; temperature from the heat balance: mass · specific heat · change of both
 * parts, plus the heat of the seed crystals that melt, is zero. Crystals melt evenly over their
 * range and those already melted at the seed's own temperature do not count. No heat from the mixer
 * or to the room.
 * Source: heat balance; melting heat and ranges: crystals.ts (Venir et al. 2010; Lupano 1997);
 * recipe temperatures: FAO Bulletin 124.
 * Range: masses above 0; −20 to 80 °C; 13 to 25 % water; crystals 0 to 25 %.
 * Example: 25 kg at 30 °C and 2.5 kg of seed at 18 °C, alike in the rest: 28.9 °C.
 *
 * @throws RangeError outside that range.
 */
export function blendSeed(honey: BlendPart, seed: SeedPart): Blend {
  checkPart(honey);
  checkPart(seed);
  requireRange('crystalPercent', seed.crystalPercent, 0, 25);
  const meltedBefore = meltedFraction(seed.temperatureC, seed);
  const meltedAt = (temperatureC: number) =>
    Math.max(0, meltedFraction(temperatureC, seed) - meltedBefore);

  const meltingJ = (seed.massG / 1000) * meltingHeatJPerKg(seed.crystalPercent);
  const heatJ = (part: BlendPart, temperatureC: number) =>
    (part.massG / 1000) * part.specificHeatJPerKgK * (temperatureC - part.temperatureC);
  const balanceJ = (temperatureC: number) =>
    heatJ(honey, temperatureC) + heatJ(seed, temperatureC) + meltingJ * meltedAt(temperatureC);

  let low = Math.min(honey.temperatureC, seed.temperatureC);
  let high = Math.max(honey.temperatureC, seed.temperatureC);
  for (let halving = 0; halving < 60; halving += 1) {
    const middle = (low + high) / 2;
    if (balanceJ(middle) > 0) high = middle;
    else low = middle;
  }
  const temperatureC = (low + high) / 2;
  const massG = honey.massG + seed.massG;
  const waterG = honey.massG * honey.waterPercent + seed.massG * seed.waterPercent;
  return {
    massG,
    waterPercent: waterG / massG,
    temperatureC,
    seedMelted: meltedAt(temperatureC),
    meltsOnContact: honey.temperatureC > seed.meltingFromC,
    tooWarm: temperatureC > SEEDING_C.warmest,
    warmish: temperatureC > SEEDING_C.cautious && temperatureC <= SEEDING_C.warmest,
  };
}

function checkPart(part: BlendPart): void {
  requirePositive('massG', part.massG);
  requireRange('temperatureC', part.temperatureC, -20, 80);
  requireRange('waterPercent', part.waterPercent, 13, 25);
  requirePositive('specificHeatJPerKgK', part.specificHeatJPerKgK);
}
