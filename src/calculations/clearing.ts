import type { Cabinet } from '../core/honey/air-plan';
import { gentlestClearing, type ClearingPlan } from '../core/honey/clearing-temperature';
import type { PailGroup } from '../core/honey/pail-group';
import type { PailDamage } from '../core/honey/pail-damage';
import { invalidField } from '../core/refusal';
import { toHeatCost } from './heat-cost';
import { reckoned, rounded } from './reckoned';
import type { Clearing, ClearingTemperature, HeatCostAcross } from './warming.responses';

/** A dozen and more warmings are tried; with more groups one request would keep the others waiting. */
const MOST_GROUPS = 2;

/** The gentlest temperature that clears the pails by a deadline. */
export function reckonClearing(question: {
  pails: readonly PailGroup[];
  cabinet: Cabinet;
  deadlineHours: number;
  hottestC: number;
  clearC: number;
}): Clearing {
  if (question.pails.length > MOST_GROUPS) {
    throw invalidField(
      '#/pails',
      `With deadlineHours pails must have at most ${MOST_GROUPS} entries; ask for the others without it.`,
    );
  }
  // A search for what clears them would find nothing to compare.
  if (question.pails.every(({ clear, startC }) => clear === true || startC >= question.clearC)) {
    return { outcome: 'clear-already', gentlest: null, soonest: null };
  }
  const places = { deadlineHours: '#/deadlineHours', hottestC: '#/hottestC' };
  const answer = reckoned(places, () => gentlestClearing(question));
  if (answer.kind === 'too-late') return { outcome: 'too-late', gentlest: null, soonest: null };
  return {
    outcome: 'found',
    gentlest: toTemperature(answer.gentlest),
    soonest: toTemperature(answer.soonest),
  };
}

function toTemperature(plan: ClearingPlan): ClearingTemperature {
  return {
    setC: rounded(plan.setC, 1),
    clearAtHours: rounded(plan.clearAtHours, 1),
    heaterKWh: rounded(plan.heaterKWh, 3),
    cost: toHeatCostAcross(plan.damage),
  };
}

export function toHeatCostAcross({ worst, mean, best }: PailDamage): HeatCostAcross {
  return { worst: toHeatCost(worst), mean: toHeatCost(mean), best: toHeatCost(best) };
}
