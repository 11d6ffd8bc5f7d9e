import { clearingLengths, type ClearingLength } from '../core/honey/clearing-lengths';
import { SEEDING_C } from '../core/honey/seed-blend';
import type { Band, WarmingOption } from '../core/planning/runs/run';
import {
  CLEAR_C,
  COMMON_PRACTICE,
  crystalsAssumed,
  filmAssumed,
  START_C,
  type Assumed,
} from '../reckonings/assumptions';
import { usualPail } from '../reckonings/usual-pail';
import { AnswerCache } from '../setting-times/answer-cache';
import {
  MOST_WARMING_HOURS,
  ROOM_C,
  SET_POINT_BAND_C,
  SET_POINTS_C,
  STEP_MINUTES,
  warmingLengthsFrom,
} from './plan-assumptions';

const keptLengths = 2_000;
/** Just above the clearing temperature the last crystals take for ever. */
const LEAST_ABOVE_CLEAR_C = 0.5;
/** So finely the pail and its moisture count: a finer step would change nothing that is booked. */
const PAIL_STEP_KG = 0.5;
const LEAST_PAIL_KG = 1;
const MOISTURE = { usualPercent: 17.2, leastPercent: 15, mostPercent: 21, step: 10 };

/** What pails are warmed: the largest is the slowest, and decides. */
export interface PailsToWarm {
  largestKg: number;
  count: number;
  massKg: number;
  moisturePercent: number | null;
}

const kept = new AnswerCache<ClearingLength[]>(keptLengths);

/** The ways in which a cabinet that holds these temperatures can warm the pails; none when it is too cool or they may not be so hot. */
export function warmingOptions(
  served: Band,
  pails: PailsToWarm,
  hottestC: number,
): WarmingOption[] {
  return setPointsOf(served, hottestC).flatMap(({ setpointC, band }) =>
    lengthsAt(setpointC, pails).map((length) => ({
      setpointC,
      ...band,
      // In air that is held, one pail is as fast as many.
      minutes: () => length.hours * 60,
      coolingMinutes: length.coolingHours * 60,
      energyKWh: (length.pailKWh * pails.massKg) / roundedKg(pails),
      diastaseLeftPercent: 100 * length.damage.diastaseLeft,
      hmfGainedMgPerKg: length.damage.hmfGainMgPerKg.likely,
    })),
  );
}

function setPointsOf(served: Band, hottestC: number): { setpointC: number; band: Band }[] {
  const bandAbout = (setpointC: number) => ({
    minC: setpointC - SET_POINT_BAND_C,
    maxC: setpointC + SET_POINT_BAND_C,
  });
  const usual = SET_POINTS_C.filter((setpointC) => {
    const { minC, maxC } = bandAbout(setpointC);
    return setpointC <= hottestC && minC >= served.minC && maxC <= served.maxC;
  });
  if (usual.length > 0) {
    return usual.map((setpointC) => ({ setpointC, band: bandAbout(setpointC) }));
  }
  // A cabinet of one temperature, or one that barely gets there: as warm as it may be.
  const setpointC = Math.min(served.maxC, hottestC);
  return setpointC < served.minC ? [] : [{ setpointC, band: { minC: setpointC, maxC: setpointC } }];
}

function lengthsAt(airC: number, pails: PailsToWarm): ClearingLength[] {
  if (airC < CLEAR_C + LEAST_ABOVE_CLEAR_C) return [];
  const massKg = roundedKg(pails);
  const waterPercent = roundedMoisture(pails.moisturePercent);
  const key = [massKg, waterPercent, airC].join();
  const known = kept.get(key);
  if (known !== undefined) return known;

  const lengths = clearingLengths({
    pail: usualPail(massKg, waterPercent, START_C),
    airC,
    roomC: ROOM_C,
    clearC: CLEAR_C,
    seedC: SEEDING_C.cautious,
    lengthsFrom: warmingLengthsFrom,
    mostHours: MOST_WARMING_HOURS,
    roundUpToHours: STEP_MINUTES / 60,
  });
  kept.keep(key, lengths, 1);
  return lengths;
}

function roundedKg({ largestKg }: PailsToWarm): number {
  return Math.max(LEAST_PAIL_KG, Math.ceil(largestKg / PAIL_STEP_KG) * PAIL_STEP_KG);
}

function roundedMoisture(moisturePercent: number | null): number {
  const { usualPercent, leastPercent, mostPercent, step } = MOISTURE;
  const percent = Math.round((moisturePercent ?? usualPercent) * step) / step;
  return Math.min(mostPercent, Math.max(leastPercent, percent));
}

/** What the lengths of warming and cooling stand on. */
export function warmingAssumptions(pails: PailsToWarm): Assumed[] {
  return [
    {
      text: `The air is held at the set point from the start on, whatever else stands in the cabinet: no heater power is on record. A weak heater, or a cabinet full of cold pails, takes longer.`,
      source: COMMON_PRACTICE,
    },
    {
      text: `The largest pail, ${roundedKg(pails)} kg, decides. It is as high as it is wide, not stirred, and ${START_C} °C when it is loaded; it is clear when its coldest point has passed ${CLEAR_C} °C.`,
      source: COMMON_PRACTICE,
    },
    {
      text: `Taken out, it cools in a room of ${ROOM_C} °C until its warmest point is down to ${SEEDING_C.cautious} °C.`,
      source:
        'FAO Agricultural Services Bulletin 124 (24 °C for seeding); the room: common practice, no source.',
    },
    {
      text: 'Heat cost is that of the place which is always the warmest, cooling included; the energy is what the honey takes up, without the cabinet’s losses.',
      source: 'White, Kushnir & Subers 1964 (diastase); White et al. (HMF).',
    },
    filmAssumed,
    crystalsAssumed,
  ];
}
