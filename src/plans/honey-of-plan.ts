import { honeyGrain } from '../core/planning/honey-grain';
import type { FloralParts } from '../core/planning/rank-seed';
import { invalidField, Refusal } from '../core/refusal';
import { gramsOf, kgOf } from '../platform/fields';
import type { Grain } from '../platform/prisma-client/enums';
import { LARGEST_PAIL_KG } from '../reckonings/assumptions';
import type { HoneyFact, PlanFacts } from './plan-facts';
import type { PlanHoney } from './plans.requests';

const dayMs = 86_400_000;

export interface Pails {
  count: number;
  massG: number;
}

/** All the honey of a run, as it is known together. */
export interface HoneyOfPlan {
  lots: { fact: HoneyFact; massG: number }[];
  massG: number;
  pails: Pails[];
  moisturePercent: number | null;
  floralParts: FloralParts;
  /** What most of it is of; null: a mixture. */
  floralSourceId: string | null;
  /** In which most of it would set by itself; null: nothing is known of it. */
  grain: Grain | null;
  ageDays: number | null;
}

/**
 * The honey that a plan is asked for, as it is on record; refuses what the member cannot bring. `placeLoadG` is what a place for warming
 * bears at most.
 */
export function honeyOfPlan(
  wanted: readonly PlanHoney[],
  facts: PlanFacts,
  of: { memberId: string; bySteward: boolean; placeLoadG: number; startsAt: Date },
): HoneyOfPlan {
  const lots = wanted.map((one, index) => lotOf(one, index, wanted, facts, of));
  const massG = lots.reduce((sum, lot) => sum + lot.massG, 0);
  const floralParts = new Map<string, number>();
  for (const lot of lots) {
    for (const { floralSourceId, centiPercent } of lot.fact.shares) {
      const part = (lot.massG * centiPercent) / (10_000 * massG);
      floralParts.set(floralSourceId, (floralParts.get(floralSourceId) ?? 0) + part);
    }
  }
  const dominant = [...floralParts].find(([, part]) => part > 0.5)?.[0] ?? null;
  return {
    lots,
    massG,
    pails: wanted.flatMap((one, index) => pailsOf(one, index, of.placeLoadG)),
    moisturePercent: meanByMass(lots, ({ moistureCentiPercent }) =>
      moistureCentiPercent === null ? null : moistureCentiPercent / 100,
    ),
    floralParts,
    floralSourceId: dominant,
    grain: honeyGrain(floralParts, facts.sources),
    ageDays: meanByMass(lots, ({ extractedAt }) =>
      extractedAt === null ? null : Math.max(0, (of.startsAt.getTime() - extractedAt) / dayMs),
    ),
  };
}

function lotOf(
  { lotId, massKg }: PlanHoney,
  index: number,
  wanted: readonly PlanHoney[],
  { honey }: PlanFacts,
  { memberId, bySteward }: { memberId: string; bySteward: boolean },
): { fact: HoneyFact; massG: number } {
  const pointer = `#/honey/${index}/lotId`;
  const id = lotId.toLowerCase();
  const fact = honey.find((one) => one.lotId === id);
  if (fact === undefined) throw invalidField(pointer, 'The club has no lot of this id.');
  if (wanted.findIndex((other) => other.lotId.toLowerCase() === id) !== index) {
    throw invalidField(pointer, 'It stands there already: name it once, with all its mass.');
  }
  const refused = (code: 'lot-unsuitable' | 'not-yours', detail: string) =>
    new Refusal(code, detail, { errors: [{ pointer, detail }] });
  if (fact.kind !== 'honey') {
    throw refused('lot-unsuitable', `“${fact.name}” is not honey as it was brought in.`);
  }
  if (fact.holderId !== memberId && !bySteward) {
    throw refused(
      'not-yours',
      `“${fact.name}” is held by another member: a steward may plan with it.`,
    );
  }
  const massG = gramsOf(massKg);
  if (massG > fact.remainingMassG) {
    const detail = `“${fact.name}” has ${kgOf(fact.remainingMassG)} kg left, not ${massKg} kg.`;
    throw new Refusal('not-enough-mass', detail, {
      errors: [{ pointer: `#/honey/${index}/massKg`, detail }],
      offers: { lotId: fact.lotId, remainingMassKg: kgOf(fact.remainingMassG) },
    });
  }
  return { fact, massG };
}

function pailsOf({ massKg, pails }: PlanHoney, index: number, placeLoadG: number): Pails[] {
  const massG = gramsOf(massKg);
  if (pails === undefined) {
    const largestG = Math.min(gramsOf(LARGEST_PAIL_KG), placeLoadG);
    const count = Math.ceil(massG / largestG);
    return [{ count, massG: Math.ceil(massG / count) }];
  }
  const pointer = `#/honey/${index}/pails`;
  const togetherG = pails.reduce((sum, one) => sum + one.count * gramsOf(one.massKg), 0);
  if (togetherG !== massG) {
    throw invalidField(
      pointer,
      `The pails hold ${kgOf(togetherG)} kg together; the honey is ${massKg} kg.`,
    );
  }
  pails.forEach((one, at) => {
    if (gramsOf(one.massKg) <= placeLoadG) return;
    throw invalidField(
      `${pointer}/${at}/massKg`,
      `A place for warming bears ${kgOf(placeLoadG)} kg at most: take smaller pails.`,
    );
  });
  return pails.map((one) => ({ count: one.count, massG: gramsOf(one.massKg) }));
}

function meanByMass(
  lots: readonly { fact: HoneyFact; massG: number }[],
  valueOf: (fact: HoneyFact) => number | null,
): number | null {
  let [sum, massG] = [0, 0];
  for (const lot of lots) {
    const value = valueOf(lot.fact);
    if (value === null) continue;
    sum += value * lot.massG;
    massG += lot.massG;
  }
  return massG === 0 ? null : sum / massG;
}
