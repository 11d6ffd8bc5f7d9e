import { checkedAirPlan, heldAt, loggedAt, sudden, type AirPlan } from './air-plan';
import { cabinetStep, type AirStep } from './cabinet-air';
import type { CylinderGrid } from './cylinder-grid';
import { lookAheadAll, startGroup, takeSteps, type GroupState, type PailGroup } from './pail-group';
import { requirePositive, requireRange } from './require-range';
import {
  follow,
  startProgress,
  takeSample,
  type GroupResult,
  type Progress,
} from './warming-progress';

export interface WarmingPlan {
  pails: readonly PailGroup[];
  air: AirPlan;
  untilHours: number;
  /** The coldest point must pass this for a pail to count as clear; 40 unless given. */
  clearC?: number;
  /** The warmest point must fall to this before seed goes in; 24 unless given. */
  seedC?: number;
  /** 1 unless given. */
  sampleEveryHours?: number;
  /** Stop with the first sample after every pail has cleared; false unless given. */
  stopWhenClear?: boolean;
  /** Keep every cell's temperature with every sample; false unless given. */
  keepCells?: boolean;
  /** Longest step, minutes; 15 unless given, less where a fine grid asks for it. */
  longestStepMinutes?: number;
}

export interface WarmingResult {
  /** In the order of the plan's pails. */
  groups: GroupResult[];
  /** With every sample: air, and the heater's mean power since the sample before. */
  air: { atHours: number; airC: number; heaterW: number }[];
  /** In held and logged air the heater's part is what the pails took; losses are then not known. */
  energy: { heaterKWh: number; lostKWh: number; pailsKWh: number; airKWh: number };
}

const DEFAULTS = { clearC: 40, seedC: 24, sampleEveryHours: 1, longestStepMinutes: 15 } as const;
const LONGEST_HOURS = 10_000;
const J_PER_KWH = 3.6e6;
const STEP_PER_CELL_TIME = 24;
const S_PER_HOUR = 3600;
const S_PER_MINUTE = 60;

/**
 * How do pails warm and cool in a cabinet, a room, or any air whose temperature was logged?
 *
 * Conduction in upright cylinders with a film on side, top and bottom; crystals melt over their range
 * and do not come back on cooling. The wall is neglected, and so is any stirring or flow of the
 * honey: a pail that is stirred, or turns over as it melts, is faster. All pails share the air; in
 * a cabinet its temperature follows from heater, thermostat, loss to the room and what they take.
 * Pails put in later join at their time.
 * Source: textbook conduction (Carslaw & Jaeger 1959); alternating directions (Peaceman & Rachford
 * 1955). Agrees with the analytic series within 0.2 % of the first difference for Bi 0.1 to 10, from
 * the first hour on.
 * Units: hours since the start, °C, W, kWh. Range: up to 10,000 hours, at least one group of pails;
 * the ranges of honey, shape, films and air are checked where they enter.
 * Example: a 25 kg pail with a film of 5 W/m²·K, from 12 °C in air of 42 °C, is clear in two days.
 *
 * @throws RangeError for what is out of range, naming it.
 */
export function warmPails(plan: WarmingPlan): WarmingResult {
  const settings = checkedSettings(plan);
  const all = plan.pails.map((group) => startProgress(startGroup(group), settings));
  const longestS = Math.min(
    settings.longestStepMinutes * S_PER_MINUTE,
    ...all.map(({ state }) => longestStepS(state.field.grid)),
  );
  const stops = [...sudden(plan.air), ...all.map(({ state }) => state.inAtHours)];
  const result: WarmingResult = {
    groups: all.map((progress) => progress.result),
    air: [],
    energy: { heaterKWh: 0, lostKWh: 0, pailsKWh: 0, airKWh: 0 },
  };

  let hours = 0;
  let airC = plan.air.kind === 'cabinet' ? plan.air.cabinet.startC : givenAir(plan.air, 0);
  let sinceSample = { hours: 0, heaterJ: 0 };
  const sample = () => {
    const seconds = (hours - sinceSample.hours) * S_PER_HOUR;
    const heaterW = seconds === 0 ? 0 : sinceSample.heaterJ / seconds;
    result.air.push({ atHours: hours, airC, heaterW });
    for (const progress of presentAt(all, hours)) {
      takeSample(progress, { hours, airC }, settings.keepCells);
    }
    sinceSample = { hours, heaterJ: 0 };
  };

  sample();
  for (let samples = 1; hours < settings.untilHours; samples += 1) {
    if (settings.stopWhenClear && all.every(isClear)) break;
    const sampleHours = Math.min(samples * settings.sampleEveryHours, settings.untilHours);
    while (hours < sampleHours) {
      const stop = Math.min(sampleHours, ...stops.filter((time) => time > hours));
      const present = presentAt(all, hours);
      const states = present.map(({ state }) => state);
      const steps = Math.ceil(((stop - hours) * S_PER_HOUR) / longestS);
      const span = { fromHours: hours, stepHours: (stop - hours) / steps };
      for (let step = 1; step <= steps; step += 1) {
        const fromHours = hours;
        hours = step === steps ? stop : span.fromHours + step * span.stepHours;
        const taken = airStep(plan.air, states, { fromHours, toHours: hours, airC });
        takeSteps(states);
        airC = taken.airC;
        sinceSample.heaterJ += taken.heaterJ;
        addEnergy(result.energy, taken);
        for (const progress of present) {
          follow(progress, { fromHours, toHours: hours, airC }, settings);
        }
      }
    }
    sample();
  }
  return result;
}

function checkedSettings(plan: WarmingPlan) {
  checkedAirPlan(plan.air);
  if (plan.pails.length === 0) throw new RangeError('pails must be at least one group');
  const settings = { ...DEFAULTS, stopWhenClear: false, keepCells: false, ...plan };
  requireRange('untilHours', requirePositive('untilHours', plan.untilHours), 0, LONGEST_HOURS);
  requirePositive('sampleEveryHours', settings.sampleEveryHours);
  requirePositive('longestStepMinutes', settings.longestStepMinutes);
  requireRange('clearC', settings.clearC, 0, 100);
  requireRange('seedC', settings.seedC, 0, 100);
  return settings;
}

/** Longer steps would not follow what goes on between neighbouring cells. */
function longestStepS(grid: CylinderGrid): number {
  return STEP_PER_CELL_TIME * Math.min(grid.ringTimeS, grid.layerTimeS);
}

function isClear({ result }: Progress): boolean {
  return result.clearAtHours !== undefined;
}

function presentAt(all: readonly Progress[], hours: number): Progress[] {
  return all.filter(({ state }) => state.inAtHours <= hours);
}

function airStep(
  air: AirPlan,
  states: readonly GroupState[],
  step: { fromHours: number; toHours: number; airC: number },
): AirStep {
  const stepS = (step.toHours - step.fromHours) * S_PER_HOUR;
  if (air.kind === 'cabinet') {
    const setC = heldAt(air.setPoints, step.fromHours);
    return cabinetStep(air.cabinet, states, { airC: step.airC, setC }, stepS);
  }
  const meanC =
    air.kind === 'held'
      ? heldAt(air.temperatures, step.fromHours)
      : givenAir(air, (step.fromHours + step.toHours) / 2);
  const pailsJ = lookAheadAll(states, meanC, stepS, 'ahead');
  const airC = air.kind === 'held' ? meanC : givenAir(air, step.toHours);
  return { airC, heaterJ: pailsJ, lostJ: 0, pailsJ, airJ: 0 };
}

function givenAir(air: Exclude<AirPlan, { kind: 'cabinet' }>, hours: number): number {
  return air.kind === 'held' ? heldAt(air.temperatures, hours) : loggedAt(air.readings, hours);
}

function addEnergy(energy: WarmingResult['energy'], step: AirStep): void {
  energy.heaterKWh += step.heaterJ / J_PER_KWH;
  energy.lostKWh += step.lostJ / J_PER_KWH;
  energy.pailsKWh += step.pailsJ / J_PER_KWH;
  energy.airKWh += step.airJ / J_PER_KWH;
}
