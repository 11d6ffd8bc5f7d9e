import { MELTING_RANGE_BY_GRAIN } from '../core/honey/crystals';
import { TRIAL_GRID } from '../core/honey/cylinder-grid';
import { honeyHeat } from '../core/honey/honey-heat';
import type { PailGroup } from '../core/honey/pail-group';
import { CRYSTAL_PERCENT, FILM_W_PER_M2K } from './assumptions';

export type UsualPail = Omit<PailGroup, 'count' | 'inAtHours' | 'clear'>;

/**
 * A pail of set honey of which no more is known: filled as high as wide, with the usual film and crystals.
 *
 * @throws RangeError for a moisture that the sources do not cover.
 */
export function usualPail(massKg: number, moisturePercent: number, startC: number): UsualPail {
  const honey = honeyHeat({
    waterPercent: moisturePercent,
    crystalPercent: CRYSTAL_PERCENT,
    ...MELTING_RANGE_BY_GRAIN.fine,
  });
  const sizeM = Math.cbrt((4 * massKg) / (Math.PI * honey.densityKgPerM3));
  return {
    shape: { diameterM: sizeM, fillHeightM: sizeM },
    honey,
    films: {
      sideWPerM2K: FILM_W_PER_M2K,
      topWPerM2K: FILM_W_PER_M2K,
      bottomWPerM2K: FILM_W_PER_M2K,
    },
    startC,
    grid: TRIAL_GRID,
  };
}
