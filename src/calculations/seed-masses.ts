import {
  seedForBlendShare,
  seedPerHoney,
  seedShares,
  splitBlend,
  type SeedAndHoney,
} from '../core/honey/seed-mass';
import { gramsOf, kgOf } from '../platform/fields';
import { reckoned, rounded } from './reckoned';
import type { SeedingRequest } from './seeding.requests';
import type { SeedMasses } from './seeding.responses';

const places = {
  percentOfBlend: '#/percent',
  perHundredOfHoney: '#/percent',
  honeyMassG: '#/honeyKg',
  blendMassG: '#/wantedBlendKg',
};

/** Honey and seed to weigh, if percent is meant in that way. */
export function massesBy(
  convention: SeedingRequest['convention'],
  { honeyKg, wantedBlendKg, percent }: SeedingRequest,
): SeedAndHoney {
  const isPerHoney = convention === 'perHoney';
  return reckoned(places, () => {
    if (honeyKg !== undefined) {
      const honeyG = gramsOf(honeyKg);
      return isPerHoney ? seedPerHoney(honeyG, percent) : seedForBlendShare(honeyG, percent);
    }
    const percentOfBlend = isPerHoney ? (100 * percent) / (100 + percent) : percent;
    return splitBlend(gramsOf(wantedBlendKg ?? 0), percentOfBlend);
  });
}

export function toSeedMasses({ honeyMassG, seedMassG, blendMassG }: SeedAndHoney): SeedMasses {
  const shares = seedShares(honeyMassG, seedMassG);
  return {
    honeyKg: rounded(kgOf(honeyMassG), 3),
    seedKg: rounded(kgOf(seedMassG), 3),
    blendKg: rounded(kgOf(blendMassG), 3),
    seedGramsPer100GramsOfHoney: rounded(shares.perHundredOfHoney, 2),
    seedGramsPer100GramsOfBlend: rounded(shares.percentOfBlend, 2),
  };
}
