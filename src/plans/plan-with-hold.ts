import { planRun } from '../core/planning/runs/plan-run';
import type { Room, Run, RunPlan } from '../core/planning/runs/run';

/** Rooms open by the week: a hold that is so much longer ends on every day of it. */
const mostDaysLonger = 6;

export interface HeldPlan {
  run: Run;
  holdDays: number;
  found: RunPlan;
}

/**
 * The plan with the shortest hold, of `holdDays` or a few days more, for which there is one: a hold of whole days that ends when nobody can
 * come is of no use, and a longer one is only safer. Where there is none, what stands in the way of the shortest.
 */
export function planWithHold(
  holdDays: number,
  roomAndRun: (holdDays: number) => { room: Room; run: Run },
): HeldPlan {
  const plan = (days: number): HeldPlan => {
    const { room, run } = roomAndRun(days);
    return { run, holdDays: days, found: planRun(room, run) };
  };
  const shortest = plan(holdDays);
  if (shortest.found.feasible) return shortest;
  for (let longer = 1; longer <= mostDaysLonger; longer++) {
    const one = plan(holdDays + longer);
    if (one.found.feasible) return one;
  }
  return shortest;
}
