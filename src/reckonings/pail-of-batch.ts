import { MELTING_RANGE_BY_GRAIN } from '../core/honey/crystals';
import { TRIAL_GRID } from '../core/honey/cylinder-grid';
import { honeyHeat } from '../core/honey/honey-heat';
import type { PailGroup } from '../core/honey/pail-group';
import {
  CRYSTAL_PERCENT,
  FILM_W_PER_M2K,
  LARGEST_PAIL_KG,
  START_C,
  WARMING_AIR_C,
} from './assumptions';
import type { ReckoningRow } from './reckoning-row';

/** The pail that decides how long a batch is warmed: its largest lot, in pails of 25 kg at most. */
export interface PailOfBatch {
  pail: Omit<PailGroup, 'count' | 'inAtHours' | 'clear'>;
  massKg: number;
  /** Of the air: the middle of what the longest warming booked for it allows, else the usual. */
  airC: number;
  /** Whether a temperature of loading is on record. */
  startIsKnown: boolean;
}

/**
 * Filled as high as wide, with the usual film and crystals. The batch must have honey.
 *
 * @throws RangeError for a moisture that the sources do not cover.
 */
export function pailOfBatch(row: ReckoningRow, moisturePercent: number): PailOfBatch {
  const largestG = Math.max(...row.honey.map(({ massG }) => massG));
  const [booking] = row.warmings;
  const loadedDeciC = row.steps.find(({ kind }) => kind === 'loaded')?.temperatureDeciC;
  const honey = honeyHeat({
    waterPercent: moisturePercent,
    crystalPercent: CRYSTAL_PERCENT,
    ...MELTING_RANGE_BY_GRAIN.fine,
  });
  const massKg = Math.min(LARGEST_PAIL_KG, largestG / 1000);
  const sizeM = Math.cbrt((4 * massKg) / (Math.PI * honey.densityKgPerM3));
  return {
    pail: {
      shape: { diameterM: sizeM, fillHeightM: sizeM },
      honey,
      films: {
        sideWPerM2K: FILM_W_PER_M2K,
        topWPerM2K: FILM_W_PER_M2K,
        bottomWPerM2K: FILM_W_PER_M2K,
      },
      startC: loadedDeciC == null ? START_C : loadedDeciC / 10,
      grid: TRIAL_GRID,
    },
    massKg,
    airC: booking ? (booking.minDeciC + booking.maxDeciC) / 20 : WARMING_AIR_C,
    startIsKnown: loadedDeciC != null,
  };
}
