import { LONGEST_HOURS } from './warming-log';

export type WarmingVerdict = 'faster' | 'slower' | 'as-reckoned' | 'not-comparable';

export interface ComparedTimes {
  /** Until clear, with the usual values; undefined: not within ten days. */
  reckonedHours: number | undefined;
  /** The same by the fit. */
  nextHours: { value: number; lower: number; upper: number } | undefined;
}

/** Nearer than this nobody notices (own choice). */
const ALIKE = 0.05;
const PARTS: [part: number, words: string][] = [
  [0.1, 'a tenth'],
  [0.2, 'a fifth'],
  [0.25, 'a quarter'],
  [1 / 3, 'a third'],
  [0.4, 'two fifths'],
];
/** From here on it is said how many times as fast or as long. */
const LARGEST_PART = 0.45;

/** As reckoned: the two times are within a twentieth, or the log does not tell them apart. */
export function verdictOf({ reckonedHours, nextHours }: ComparedTimes): WarmingVerdict {
  if (!reckonedHours || !nextHours?.value) return 'not-comparable';
  const isWithin = reckonedHours >= nextHours.lower && reckonedHours <= nextHours.upper;
  if (isWithin || Math.abs(nextHours.value / reckonedHours - 1) < ALIKE) return 'as-reckoned';
  return nextHours.value < reckonedHours ? 'faster' : 'slower';
}

/** One plain sentence: how it warmed, and how long the same pail will take. */
export function fitInWords(times: ComparedTimes): string {
  const { reckonedHours, nextHours } = times;
  const days = LONGEST_HOURS / 24;
  if (reckonedHours === undefined || nextHours === undefined) {
    if (nextHours !== undefined) {
      return `By the usual values it would not have been clear within ${days} days; by what was logged the same pail takes about ${about(nextHours.value)} hours.`;
    }
    return reckonedHours === undefined
      ? `Neither by the usual values nor by what was logged is the same pail clear within ${days} days: warm it longer, or as warm as the honey bears.`
      : `It took much longer than reckoned: the same pail would not be clear within ${days} days instead of about ${about(reckonedHours)} hours. Warm it longer, or as warm as the honey bears.`;
  }
  const next = `the next time the same pail takes about ${about(nextHours.value)} hours until it is clear`;
  const instead = `${next} instead of ${about(reckonedHours)}.`;
  switch (verdictOf(times)) {
    case 'faster':
      return `It warmed ${share(reckonedHours / nextHours.value, 'faster than reckoned', 'as fast as reckoned')}: ${instead}`;
    case 'slower':
      return `It took ${share(nextHours.value / reckonedHours, 'longer than reckoned', 'as long as reckoned')}: ${instead}`;
    case 'as-reckoned':
      return `It warmed about as fast as reckoned: ${next}, and ${about(reckonedHours)} were reckoned.`;
    case 'not-comparable':
      return 'It was warm enough to be clear when it was put in.';
  }
}

function share(ratio: number, more: string, times: string): string {
  const part = ratio - 1;
  if (part > LARGEST_PART) return `about ${ratio.toFixed(1)} times ${times}`;
  const [, words] = PARTS.reduce((best, one) =>
    Math.abs(one[0] - part) < Math.abs(best[0] - part) ? one : best,
  );
  return `about ${words} ${more}`;
}

/** Of hours nobody plans with more than whole ones. */
function about(hours: number): number {
  return hours < 10 ? Number(hours.toFixed(1)) : Math.round(hours);
}
