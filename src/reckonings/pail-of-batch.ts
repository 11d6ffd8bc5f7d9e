import { LARGEST_PAIL_KG, START_C, WARMING_AIR_C } from './assumptions';
import type { ReckoningRow } from './reckoning-row';
import { usualPail, type UsualPail } from './usual-pail';

/** The pail that decides how long a batch is warmed: its largest lot, in pails of 25 kg at most. */
export interface PailOfBatch {
  pail: UsualPail;
  massKg: number;
  /** Of the air: the middle of what the longest warming booked for it allows, else the usual. */
  airC: number;
  /** Whether a temperature of loading is on record. */
  startIsKnown: boolean;
}

/**
 * As a usual pail, where the records say no more. The batch must have honey.
 *
 * @throws RangeError for a moisture that the sources do not cover.
 */
export function pailOfBatch(row: ReckoningRow, moisturePercent: number): PailOfBatch {
  const largestG = Math.max(...row.honey.map(({ massG }) => massG));
  const [booking] = row.warmings;
  const loadedDeciC = row.steps.find(({ kind }) => kind === 'loaded')?.temperatureDeciC;
  const massKg = Math.min(LARGEST_PAIL_KG, largestG / 1000);
  const startC = loadedDeciC == null ? START_C : loadedDeciC / 10;
  return {
    pail: usualPail(massKg, moisturePercent, startC),
    massKg,
    airC: booking ? (booking.minDeciC + booking.maxDeciC) / 20 : WARMING_AIR_C,
    startIsKnown: loadedDeciC != null,
  };
}
