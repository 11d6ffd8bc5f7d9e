import { requirePositive, requireRange } from './require-range';

/** A temperature that holds from a time on, until the next. */
export interface TemperatureFrom {
  fromHours: number;
  temperatureC: number;
}

export interface TemperatureAt {
  atHours: number;
  temperatureC: number;
}

/** A warming cabinet: one body of air, with a heater that a thermostat holds at a set point. */
export interface Cabinet {
  heaterPowerW: number;
  /** Heat lost to the room for each degree the air is warmer than the room. */
  lossWPerK: number;
  /** Of the air and whatever follows it at once (shelves, lining), without the pails; may be 0. */
  airCapacityJPerK: number;
  roomC: number;
  /** Of the air when the first hour begins. */
  startC: number;
}

/** What the pails stand in. */
export type AirPlan =
  | { kind: 'held'; temperatures: readonly TemperatureFrom[] }
  | { kind: 'logged'; readings: readonly TemperatureAt[] }
  | { kind: 'cabinet'; cabinet: Cabinet; setPoints: readonly TemperatureFrom[] };

const AIR_C = { lowest: -40, highest: 120 } as const;

/**
 * Passes on a plan that makes sense: temperatures of −40 to 120 °C, times that rise, the first of
 * `temperatures` and `setPoints` at hour 0, at least two readings.
 *
 * @throws RangeError naming what does not.
 */
export function checkedAirPlan(plan: AirPlan): AirPlan {
  switch (plan.kind) {
    case 'held':
      requireSteps('temperatures', plan.temperatures);
      break;
    case 'logged':
      if (plan.readings.length < 2) throw new RangeError('readings must be at least 2');
      requireRising(
        'readings',
        plan.readings.map((reading) => reading.atHours),
      );
      requireTemperatures(plan.readings);
      break;
    case 'cabinet':
      requireSteps('setPoints', plan.setPoints);
      requirePositive('heaterPowerW', plan.cabinet.heaterPowerW);
      requireRange('lossWPerK', plan.cabinet.lossWPerK, 0, 1e4);
      requireRange('airCapacityJPerK', plan.cabinet.airCapacityJPerK, 0, 1e8);
      requireRange('roomC', plan.cabinet.roomC, AIR_C.lowest, AIR_C.highest);
      requireRange('startC', plan.cabinet.startC, AIR_C.lowest, AIR_C.highest);
      break;
  }
  return plan;
}

/** The times at which a plan changes suddenly: a step of the reckoning must end there. */
export function sudden(plan: AirPlan): number[] {
  switch (plan.kind) {
    case 'held':
      return plan.temperatures.map((step) => step.fromHours);
    case 'cabinet':
      return plan.setPoints.map((step) => step.fromHours);
    case 'logged':
      return [];
  }
}

/** The temperature that holds at a time: the last one that began by then. */
export function heldAt(steps: readonly TemperatureFrom[], hours: number): number {
  let temperatureC = NaN;
  for (const step of steps) {
    if (step.fromHours > hours) break;
    temperatureC = step.temperatureC;
  }
  return temperatureC;
}

/** The straight line between readings; before the first and after the last, that reading. */
export function loggedAt(readings: readonly TemperatureAt[], hours: number): number {
  const first = readings[0] as TemperatureAt;
  const last = readings[readings.length - 1] as TemperatureAt;
  if (hours <= first.atHours) return first.temperatureC;
  if (hours >= last.atHours) return last.temperatureC;

  let low = 0;
  let high = readings.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((readings[middle] as TemperatureAt).atHours <= hours) low = middle;
    else high = middle;
  }
  const before = readings[low] as TemperatureAt;
  const after = readings[high] as TemperatureAt;
  const fraction = (hours - before.atHours) / (after.atHours - before.atHours);
  return before.temperatureC + fraction * (after.temperatureC - before.temperatureC);
}

function requireSteps(name: string, steps: readonly TemperatureFrom[]): void {
  if (steps[0]?.fromHours !== 0) throw new RangeError(`${name} must begin at hour 0`);
  requireRising(
    name,
    steps.map((step) => step.fromHours),
  );
  requireTemperatures(steps);
}

function requireRising(name: string, hours: readonly number[]): void {
  hours.forEach((hour, index) => {
    const previous = index === 0 ? -Infinity : (hours[index - 1] as number);
    if (!Number.isFinite(hour) || hour <= previous) {
      throw new RangeError(`${name} must follow each other in time; number ${index + 1} does not`);
    }
  });
}

function requireTemperatures(entries: readonly { temperatureC: number }[]): void {
  for (const { temperatureC } of entries) {
    requireRange('temperatureC', temperatureC, AIR_C.lowest, AIR_C.highest);
  }
}
