import type { ObstacleReason, SlotName } from './run';

/** Constraints that a search leaves out, to find out whether they bind: `slot reason`, or a reason of the run. */
export type Waiver = `${SlotName} ${SlotReason}` | RunReason;

export type SlotReason =
  'places' | 'temperature' | 'changeover' | 'other-duty' | 'closed' | 'duty-window';

export type RunReason = Exclude<ObstacleReason, SlotReason | 'durations'>;

export type Waivers = ReadonlySet<Waiver>;

export const NOTHING_WAIVED: Waivers = new Set();
