import { requireRange } from './require-range';

/** OIML R 87, Table 1: up to this nominal quantity, either a percentage of it or a fixed mass. */
const STEPS = [
  { upToG: 50, percent: 9 },
  { upToG: 100, fixedG: 4.5 },
  { upToG: 200, percent: 4.5 },
  { upToG: 300, fixedG: 9 },
  { upToG: 500, percent: 3 },
  { upToG: 1000, fixedG: 15 },
  { upToG: 10_000, percent: 1.5 },
  { upToG: 15_000, fixedG: 150 },
  { upToG: 25_000, percent: 1 },
] as const;

/** 0.1 g, rounded up; less a hair, so that 30 · 9 % stays 2.7 in binary arithmetic. */
const TENTHS_PER_G = 10;
const HAIR = 1e-9;

/** What the average-quantity rules speak of. */
export const NOMINAL_RANGE_G = { lowest: 5, highest: 25_000 } as const;

/**
 * By how many grams may a single pot fall short of its label?
 *
 * Percentage or fixed mass by nominal quantity; percentages rounded up to the next 0.1 g.
 * Source: OIML R 87, Table 1; the same in Directive 76/211/EEC and the GB rules on average quantity.
 * Range: 5 to 25,000 g (the GB scheme's). Example: 454 g may fall short by 13.7 g.
 *
 * @throws RangeError outside that range.
 */
export function tolerableDeficiencyG(nominalG: number): number {
  requireRange('nominalG', nominalG, NOMINAL_RANGE_G.lowest, NOMINAL_RANGE_G.highest);
  const step = STEPS.find(({ upToG }) => nominalG <= upToG) as (typeof STEPS)[number];
  if ('fixedG' in step) return step.fixedG;
  const exactTenths = (nominalG * step.percent * TENTHS_PER_G) / 100;
  return Math.ceil(exactTenths - HAIR) / TENTHS_PER_G;
}
