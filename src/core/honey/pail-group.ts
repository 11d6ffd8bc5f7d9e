import {
  cylinderGrid,
  type CylinderGrid,
  type Films,
  type GridSize,
  type PailShape,
} from './cylinder-grid';
import { heatTaken, lookAhead, takeStep, uniformField, type CylinderField } from './cylinder-field';
import type { HoneyHeat } from './honey-heat';
import { requireRange } from './require-range';

/** Pails alike in everything, put in together: one field serves them all. */
export interface PailGroup {
  count: number;
  shape: PailShape;
  honey: HoneyHeat;
  films: Films;
  /** Throughout the pail when it is put in. */
  startC: number;
  /** When it is put in, 0 unless given. Until then it is not there: it exchanges no heat. */
  inAtHours?: number;
  /** Honey without crystals, as after warming; otherwise set. */
  clear?: boolean;
  /** How finely to reckon; fine enough for 0.2 % of the first difference unless given. */
  grid?: GridSize;
}

/** A group in the course of a reckoning, with two looks ahead at two air temperatures. */
export interface GroupState {
  group: PailGroup;
  field: CylinderField;
  inAtHours: number;
  ahead: Float64Array;
  otherAhead: Float64Array;
}

/**
 * A group as it is put in: 1 to 1000 pails, −40 to 100 °C, at hour 0 to 10,000.
 *
 * @throws RangeError outside that range, or for what shape, honey, films and grid do not allow.
 */
export function startGroup(group: PailGroup): GroupState {
  if (!Number.isInteger(group.count)) throw new RangeError('count must be a whole number');
  requireRange('count', group.count, 1, 1000);
  requireRange('startC', group.startC, -40, 100);
  const inAtHours = requireRange('inAtHours', group.inAtHours ?? 0, 0, 10_000);
  const grid: CylinderGrid = cylinderGrid(group.shape, group.honey, group.films, group.grid);
  const start = { temperatureC: group.startC, clear: group.clear ?? false };
  const field = uniformField(grid, group.honey, start);
  const cells = field.temperatureC.length;
  return {
    group,
    field,
    inAtHours,
    ahead: new Float64Array(cells),
    otherAhead: new Float64Array(cells),
  };
}

/** Looks ahead for every group at one air temperature; the heat all pails take together, J. */
export function lookAheadAll(
  states: readonly GroupState[],
  airC: number,
  stepS: number,
  which: 'ahead' | 'otherAhead',
): number {
  let heatJ = 0;
  for (const state of states) {
    lookAhead(state.field, airC, stepS, state[which]);
    heatJ += state.group.count * heatTaken(state.field, state[which]);
  }
  return heatJ;
}

/** Moves what was seen ahead to the mixture (1 − share) · ahead + share · otherAhead. */
export function mixAhead(states: readonly GroupState[], share: number): void {
  for (const { ahead, otherAhead } of states) {
    for (let cell = 0; cell < ahead.length; cell += 1) {
      const first = ahead[cell] as number;
      ahead[cell] = first + share * ((otherAhead[cell] as number) - first);
    }
  }
}

/** Every group moves to what was seen ahead. */
export function takeSteps(states: readonly GroupState[]): void {
  for (const state of states) takeStep(state.field, state.ahead);
}
