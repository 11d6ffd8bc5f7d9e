import { chooseSeed } from '../core/planning/choose-seed';
import { partInCommon, rankSeed, type SeedLot } from '../core/planning/rank-seed';
import { seedPerHoney } from '../core/honey/seed-mass';
import { invalidField, Refusal } from '../core/refusal';
import { kgOf } from '../platform/fields';
import type { HoneyOfPlan } from './honey-of-plan';
import type { PlanFacts, SeedFact } from './plan-facts';

export interface SeedOfPlan {
  lot: SeedFact;
  massG: number;
  /** Why this seed, in words. */
  why: string;
  warnings: string[];
}

const mostLent = 5;

/** The seed for the honey: the lot that was named, or the best that the member holds. Refuses when none fits, and says who has some. */
export function seedOfPlan(
  facts: PlanFacts,
  honey: HoneyOfPlan,
  wish: { memberId: string; seedLotId: string | undefined; perHundred: number },
): SeedOfPlan {
  const massG = Math.ceil(seedPerHoney(honey.massG, wish.perHundred).seedMassG);
  const lots = facts.seed.map(toSeedLot);
  const seedWish = { massG, honeyGrain: honey.grain, floralParts: honey.floralParts };
  if (wish.seedLotId !== undefined) {
    return namedSeed(facts, wish.seedLotId.toLowerCase(), wish.memberId, honey, massG);
  }
  const own = lots.filter(({ fact }) => fact.holderId === wish.memberId);
  const { fitting, unfit } = chooseSeed(own, seedWish);
  const [best] = fitting;
  if (best === undefined) {
    const others = lots.filter(({ fact }) => fact.holderId !== wish.memberId);
    throw noSeed(unfit, chooseSeed(others, seedWish).fitting, massG, honey);
  }
  return { lot: best.fact, massG, why: whyThis(best, fitting.length, honey, facts), warnings: [] };
}

type PlanSeedLot = SeedLot & { fact: SeedFact };

function toSeedLot(fact: SeedFact): PlanSeedLot {
  return {
    lotId: fact.lotId,
    freeMassG: fact.freeMassG,
    grain: fact.grain,
    floralParts: new Map(fact.shares.map(({ floralSourceId, part }) => [floralSourceId, part])),
    madeAt: fact.madeAt,
    onHold: fact.onHold,
    fact,
  };
}

function namedSeed(
  { seed }: PlanFacts,
  lotId: string,
  memberId: string,
  honey: HoneyOfPlan,
  massG: number,
): SeedOfPlan {
  const pointer = '#/seedLotId';
  const lot = seed.find((one) => one.lotId === lotId);
  if (lot === undefined) {
    throw invalidField(pointer, 'The club has no seed of this id of which something is left.');
  }
  const refuse = (code: 'lot-unsuitable' | 'not-enough-mass' | 'seed-reserved', detail: string) =>
    new Refusal(code, detail, {
      errors: [{ pointer, detail }],
      offers: { lotId, freeMassKg: kgOf(lot.freeMassG), neededMassKg: kgOf(massG) },
    });
  if (lot.holderId !== memberId) {
    throw refuse(
      'lot-unsuitable',
      `“${lot.name}” is held by ${lot.holderName}: have it lent first.`,
    );
  }
  if (massG > lot.freeMassG + lot.reservedMassG) {
    throw refuse(
      'not-enough-mass',
      `“${lot.name}” has ${kgOf(lot.freeMassG + lot.reservedMassG)} kg left; the honey takes ${kgOf(massG)} kg.`,
    );
  }
  if (massG > lot.freeMassG) {
    throw refuse(
      'seed-reserved',
      `Of “${lot.name}” ${kgOf(lot.freeMassG)} kg are free, the rest is reserved for batches; the honey takes ${kgOf(massG)} kg.`,
    );
  }
  const seedWish = { massG, honeyGrain: honey.grain, floralParts: honey.floralParts };
  const obstacles = rankSeed([toSeedLot(lot)], seedWish)[0]?.obstacles ?? [];
  const warnings = [
    ...(obstacles.includes('on-hold')
      ? ['The seed is on hold: it may not be stirred in until it is released.']
      : []),
    ...(obstacles.includes('too-coarse')
      ? [
          `The seed is ${lot.grain ?? ''} and the honey would set ${honey.grain ?? ''} by itself: the batch takes the grain of its seed.`,
        ]
      : []),
  ];
  return { lot, massG, why: 'It was named.', warnings };
}

function whyThis(
  lot: PlanSeedLot,
  fittingCount: number,
  honey: HoneyOfPlan,
  { sources }: PlanFacts,
): string {
  const grain =
    lot.grain === null
      ? 'its grain is not on record'
      : honey.grain === null
        ? `it is ${lot.grain}`
        : `it is ${lot.grain}, no coarser than the honey would set (${honey.grain})`;
  const percent = Math.round(100 * partInCommon(lot.floralParts, honey.floralParts));
  const named = sources.find(({ id }) => id === honey.floralSourceId)?.name;
  const floral =
    lot.floralParts.size === 0
      ? 'its floral source is not on record'
      : `${percent} percent of it ${percent === 0 ? 'are' : 'is'} of the same floral source${named === undefined ? 's' : `, ${named}`}`;
  const among =
    fittingCount === 1
      ? 'No other seed of the member fits.'
      : `Of ${fittingCount} lots of seed that fit it is the nearest in floral source, then the finest, then the freshest.`;
  return `${kgOf(lot.freeMassG)} kg of it are free; ${grain}; ${floral}. ${among}`;
}

function noSeed(
  unfit: ReturnType<typeof chooseSeed<PlanSeedLot>>['unfit'],
  others: readonly PlanSeedLot[],
  massG: number,
  honey: HoneyOfPlan,
): Refusal {
  const tooCoarse = unfit.filter(({ because }) => because === 'too-coarse').length;
  const onHold = unfit.filter(({ because }) => because === 'on-hold').length;
  const most = Math.max(
    0,
    ...unfit.map(({ lot, because }) => (because === 'on-hold' ? 0 : lot.freeMassG)),
  );
  const own =
    unfit.length === 0
      ? 'The member holds no seed.'
      : onHold === unfit.length
        ? 'All seed that the member holds is on hold.'
        : tooCoarse === unfit.length
          ? `All seed that the member holds is coarser than the honey would set (${honey.grain ?? ''}).`
          : `The most that the member has free of one lot is ${kgOf(most)} kg.`;
  const lent =
    others.length === 0
      ? 'Nobody in the club has seed that fits: bring some in.'
      : `Have some lent: ${others[0]?.fact.holderName ?? ''} has ${kgOf(others[0]?.freeMassG ?? 0)} kg of “${others[0]?.fact.name ?? ''}” free.`;
  const detail = `The honey takes ${kgOf(massG)} kg of seed. ${own} ${lent}`;
  return new Refusal('no-plan', detail, {
    offers: {
      neededSeedKg: kgOf(massG),
      seedOfOthers: others.slice(0, mostLent).map(({ fact, freeMassG }) => ({
        lotId: fact.lotId,
        name: fact.name,
        holderId: fact.holderId,
        holderName: fact.holderName,
        freeMassKg: kgOf(freeMassG),
      })),
    },
  });
}
