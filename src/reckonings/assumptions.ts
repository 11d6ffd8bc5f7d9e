/** A value taken where the club has none on record, and where it comes from. */
export interface Assumed {
  text: string;
  source: string;
}

export const COMMON_PRACTICE = 'common practice, no source';

/** Of a honey that has set, g per 100 g. */
export const CRYSTAL_PERCENT = 15;
/** The seed of the trade's rule of thumb: for every 100 of honey. */
export const SEED_PER_HUNDRED_OF_HONEY = 10;
/** The air of a warming that nobody has booked. */
export const WARMING_AIR_C = 42;
/** Honey as it comes from a cool store. */
export const START_C = 12;
/** A pail counts as clear when its coldest point has passed this. */
export const CLEAR_C = 40;
/** Of still air along every face of a pail. */
export const FILM_W_PER_M2K = 5;
export const LARGEST_PAIL_KG = 25;

export const crystalsAssumed: Assumed = {
  text: `The honey, set, holds ${CRYSTAL_PERCENT} g of crystals in 100 g.`,
  source: COMMON_PRACTICE,
};

export const filmAssumed: Assumed = {
  text: `The air about the pails carries ${FILM_W_PER_M2K} W/m²·K to every face of them.`,
  source:
    'Heat-transfer textbooks: free convection of gases, 2 to 25 W/m²·K. Within that, the value with which a pail of hard-set ' +
    'honey is clear in about two days (common practice, no source).',
};

/** Of a honey whose moisture nobody measured, percent. */
export const USUAL_MOISTURE_PERCENT = 17.2;

export const moistureAssumed: Assumed = {
  text: `The moisture of some of the honey is not on record: ${USUAL_MOISTURE_PERCENT} % is taken.`,
  source: COMMON_PRACTICE,
};
