import { heatDamage, type HeatDamage } from './keeping';
import type { PailGroup } from './pail-group';
import { requirePositive } from './require-range';
import { historyOfReadings } from './temperature-history';
import { warmPails } from './warm-pails';
import type { PailSample } from './warming-progress';

export interface ClearingLengthsQuestion {
  /** One pail: in air that is held, many are as fast as one. */
  pail: Omit<PailGroup, 'count' | 'inAtHours' | 'clear'>;
  /** Of the air, held while the pail is warmed. */
  airC: number;
  /** Where it cools afterwards. */
  roomC: number;
  /** The coldest point must pass it. */
  clearC: number;
  /** The warmest point must come down to it. */
  seedC: number;
  /** Lengths that are worth a look beside the least: whoever comes once a day takes out what went in at that hour. */
  lengthsFrom: (leastHours: number) => readonly number[];
  /** Longer than this it is not warmed. */
  mostHours: number;
  /** Lengths are rounded up to whole multiples of so many hours. */
  roundUpToHours: number;
}

export interface ClearingLength {
  hours: number;
  /** From taking the pail out until its warmest point may have seed. */
  coolingHours: number;
  /** Of the place that is always the warmest, cooling included: never understated. */
  damage: HeatDamage;
  /** What the pail took up. What the cabinet loses is not known. */
  pailKWh: number;
}

/**
 * How long is a pail warmed in air of one temperature until it is clear, and what does that, and each greater length, cost?
 *
 * Warming and cooling by {@link warmPails}; damage by {@link heatDamage}. A pail is taken to leave the warmth at the air's temperature
 * throughout, which overstates cooling and damage a little. Empty when it is not clear within `mostHours`, or does not cool down to
 * `seedC` within ten days.
 * Units: hours, °C, kWh. Sources and ranges: warm-pails.ts, keeping.ts.
 * Example: 25 kg with a film of 5 W/m²·K, from 12 °C, in air of 45 °C: 33.5 hours; it cools to 24 °C in a room of 18 °C in 21.
 *
 * @throws RangeError outside those ranges, or for a round-up that is not above 0.
 */
export function clearingLengths(question: ClearingLengthsQuestion): ClearingLength[] {
  const { pail, airC, roomC, clearC, seedC, lengthsFrom, mostHours } = question;
  const step = requirePositive('roundUpToHours', question.roundUpToHours);
  if (airC <= clearC) return [];
  const untilClear = warmPails({
    pails: [{ ...pail, count: 1 }],
    air: held(airC),
    untilHours: mostHours,
    clearC,
    stopWhenClear: true,
  });
  const [warmed] = untilClear.groups;
  if (warmed?.clearAtHours === undefined) return [];
  const leastHours = Math.max(step, roundedUp(warmed.clearAtHours, step));

  const cooling = warmPails({
    pails: [{ ...pail, count: 1, startC: airC, clear: true }],
    air: held(roomC),
    untilHours: LONGEST_COOLING_HOURS,
    seedC,
  });
  const safeAtHours = cooling.groups[0]?.seedSafeAtHours;
  if (safeAtHours === undefined) return [];
  const coolingHours = roundedUp(safeAtHours, step);
  const samplesOfCooling = (cooling.groups[0]?.samples ?? []).filter(
    ({ atHours }) => atHours <= COUNTED_COOLING_HOURS,
  );

  const lengths = [leastHours, ...lengthsFrom(leastHours)].map((hours) => roundedUp(hours, step));
  return [...new Set(lengths)]
    .filter((hours) => hours >= leastHours && hours <= mostHours)
    .sort((a, b) => a - b)
    .map((hours) => ({
      hours,
      coolingHours,
      damage: damageOf(warmed.samples, hours, airC, samplesOfCooling),
      pailKWh: untilClear.energy.pailsKWh,
    }));
}

const LONGEST_COOLING_HOURS = 240;
/** By then a pail has come down to where time hardly counts any more. */
const COUNTED_COOLING_HOURS = 48;

function held(temperatureC: number) {
  return { kind: 'held' as const, temperatures: [{ fromHours: 0, temperatureC }] };
}

function roundedUp(hours: number, step: number): number {
  // A thousandth of a step is rounding in the arithmetic, not time.
  return Math.ceil(hours / step - 0.001) * step;
}

/** The warmest point while warming; then the air's temperature until it is taken out; then cooling. */
function damageOf(
  warming: readonly PailSample[],
  hours: number,
  airC: number,
  cooling: readonly PailSample[],
): HeatDamage {
  const inside = warming
    .filter(({ atHours }) => atHours < hours)
    .map(({ atHours, warmestC }) => ({ atHours, temperatureC: warmestC }));
  const outside = cooling
    .filter(({ atHours }) => atHours > 0)
    .map(({ atHours, warmestC }) => ({ atHours: hours + atHours, temperatureC: warmestC }));
  const readings = [...inside, { atHours: hours, temperatureC: airC }, ...outside];
  return heatDamage(historyOfReadings(readings, Infinity));
}
