import { MELTING_RANGE_BY_GRAIN } from '../core/honey/crystals';
import { TRIAL_GRID } from '../core/honey/cylinder-grid';
import { honeyHeat } from '../core/honey/honey-heat';
import type { PailGroup } from '../core/honey/pail-group';
import { requireRange } from '../core/honey/require-range';
import { allRound, inMetres, wholeShape } from './pail-shape';
import { reckoned } from './reckoned';
import { USUAL } from './usual-honey';
import type { WarmingPail } from './warming.requests';
import { sent } from './sent';

/** Rates of heat damage are published up to 80 °C; no maker warms honey so far. */
const HONEY_C = { lowest: -30, highest: 75 } as const;

/** Pails as somebody told of them, in the words of a warming or a cooling. */
export interface PailInWords extends Required<Omit<WarmingPail, 'grain'>> {
  grain?: WarmingPail['grain'];
}

/** A pail with everything filled in that was not said. */
export function wholePail(pail: WarmingPail, index: number, startC: number): PailInWords {
  const moisturePercent = pail.moisturePercent ?? USUAL.moisturePercent;
  return {
    ...sent(pail),
    ...wholeShape(pail, moisturePercent, `#/pails/${index}`),
    moisturePercent,
    crystalPercent: pail.crystalPercent ?? USUAL.crystalPercent,
    startC: pail.startC ?? startC,
  };
}

/** The same as the reckoning wants it. What is out of range is refused at its place. */
export function pailGroupOf(pail: PailInWords, index: number, filmWPerM2K: number): PailGroup {
  const { count, moisturePercent, crystalPercent, grain = 'fine', startC } = pail;
  const at = `#/pails/${index}`;
  const places = {
    waterPercent: `${at}/moisturePercent`,
    crystalPercent: `${at}/crystalPercent`,
    startC: `${at}/startC`,
  };
  return reckoned(places, () => ({
    count,
    shape: inMetres(pail),
    honey: honeyHeat({
      waterPercent: moisturePercent,
      crystalPercent,
      ...MELTING_RANGE_BY_GRAIN[grain],
    }),
    films: allRound(filmWPerM2K),
    startC: requireHoneyC('startC', startC),
    clear: crystalPercent === 0,
    grid: TRIAL_GRID,
  }));
}

/** @throws RangeError for a temperature that honey is not reckoned at. */
export function requireHoneyC(name: string, temperatureC: number): number {
  return requireRange(name, temperatureC, HONEY_C.lowest, HONEY_C.highest);
}
