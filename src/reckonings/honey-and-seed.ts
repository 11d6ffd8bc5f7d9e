import { seedPerHoney, seedShares } from '../core/honey/seed-mass';
import { SEED_PER_HUNDRED_OF_HONEY } from './assumptions';
import { rounded } from './reckoned';
import type { ReckoningRow } from './reckoning-row';
import type { HoneyReckoning, SeedReckoning, SeedShare } from './reckonings.responses';

/** All the honey of the batch, and the moisture it has together. */
export function honeyOf({ honey }: ReckoningRow): HoneyReckoning & { exactPercent: number | null } {
  const massG = massOf(honey);
  const without = honey.filter(({ moistureCentiPercent }) => moistureCentiPercent === null);
  const waterParts = honey.reduce(
    (sum, lot) => sum + lot.massG * (lot.moistureCentiPercent ?? 0),
    0,
  );
  const exactPercent = without.length > 0 || massG === 0 ? null : waterParts / massG / 100;
  return {
    massKg: massG / 1000,
    moisturePercent: exactPercent === null ? null : rounded(exactPercent, 3),
    lotsWithoutMoisture: without.map(({ lotId, name }) => ({ lotId, name })),
    exactPercent,
  };
}

/** How much seed the honey takes, and how much it got. @throws RangeError if there is no honey. */
export function seedOf({ honey, seed }: ReckoningRow): SeedReckoning {
  const honeyG = massOf(honey);
  const { seedMassG } = seedPerHoney(honeyG, SEED_PER_HUNDRED_OF_HONEY);
  return {
    usual: shareOf(honeyG, seedMassG),
    used: seed.length === 0 ? null : shareOf(honeyG, massOf(seed)),
  };
}

function shareOf(honeyG: number, seedG: number): SeedShare {
  const { perHundredOfHoney, percentOfBlend } = seedShares(honeyG, seedG);
  return {
    seedMassKg: rounded(seedG / 1000, 3),
    perHundredOfHoney: rounded(perHundredOfHoney, 2),
    percentOfBlend: rounded(percentOfBlend, 2),
  };
}

function massOf(lots: readonly { massG: number }[]): number {
  return lots.reduce((sum, { massG }) => sum + massG, 0);
}
