import { heatDamage, type HeatDamage } from '../core/honey/keeping';
import { historyOfReadings } from '../core/honey/temperature-history';
import { NotKnown } from './reckoned';
import type { StepTemperature } from './reckoning-row';

const HOUR_MS = 3_600_000;
const WARMED: readonly string[] = ['loaded', 'cleared', 'cooled'];

/** What warming cost, as far as the temperatures of two or three steps can tell. */
export interface HeatCost {
  hours: number;
  /** As if it had changed evenly from one step to the next. */
  evenly: HeatDamage;
  /** As if it had had the warmer temperature of each two steps all the time between them. */
  atTheWarmer: HeatDamage;
}

/**
 * What loading, clearing and cooling cost the honey, from the temperatures on record.
 *
 * @throws RangeError where those are outside what the sources cover, or not at different times.
 */
export function heatCostOf(steps: readonly StepTemperature[]): HeatCost | NotKnown {
  const known = steps.flatMap(({ kind, at, temperatureDeciC }) =>
    WARMED.includes(kind) && temperatureDeciC !== null
      ? [{ atMs: new Date(at).getTime(), temperatureC: temperatureDeciC / 10 }]
      : [],
  );
  const [first] = known;
  if (first === undefined || known.length < 2) {
    return new NotKnown(
      'Fewer than two of the steps loaded, cleared and cooled have a temperature on record.',
    );
  }
  const readings = known.map(({ atMs, temperatureC }) => ({
    atHours: (atMs - first.atMs) / HOUR_MS,
    temperatureC,
  }));
  const evenly = heatDamage(historyOfReadings(readings, Infinity));
  // No gap is short enough to be trusted: each is counted at its warmer end.
  const atTheWarmer = heatDamage(historyOfReadings(readings, Number.MIN_VALUE));
  return { hours: evenly.hours, evenly, atTheWarmer };
}
