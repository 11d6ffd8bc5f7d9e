import { heldAt } from './air-plan';
import { pailDamage, type PailDamage } from './pail-damage';
import type { PailGroup } from './pail-group';
import { warmPails } from './warm-pails';
import type { GroupResult, PailSample } from './warming-progress';

export interface PailCourseQuestion {
  /** One pail: in air that is held, many are as fast as one. */
  pail: Omit<PailGroup, 'count' | 'inAtHours' | 'clear'>;
  /** Of the air, held while the pail is warmed. */
  airC: number;
  /** When it is taken out; null: with the quarter of an hour in which it is clear. */
  outAtHours: number | null;
  /** Where it cools afterwards. */
  roomC: number;
  /** The coldest point must pass it. */
  clearC: number;
  /** The warmest point must come down to it. */
  seedC: number;
  /** Longer than this it is not warmed. */
  mostHours: number;
}

export interface PailCourse {
  /** Of the pail and the air about it, until it is cool enough; hours since it was put in. */
  samples: (PailSample & { airC: number })[];
  /** undefined: not while it is in the warmth. */
  clearAtHours: number | undefined;
  /** undefined: it does not get clear, and nobody said when to take it out. */
  outAtHours: number | undefined;
  /** undefined: not clear before, or not within four days of cooling. */
  coolEnoughAtHours: number | undefined;
  /** Of warming and cooling; undefined only for a course of no length. */
  damage: PailDamage | undefined;
}

const LONGEST_COOLING_HOURS = 96;
const QUARTER_HOURS = 0.25;
const LEAST_SAMPLE_HOURS = 0.25;
const MOST_SAMPLES = 150;
/** After a pail that never got clear was taken out, so much is shown of its cooling. */
const SHOWN_COOLING_HOURS = 12;

/**
 * How does a pail go through warming and cooling: in at hour 0, out when told or when clear, then in a cooler room until seed may go in?
 *
 * By {@link warmPails}, in air that changes all at once when the pail is taken out; damage by {@link pailDamage} over both.
 * Units: hours since it was put in, °C. Ranges and sources: warm-pails.ts, keeping.ts.
 *
 * @throws RangeError outside those ranges.
 */
export function pailCourse(question: PailCourseQuestion): PailCourse {
  const { roomC, seedC, clearC } = question;
  const outAtHours = question.outAtHours ?? clearedBy(question);
  const untilHours =
    outAtHours === undefined ? question.mostHours : outAtHours + LONGEST_COOLING_HOURS;
  const temperatures = [
    { fromHours: 0, temperatureC: question.airC },
    ...(outAtHours === undefined ? [] : [{ fromHours: outAtHours, temperatureC: roomC }]),
  ];
  const { groups } = warmPails({
    pails: [{ ...question.pail, count: 1 }],
    air: { kind: 'held', temperatures },
    untilHours,
    clearC,
    seedC,
    sampleEveryHours: Math.max(LEAST_SAMPLE_HOURS, untilHours / MOST_SAMPLES),
    keepCells: true,
  });
  const group = groups[0] as GroupResult;
  // Clear means clear in the warmth: what the core still gains outside nobody plans with.
  const isClear =
    group.clearAtHours !== undefined && group.clearAtHours <= (outAtHours ?? Infinity);
  const coolEnoughAtHours = isClear ? group.seedSafeAtHours : undefined;
  const endHours = coolEnoughAtHours ?? (outAtHours ?? untilHours) + SHOWN_COOLING_HOURS;
  const last = group.samples.findIndex(({ atHours }) => atHours >= endHours);
  const samples = last === -1 ? group.samples : group.samples.slice(0, last + 1);
  return {
    samples: samples.map((sample) => ({
      ...sample,
      airC: heldAt(temperatures, sample.atHours),
    })),
    clearAtHours: isClear ? group.clearAtHours : undefined,
    outAtHours,
    coolEnoughAtHours,
    damage: pailDamage({ samples, cellShare: group.cellShare }),
  };
}

function clearedBy({ pail, airC, clearC, mostHours }: PailCourseQuestion): number | undefined {
  const { groups } = warmPails({
    pails: [{ ...pail, count: 1 }],
    air: { kind: 'held', temperatures: [{ fromHours: 0, temperatureC: airC }] },
    untilHours: mostHours,
    clearC,
    stopWhenClear: true,
  });
  const clearAtHours = groups[0]?.clearAtHours;
  // A hundredth more, so that the same moment, reckoned with other steps, is not missed.
  return clearAtHours === undefined
    ? undefined
    : (Math.floor(clearAtHours / QUARTER_HOURS + 0.01) + 1) * QUARTER_HOURS;
}
