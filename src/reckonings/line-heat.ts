import type { HeatDamage } from '../core/honey/keeping';
import type { HeatCost } from './heat-cost';
import { toHmfGained } from './heat.responses';
import type { LineHeat } from './heat-history.responses';
import type { HeatHistoryRow, LotInLine } from './heat-history-row';
import { rounded } from './reckoned';

type Hmf = HeatDamage['hmfGainMgPerKg'];

/** What the honey in a lot went through, since the lots at the beginning were brought in. */
interface Heat {
  meanLeft: number;
  worstLeft: number;
  hmf: Hmf;
  notKnownShare: number;
}

const UNHARMED: Heat = {
  meanLeft: 1,
  worstLeft: 1,
  hmf: { least: 0, likely: 0, most: 0 },
  notKnownShare: 0,
};

/**
 * What all the warming along the lines of a lot cost it: losses multiply along a line, HMF adds up, and where lines meet both are
 * weighted by mass. Only honey went through the warming of its batch; seed was stirred in afterwards.
 */
export function lineHeatOf(
  { lots, edges }: HeatHistoryRow,
  lotId: string,
  costs: ReadonlyMap<string, HeatCost>,
): LineHeat {
  const inputs = new Map<string, HeatHistoryRow['edges']>();
  for (const edge of edges) {
    const others = inputs.get(edge.childId);
    if (others === undefined) inputs.set(edge.childId, [edge]);
    else others.push(edge);
  }
  const kinds = new Map(lots.map(({ id, kind }) => [id, kind]));
  const heats = new Map<string, Heat>();
  for (const lot of lots) {
    const parts = (inputs.get(lot.id) ?? []).map(({ parentId, massG }) => {
      const before = heats.get(parentId) ?? UNHARMED;
      const isWarmed = lot.kind === 'creamed' && kinds.get(parentId) === 'honey';
      return { massG, heat: isWarmed ? warmed(before, costOf(lot, costs)) : before };
    });
    heats.set(lot.id, together(parts));
  }

  const { meanLeft, worstLeft, hmf, notKnownShare } = heats.get(lotId) ?? UNHARMED;
  const batchIds = lots.flatMap(({ kind, batchId }) => (kind === 'creamed' ? [batchId ?? ''] : []));
  const batchesCounted = batchIds.filter((id) => costs.has(id)).length;
  return {
    meanDiastaseLeftPercent: rounded(100 * meanLeft, 2),
    worstDiastaseLeftPercent: rounded(100 * worstLeft, 2),
    meanHmfGain: toHmfGained(hmf),
    batchesCounted,
    batchesNotKnown: batchIds.length - batchesCounted,
    notKnownPercent: rounded(100 * Math.min(1, notKnownShare), 2),
  };
}

function costOf(
  { batchId }: LotInLine,
  costs: ReadonlyMap<string, HeatCost>,
): HeatDamage | undefined {
  return batchId === null ? undefined : costs.get(batchId)?.evenly;
}

function warmed(before: Heat, cost: HeatDamage | undefined): Heat {
  if (cost === undefined) return { ...before, notKnownShare: 1 };
  const { diastaseLeft, hmfGainMgPerKg: gain } = cost;
  return {
    ...before,
    meanLeft: before.meanLeft * diastaseLeft,
    worstLeft: before.worstLeft * diastaseLeft,
    hmf: {
      least: before.hmf.least + gain.least,
      likely: before.hmf.likely + gain.likely,
      most: before.hmf.most + gain.most,
    },
  };
}

function together(parts: readonly { massG: number; heat: Heat }[]): Heat {
  const wholeG = parts.reduce((sum, { massG }) => sum + massG, 0);
  if (wholeG === 0) return UNHARMED;
  const mean = (value: (heat: Heat) => number) =>
    parts.reduce((sum, { massG, heat }) => sum + (massG * value(heat)) / wholeG, 0);
  return {
    meanLeft: mean(({ meanLeft }) => meanLeft),
    worstLeft: Math.min(...parts.map(({ heat }) => heat.worstLeft)),
    hmf: {
      least: mean(({ hmf }) => hmf.least),
      likely: mean(({ hmf }) => hmf.likely),
      most: mean(({ hmf }) => hmf.most),
    },
    notKnownShare: mean(({ notKnownShare }) => notKnownShare),
  };
}
