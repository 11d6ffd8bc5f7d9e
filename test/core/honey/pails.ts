import type { GridSize } from '../../../src/core/honey/cylinder-grid';
import type { HoneyHeat } from '../../../src/core/honey/honey-heat';
import type { PailGroup } from '../../../src/core/honey/pail-group';
import { warmPails, type WarmingPlan } from '../../../src/core/honey/warm-pails';

/** A 25 kg pail of honey of 17 % water, and short ways of asking what becomes of it. */

export const MELTED: HoneyHeat = {
  conductivityWPerMK: 0.536,
  densityKgPerM3: 1421,
  specificHeatJPerKgK: 2260,
  meltingHeatJPerKg: 0,
  meltingFromC: 35,
  meltingToC: 45,
};
export const SET: HoneyHeat = { ...MELTED, meltingHeatJPerKg: 16_300 };
export const PAIL = { diameterM: 0.29, fillHeightM: 0.267 };
export const PAIL_KG = 1421 * Math.PI * 0.145 ** 2 * 0.267;
export const COARSE: GridSize = { rings: 4, layers: 5 };

export const allRound = (film: number) => ({
  sideWPerM2K: film,
  topWPerM2K: film,
  bottomWPerM2K: film,
});
export const held = (temperatureC: number) =>
  ({ kind: 'held', temperatures: [{ fromHours: 0, temperatureC }] }) as const;
export const pail = (changes: Partial<PailGroup> = {}): PailGroup => ({
  count: 1,
  shape: PAIL,
  honey: SET,
  films: allRound(5),
  startC: 12,
  ...changes,
});
export const first = (plan: WarmingPlan) => warmPails(plan).groups[0]!;

/** Hours to clear in air that is held. */
export const hoursToClear = (
  airC: number,
  changes: Partial<PailGroup> = {},
  plan: Partial<WarmingPlan> = {},
) => {
  const usual = { pails: [pail(changes)], air: held(airC), untilHours: 400, stopWhenClear: true };
  return first({ ...usual, ...plan }).clearAtHours!;
};
