import type { Room, Run, RunPlan } from './run';

/** The run's alternatives. */
export function planRun(_room: Room, _run: Run): RunPlan {
  throw new Error('to be written next');
}
