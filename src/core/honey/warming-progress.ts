import type { GroupState } from './pail-group';
import {
  coldestOnAxisC,
  readTemperatures,
  warmestC,
  type PailTemperatures,
} from './pail-temperatures';

export interface PailSample extends PailTemperatures {
  atHours: number;
  /** Cell by cell, if asked for. */
  cellsC?: Float64Array;
}

export interface GroupResult {
  /** From the time the pails were put in. */
  samples: PailSample[];
  /**
   * When the coldest point passed the clearing temperature, hours since the reckoning began (for
   * honey put in clear: when it was put in); undefined if not by its end.
   */
  clearAtHours: number | undefined;
  /** First time, once clear, that the warmest point is down to the seeding limit; or undefined. */
  seedSafeAtHours: number | undefined;
  /** The part of the pail's mass that each cell holds. */
  cellShare: Float64Array;
}

export interface Limits {
  clearC: number;
  seedC: number;
}

/** Watches one group for its two moments. */
export interface Progress {
  state: GroupState;
  result: GroupResult;
  /** Coldest point until clear, warmest point from then on, after the last step. */
  watchedC: number;
}

/** Begins to watch a group: honey put in clear, or warm enough, counts as clear from then on. */
export function startProgress(state: GroupState, limits: Limits): Progress {
  const { group, field, inAtHours } = state;
  const { grid } = field;
  const cellShare = grid.cellMassKg.map((massKg) => massKg / grid.massKg);
  const isClear = group.clear === true || group.startC >= limits.clearC;
  const isSafe = isClear && group.startC <= limits.seedC;
  return {
    state,
    result: {
      samples: [],
      clearAtHours: isClear ? inAtHours : undefined,
      seedSafeAtHours: isSafe ? inAtHours : undefined,
      cellShare,
    },
    watchedC: group.startC,
  };
}

/** Looks after a step whether a moment came, and when between its two ends (on a straight line). */
export function follow(
  progress: Progress,
  step: { fromHours: number; toHours: number; airC: number },
  limits: Limits,
): void {
  const { result, state, watchedC } = progress;
  if (result.seedSafeAtHours !== undefined) return;
  const crossing = (limitC: number, nowC: number) => {
    const part = watchedC === Infinity ? 1 : (limitC - watchedC) / (nowC - watchedC);
    return step.fromHours + (step.toHours - step.fromHours) * part;
  };

  if (result.clearAtHours === undefined) {
    const coldestC = coldestOnAxisC(state.field);
    if (coldestC < limits.clearC) {
      progress.watchedC = coldestC;
      return;
    }
    result.clearAtHours = crossing(limits.clearC, coldestC);
    progress.watchedC = warmestC(state.field, step.airC);
    return;
  }
  // While the air is warmer than the limit the surface is too: the search can be spared.
  if (step.airC > limits.seedC) {
    progress.watchedC = Infinity;
    return;
  }
  const nowC = warmestC(state.field, step.airC);
  if (nowC <= limits.seedC) result.seedSafeAtHours = crossing(limits.seedC, nowC);
  progress.watchedC = nowC;
}

/** Adds what a thermometer would show now to the samples of the group. */
export function takeSample(
  progress: Progress,
  now: { hours: number; airC: number },
  keepCells: boolean,
): void {
  const { field } = progress.state;
  const temperatures = readTemperatures(field, now.airC);
  const cells = keepCells ? { cellsC: Float64Array.from(field.temperatureC) } : {};
  progress.result.samples.push({ atHours: now.hours, ...temperatures, ...cells });
}
