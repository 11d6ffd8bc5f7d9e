import { warmPails } from '../core/honey/warm-pails';
import {
  CLEAR_C,
  COMMON_PRACTICE,
  crystalsAssumed,
  FILM_W_PER_M2K,
  filmAssumed,
  LARGEST_PAIL_KG,
  START_C,
  type Assumed,
} from './assumptions';
import { pailOfBatch } from './pail-of-batch';
import { NotKnown, rounded } from './reckoned';
import type { ReckoningRow, WarmingBooking } from './reckoning-row';
import type { WarmingReckoning } from './warming.responses';

const LONGEST_HOURS = 240;
const HOUR_MS = 3_600_000;

/** Until when the coldest point of a pail is clear, against the hours that are booked. */
export function warmingOf(
  row: ReckoningRow,
  moisturePercent: number | null,
): WarmingReckoning | NotKnown {
  if (row.honey.length === 0) return new NotKnown('No honey is meant for the batch.');
  if (moisturePercent === null) return new NotKnown('The moisture of the honey is not known.');

  const [booking] = row.warmings;
  const { pail, massKg: pailMassKg, airC, startIsKnown } = pailOfBatch(row, moisturePercent);
  const { shape, startC } = pail;

  // In air that is held, one pail is as fast as many.
  const clearAtHours =
    airC <= CLEAR_C && startC < CLEAR_C
      ? undefined
      : warmPails({
          pails: [{ ...pail, count: 1 }],
          air: { kind: 'held', temperatures: [{ fromHours: 0, temperatureC: airC }] },
          untilHours: LONGEST_HOURS,
          clearC: CLEAR_C,
          stopWhenClear: true,
        }).groups[0]?.clearAtHours;
  const bookedHours = booking ? hoursOf(booking) : null;
  const spareHours =
    clearAtHours === undefined || bookedHours === null ? null : bookedHours - clearAtHours;
  return {
    bookingId: booking?.id ?? null,
    otherBookings: Math.max(0, row.warmings.length - 1),
    airC: rounded(airC, 2),
    startC,
    pailMassKg,
    pailDiameterM: rounded(shape.diameterM, 3),
    fillHeightM: rounded(shape.fillHeightM, 3),
    filmWPerM2K: FILM_W_PER_M2K,
    hoursUntilClear: clearAtHours === undefined ? null : rounded(clearAtHours, 1),
    bookedHours: bookedHours === null ? null : rounded(bookedHours, 2),
    spareHours: spareHours === null ? null : rounded(spareHours, 1),
    verdict: verdictOf(clearAtHours, spareHours),
    assumptions: warmingAssumptionsOf(row, { airC, pailMassKg, startIsKnown }),
  };
}

function hoursOf({ startsAt, endsAt }: WarmingBooking): number {
  return (new Date(endsAt).getTime() - new Date(startsAt).getTime()) / HOUR_MS;
}

function verdictOf(
  clearAtHours: number | undefined,
  spareHours: number | null,
): WarmingReckoning['verdict'] {
  if (clearAtHours === undefined) return 'too-cool';
  if (spareHours === null) return 'nothing-booked';
  return spareHours >= 0 ? 'enough' : 'short';
}

/** What was taken where nothing is on record. */
export function warmingAssumptionsOf(
  { warmings, sources }: Pick<ReckoningRow, 'warmings' | 'sources'>,
  taken: { airC: number; pailMassKg: number; startIsKnown: boolean },
): Assumed[] {
  const air =
    warmings.length === 0
      ? `No warming is booked for the batch: air of ${taken.airC} °C.`
      : `The air is held at ${taken.airC} °C, the middle of what the longest warming booked for the batch allows, from its start on.`;
  return [
    { text: air, source: COMMON_PRACTICE },
    pailAssumed(taken.pailMassKg),
    filmAssumed,
    crystalsAssumed,
    meltingAssumed,
    ...startAndGrainAssumed(sources, taken.startIsKnown),
  ];
}

export function pailAssumed(massKg: number): Assumed {
  const pail =
    massKg < LARGEST_PAIL_KG
      ? `The honey stands in pails of ${massKg} kg, the mass of the largest lot.`
      : `The honey stands in pails of ${LARGEST_PAIL_KG} kg.`;
  return {
    text: `${pail} They are filled as high as they are wide, not stirred, and air reaches every side.`,
    source: COMMON_PRACTICE,
  };
}

export const meltingAssumed: Assumed = {
  text: `The crystals melt from 25 to 45 °C, and a pail is clear when its coldest point has passed ${CLEAR_C} °C.`,
  source: 'Lupano 1997 (fine crystals); the clearing temperature: common practice, no source.',
};

/** What is to be known of where the warming starts and of crystals that may not melt. */
export function startAndGrainAssumed(
  sources: ReckoningRow['sources'],
  startIsKnown: boolean,
): Assumed[] {
  const assumed: Assumed[] = [];
  if (!startIsKnown) {
    assumed.push({
      text: `No temperature of loading is on record: the honey starts at ${START_C} °C.`,
      source: COMMON_PRACTICE,
    });
  }
  if (sources.some(({ grain }) => grain === 'coarse')) {
    assumed.push({
      text: 'Some of the honey sets coarse, and coarse crystals may need 45 °C and more to melt: look before you take it out.',
      source: 'Lupano 1997 (crystals grown at 20 °C melted from 45 to 65 °C).',
    });
  }
  return assumed;
}
