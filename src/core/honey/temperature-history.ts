import type { TemperatureAt } from './air-plan';
import { requireRange } from './require-range';

/** What a honey went through, or will: so many hours at one temperature after another. */
export interface HeldFor {
  hours: number;
  temperatureC: number;
}

/** A stretch over which the temperature changes evenly. */
export interface Ramp {
  hours: number;
  fromC: number;
  toC: number;
}

export interface History {
  ramps: Ramp[];
  /** Time between readings too far apart to trust a straight line; counted at the warmer one. */
  gapHours: number;
}

const HISTORY_C = { lowest: -40, highest: 80 } as const;

/**
 * A planned history: each temperature held for its hours. Hours 0 upwards, −40 to 80 °C.
 *
 * @throws RangeError outside that range.
 */
export function historyOfSteps(steps: readonly HeldFor[]): History {
  const ramps = steps.map(({ hours, temperatureC }) => {
    requireRange('hours', hours, 0, Infinity);
    const heldC = requireHistoryC(temperatureC);
    return { hours, fromC: heldC, toC: heldC };
  });
  return { ramps, gapHours: 0 };
}

/**
 * A logged history: straight lines between readings. Where two readings lie further apart than
 * `longestGapHours` nobody knows what happened between them: that time is counted at the warmer of
 * the two, and told as `gapHours`. Fewer than two readings are no history at all: no ramps.
 * Readings must follow each other in time; −40 to 80 °C.
 *
 * @throws RangeError if they do not, or outside that range.
 */
export function historyOfReadings(
  readings: readonly TemperatureAt[],
  longestGapHours: number,
): History {
  if (!(longestGapHours > 0)) throw new RangeError('longestGapHours must be a number above 0');
  const history: History = { ramps: [], gapHours: 0 };
  let before: TemperatureAt | undefined;
  for (const reading of readings) {
    const toC = requireHistoryC(reading.temperatureC);
    if (!Number.isFinite(reading.atHours)) throw new RangeError('atHours must be a number');
    if (before) {
      const hours = reading.atHours - before.atHours;
      if (hours <= 0) throw new RangeError('readings must follow each other in time');
      const gap = hours > longestGapHours;
      const warmerC = Math.max(before.temperatureC, toC);
      history.gapHours += gap ? hours : 0;
      history.ramps.push(
        gap ? { hours, fromC: warmerC, toC: warmerC } : { hours, fromC: before.temperatureC, toC },
      );
    }
    before = reading;
  }
  return history;
}

/** Longest piece of a ramp that is taken in one go; bounds lie on its multiples. */
const PIECE_C = 2;

/** Three-point Gauss–Legendre: places and weights on a stretch of length 1. */
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/**
 * The sum of a rate over a ramp: rate per hour (of temperature) times hours.
 *
 * Cut at every even degree, so that bends of a rate at even degrees do no harm and it does not matter
 * where a history is split; Gauss–Legendre on each piece, exact to ten digits for Arrhenius rates.
 */
export function doseOver(ramp: Ramp, ratePerHour: (temperatureC: number) => number): number {
  const { hours, fromC, toC } = ramp;
  if (fromC === toC) return hours === 0 ? 0 : hours * ratePerHour(fromC);

  const [coldC, warmC] = [Math.min(fromC, toC), Math.max(fromC, toC)];
  const hoursPerC = hours / (warmC - coldC);
  let dose = 0;
  for (let pieceC = coldC; pieceC < warmC;) {
    const endC = Math.min(warmC, PIECE_C * (Math.floor(pieceC / PIECE_C) + 1));
    for (const [place, weight] of GAUSS) {
      const pieceHours = (endC - pieceC) * hoursPerC;
      dose += weight * pieceHours * ratePerHour(pieceC + place * (endC - pieceC));
    }
    pieceC = endC;
  }
  return dose;
}

function requireHistoryC(temperatureC: number): number {
  return requireRange('temperatureC', temperatureC, HISTORY_C.lowest, HISTORY_C.highest);
}
