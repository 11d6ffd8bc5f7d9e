import { COMMON_PRACTICE, type Assumed } from '../reckonings/assumptions';

/** Set points that are tried, where the cabinet holds them; °C. */
export const SET_POINTS_C: readonly number[] = [42, 45, 48, 50];
/** Beside a set point, for others who share the cabinet; °C. */
export const SET_POINT_BAND_C = 1;
/** Pails may stay in longer than they must, so that somebody can come: by so many hours, or until the hour at which they were loaded. */
const LONGER_BY_HOURS: readonly number[] = [5, 10];
const DAY_HOURS = 24;
export const MOST_WARMING_HOURS = 120;
export const HOTTEST_C = 50;
/** Where pails cool after warming, and of the bench; °C. */
export const ROOM_C = 18;
export const BENCH_BAND = { minC: 15, maxC: 25 };
export const COOL_BAND = { minC: 12, maxC: 16 };
export const USUAL_CERTAINTY_PERCENT = 80;

/** The lengths of everything are whole multiples of this. */
export const STEP_MINUTES = 15;
const BENCH_MINUTES = { once: 60, perKg: 2 };
/** Honey that is cool enough may wait so long for the bench. */
export const MOST_STAND_MINUTES = 24 * 60;
/** Filled pots may wait so long for the cool room. */
export const MOST_SHELVE_MINUTES = 4 * 60;
/** Of glass and lid beside a pot's honey. */
const POT_PER_HONEY = 0.4;
/** Where the forecast can name no day. */
export const HOLD_DAYS_IF_UNKNOWN = 30;

/** Lengths of warming, in hours, beside the least. */
export function warmingLengthsFrom(leastHours: number): number[] {
  const wholeDays = Math.ceil(leastHours / DAY_HOURS) * DAY_HOURS;
  return [
    ...LONGER_BY_HOURS.map((longer) => leastHours + longer),
    wholeDays,
    wholeDays + DAY_HOURS,
  ];
}

/** How long the bench is taken for so much honey and seed, whole minutes. */
export function benchMinutesOf(blendG: number): number {
  const minutes = BENCH_MINUTES.once + (BENCH_MINUTES.perKg * blendG) / 1000;
  return Math.ceil(minutes / STEP_MINUTES) * STEP_MINUTES;
}

/** What a pot weighs with glass and lid, grams. */
export function grossPotG(netMassG: number): number {
  return Math.ceil(netMassG * (1 + POT_PER_HONEY));
}

/** What every plan takes for granted, beside what warming does. */
export const planAssumptions: readonly Assumed[] = [
  {
    text: `The bench is taken for ${BENCH_MINUTES.once} minutes to set up, pot the last and clean, and ${BENCH_MINUTES.perKg} minutes for each kilogram of honey and seed.`,
    source: COMMON_PRACTICE,
  },
  {
    text: `Honey that has cooled to seeding temperature may wait ${MOST_STAND_MINUTES / 60} hours for the bench, filled pots ${MOST_SHELVE_MINUTES / 60} hours for the cool room.`,
    source: COMMON_PRACTICE,
  },
  {
    text: `A pot’s glass and lid weigh ${100 * POT_PER_HONEY} percent of its honey.`,
    source: COMMON_PRACTICE,
  },
  {
    text: `Nobody is needed while the honey warms, cools and sets: somebody comes to load it, to take it out, for the bench, and to put the pots into the cool room.`,
    source: COMMON_PRACTICE,
  },
];
