import type { HeatDamage } from '../core/honey/keeping';
import type { PailDamage } from '../core/honey/pail-damage';
import { pailCourse } from '../core/honey/pail-course';
import { SEEDING_C } from '../core/honey/seed-blend';
import { ROOM_C } from '../plans/plan-assumptions';
import { CLEAR_C, moistureAssumed, USUAL_MOISTURE_PERCENT, type Assumed } from './assumptions';
import { honeyOf } from './honey-and-seed';
import { pailOfBatch } from './pail-of-batch';
import { NotKnown } from './reckoned';
import type { ReckoningRow } from './reckoning-row';
import { warmingAssumptionsOf } from './warming-reckoning';

const HOUR_MS = 3_600_000;
const MOST_WARMING_HOURS = 240;

export interface CoursePoint {
  atMs: number;
  coldestC: number;
  warmestC: number;
  meanC: number;
  airC: number;
}

/** How the pails of a batch are to warm and to cool. */
export interface PlannedCourse {
  startsAtMs: number;
  airC: number;
  roomC: number;
  points: CoursePoint[];
  clearAtMs: number | null;
  takenOutAtMs: number | null;
  coolEnoughAtMs: number | null;
  damage: PailDamage;
  assumptions: Assumed[];
}

/** Where the course of a batch begins: when it was loaded, else when its warming is booked from; null: neither. */
export function startOfCourse({ steps, warmings }: ReckoningRow): number | null {
  const startsAt = steps.find(({ kind }) => kind === 'loaded')?.at ?? warmings[0]?.startsAt;
  return startsAt === undefined ? null : new Date(startsAt).getTime();
}

/**
 * The warming and cooling that was planned for a batch, reckoned: from its loading to the end of its booking, then in the room.
 *
 * @throws RangeError for records outside what the sources cover.
 */
export function plannedCourse(row: ReckoningRow): PlannedCourse | NotKnown {
  const startsAtMs = startOfCourse(row);
  if (row.honey.length === 0) return new NotKnown('No honey is meant for the batch.');
  if (startsAtMs === null) {
    return new NotKnown('The batch has not been loaded, and no warming is booked for it.');
  }
  const moisturePercent = honeyOf(row).exactPercent;
  const { pail, massKg, airC, startIsKnown } = pailOfBatch(
    row,
    moisturePercent ?? USUAL_MOISTURE_PERCENT,
  );
  const [booking] = row.warmings;
  const bookedUntilMs = booking === undefined ? startsAtMs : Date.parse(booking.endsAt);
  const course = pailCourse({
    pail,
    airC,
    outAtHours: bookedUntilMs > startsAtMs ? (bookedUntilMs - startsAtMs) / HOUR_MS : null,
    roomC: ROOM_C,
    clearC: CLEAR_C,
    seedC: SEEDING_C.cautious,
    mostHours: MOST_WARMING_HOURS,
  });
  const instant = (hours: number) => startsAtMs + Math.round(hours * HOUR_MS);
  const instantOrNull = (hours: number | undefined) =>
    hours === undefined ? null : instant(hours);
  const assumptions = warmingAssumptionsOf(row, { airC, pailMassKg: massKg, startIsKnown });
  return {
    startsAtMs,
    airC,
    roomC: ROOM_C,
    points: course.samples.map((sample) => ({
      atMs: instant(sample.atHours),
      coldestC: sample.coldestC,
      warmestC: sample.warmestC,
      meanC: sample.meanC,
      airC: sample.airC,
    })),
    clearAtMs: instantOrNull(course.clearAtHours),
    takenOutAtMs: instantOrNull(course.outAtHours),
    coolEnoughAtMs: instantOrNull(course.coolEnoughAtHours),
    damage: course.damage ?? untouched,
    assumptions: [...assumptions, ...furtherAssumptions(booking !== undefined, moisturePercent)],
  };
}

const noDamage: HeatDamage = {
  hours: 0,
  hoursBelowRange: 0,
  gapHours: 0,
  hmfGainMgPerKg: { least: 0, likely: 0, most: 0 },
  diastaseLeft: 1,
  invertaseLeft: 1,
};
const untouched: PailDamage = { worst: noDamage, best: noDamage, mean: noDamage };

function furtherAssumptions(isBooked: boolean, moisturePercent: number | null): Assumed[] {
  const out = isBooked ? 'when its booking ends' : 'as soon as it is clear';
  const assumed: Assumed[] = [
    {
      text: `It is taken out ${out}, and cools in a room of ${ROOM_C} °C until its warmest point is down to ${SEEDING_C.cautious} °C.`,
      source:
        'FAO Agricultural Services Bulletin 124 (24 °C for seeding); the room: common practice, no source.',
    },
  ];
  if (moisturePercent === null) {
    assumed.push(moistureAssumed);
  }
  return assumed;
}
