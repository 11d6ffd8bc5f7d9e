import { diastaseLossPerHour, ENZYME_RANGE_C, invertaseLossPerHour } from './enzyme-loss';
import { hmfGainPerHour } from './hmf';
import { doseOver, type History } from './temperature-history';

export interface HeatDamage {
  hours: number;
  /** Of which below 10 °C, where nothing is published: counted as 10 °C, which overstates. */
  hoursBelowRange: number;
  gapHours: number;
  hmfGainMgPerKg: { least: number; likely: number; most: number };
  /** Parts still there, 1 for unharmed. */
  diastaseLeft: number;
  invertaseLeft: number;
}

/** Nothing slower is known: colder honey is counted as if it had this temperature. */
const COLDEST_C = ENZYME_RANGE_C.lowest;

/**
 * What did a temperature history cost a honey?
 *
 * HMF adds up (zero order); enzymes fall off (first order): exp(−sum of loss per hour).
 * Sources and ranges of the rates: hmf.ts and enzyme-loss.ts, 10 to 80 °C. Time below 10 °C is
 * counted at 10 °C and told apart. It does not matter where a history is split.
 * Example: 48 h at 40 °C leave 95.6 % of the diastase and 86.6 % of the invertase.
 *
 * @throws RangeError above 80 °C.
 */
export function heatDamage(history: History): HeatDamage {
  const sums = { hmfLeast: 0, hmfLikely: 0, hmfMost: 0, diastase: 0, invertase: 0 };
  let hours = 0;
  let hoursBelowRange = 0;
  for (const ramp of history.ramps) {
    hours += ramp.hours;
    hoursBelowRange += doseOver(ramp, (temperatureC) => (temperatureC < COLDEST_C ? 1 : 0));
    sums.hmfLeast += doseOver(ramp, (t) => hmfGainPerHour(counted(t), 'least'));
    sums.hmfLikely += doseOver(ramp, (t) => hmfGainPerHour(counted(t), 'likely'));
    sums.hmfMost += doseOver(ramp, (t) => hmfGainPerHour(counted(t), 'most'));
    sums.diastase += doseOver(ramp, (t) => diastaseLossPerHour(counted(t)));
    sums.invertase += doseOver(ramp, (t) => invertaseLossPerHour(counted(t)));
  }
  return {
    hours,
    hoursBelowRange,
    gapHours: history.gapHours,
    hmfGainMgPerKg: { least: sums.hmfLeast, likely: sums.hmfLikely, most: sums.hmfMost },
    diastaseLeft: Math.exp(-sums.diastase),
    invertaseLeft: Math.exp(-sums.invertase),
  };
}

function counted(temperatureC: number): number {
  return Math.max(COLDEST_C, temperatureC);
}
