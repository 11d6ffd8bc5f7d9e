import type { Composition } from './setting-readiness';

/** How far a default may be trusted. */
export type Status = 'read in a copy' | 'from memory, medium';

export interface FloralDefault extends Composition {
  plant: string;
  source: string;
  status: Status;
}

const PERSANO_ODDO_PIRO =
  'Persano Oddo & Piro 2004, Apidologie 35, S38–S81 (European unifloral honeys, means)';
const WHITE = 'White et al. 1962, USDA Technical Bulletin 1261 (mean of 490 samples)';

/**
 * Compositions to start from while a honey has not been analysed: glucose, fructose and water in g per
 * 100 g. Means of many honeys of one source; a single honey may differ by several grams, so a
 * measured moisture always takes the place of this one. The means of single sources are from
 * memory (±1.5 g per 100 g); only the all-honey mean was read in a copy.
 */
export const FLORAL_DEFAULTS: readonly FloralDefault[] = [
  {
    plant: 'any honey',
    fructosePercent: 38.2,
    glucosePercent: 31.3,
    waterPercent: 17.2,
    source: WHITE,
    status: 'read in a copy',
  },
  ...europeanMeans([
    ['rape (Brassica napus)', 38.3, 40.5, 16.9],
    ['dandelion (Taraxacum)', 37.4, 38.0, 17.3],
    ['sunflower (Helianthus)', 39.2, 37.4, 17.8],
    ['eucalyptus', 39.1, 33.0, 16.0],
    ['ling heather (Calluna)', 40.8, 32.5, 18.9],
    ['lime (Tilia)', 37.5, 31.9, 16.9],
    ['citrus', 38.7, 31.4, 16.6],
    ['lavender (Lavandula)', 36.0, 30.6, 16.7],
    ['thyme (Thymus)', 42.4, 30.7, 16.1],
    ['rhododendron', 39.1, 30.4, 16.6],
    ['chestnut (Castanea)', 40.8, 27.9, 17.5],
    ['false acacia (Robinia)', 42.7, 26.5, 17.1],
    ['honeydew', 32.5, 26.2, 16.1],
    ['honeydew (Metcalfa)', 31.6, 23.9, 16.2],
  ]),
];

function europeanMeans(
  rows: readonly (readonly [plant: string, fructose: number, glucose: number, water: number])[],
): FloralDefault[] {
  return rows.map(([plant, fructosePercent, glucosePercent, waterPercent]) => ({
    plant,
    fructosePercent,
    glucosePercent,
    waterPercent,
    source: PERSANO_ODDO_PIRO,
    status: 'from memory, medium',
  }));
}
