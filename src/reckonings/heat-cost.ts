import { heatDamage, type HeatDamage } from '../core/honey/keeping';
import { historyOfReadings } from '../core/honey/temperature-history';
import { loggedBetween, type LoggedTemperature } from './logged-heat';
import { NotKnown } from './reckoned';
import type { StepTemperature } from './reckoning-row';

const HOUR_MS = 3_600_000;
const WARMED: readonly string[] = ['loaded', 'cleared', 'cooled'];

/** What warming cost, as far as temperatures tell: those that a probe logged, or those of two or three steps. */
export interface HeatCost {
  hours: number;
  /** What a probe in the honey logged, or what was written down at the steps. */
  basis: 'readings' | 'steps';
  /** As if it had changed evenly from one temperature to the next. */
  evenly: HeatDamage;
  /** As if it had had the warmer temperature of each two all the time between them. */
  atTheWarmer: HeatDamage;
}

/**
 * What loading, clearing and cooling cost the honey: where a probe in it logged nearly all of that time, by its readings; else by the
 * temperatures of the steps.
 *
 * @throws RangeError where those are outside what the sources cover, or not at different times.
 */
export function heatCostOf(
  steps: readonly StepTemperature[],
  logged: readonly LoggedTemperature[],
): HeatCost | NotKnown {
  const times = steps
    .filter(({ kind }) => WARMED.includes(kind))
    .map(({ at }) => new Date(at).getTime());
  const readings = loggedBetween(Math.min(...times), Math.max(...times), logged);
  if (readings !== null) return costOf(readings, 'readings');
  const known = steps.flatMap(({ kind, at, temperatureDeciC }) =>
    WARMED.includes(kind) && temperatureDeciC !== null
      ? [{ atMs: new Date(at).getTime(), temperatureC: temperatureDeciC / 10 }]
      : [],
  );
  if (known.length < 2) {
    return new NotKnown(
      'Fewer than two of the steps loaded, cleared and cooled have a temperature on record.',
    );
  }
  return costOf(known, 'steps');
}

function costOf(
  temperatures: readonly { atMs: number; temperatureC: number }[],
  basis: HeatCost['basis'],
): HeatCost {
  const startMs = temperatures[0]?.atMs ?? 0;
  const history = temperatures.map(({ atMs, temperatureC }) => ({
    atHours: (atMs - startMs) / HOUR_MS,
    temperatureC,
  }));
  const evenly = heatDamage(historyOfReadings(history, Infinity));
  // No gap is short enough to be trusted: each is counted at its warmer end.
  const atTheWarmer = heatDamage(historyOfReadings(history, Number.MIN_VALUE));
  return { hours: evenly.hours, basis, evenly, atTheWarmer };
}
