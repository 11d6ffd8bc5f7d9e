import type { Plan, Stocks } from './batch-plan';
import { anyOf, mostLooks } from './looks';
import {
  daysAfter,
  hoursAfter,
  startOfDay,
  type LookRecord,
  type Outcome,
  type StepRecord,
} from './records';

/** Of most batches the end is seen; a few are given up half-way, forgotten before they set, or never looked at. */
export interface Story {
  fate: 'ordinary' | 'given up' | 'forgotten' | 'never looked at';
  /** Nobody looks from then on. */
  endsAt: Date;
}

export interface Ending {
  outcome: Outcome;
  setAt: Date | null;
  abandoned: StepRecord | null;
  /** When it leaves the room, or was to leave it. */
  fetchedAt: Date;
}

const whyGivenUp = [
  'Smells of yeast: goes to the mead maker.',
  'Gritty as sand; melted again.',
  'Water dripped into the crate.',
  'The seed was stirred in too warm; melted again.',
];

const longestExpectedDays = 30;

export function storyOf({ number, wanted, seededAt }: Plan, setsAfterDays: number): Story {
  const endsAfter = (days: number) => daysAfter(startOfDay(seededAt), Math.ceil(days));
  if (!wanted.isSlow && number % 29 === 13) {
    return { fate: 'given up', endsAt: endsAfter(0.5 * setsAfterDays) };
  }
  if (!wanted.isSlow && number % 23 === 7) {
    return { fate: 'forgotten', endsAt: endsAfter(0.7 * setsAfterDays) };
  }
  if (!wanted.isSlow && number % 53 === 31) return { fate: 'never looked at', endsAt: seededAt };
  return { fate: 'ordinary', endsAt: endsAfter(5000) };
}

export function endingOf(
  { fate, endsAt }: Story,
  looks: readonly LookRecord[],
  { wanted, seededAt, medianDays }: Pick<Plan, 'wanted' | 'seededAt'> & { medianDays: number },
  { reference, random }: Stocks,
): Ending {
  const last = looks.at(-1);
  const fetchedAfter = (time: Date, days: number) =>
    hoursAfter(startOfDay(daysAfter(time, days)), 17);
  const lastSeenAt = last?.at ?? seededAt;
  const some = 2 + 3 * random();
  const open = { setAt: null, abandoned: null, fetchedAt: fetchedAfter(lastSeenAt, some) };
  const expectedDays = Math.min(medianDays, longestExpectedDays);
  const hasEnded = endsAt < daysAfter(reference, -1);
  const booked = wanted.outstays ? { fetchedAt: fetchedAfter(reference, -2) } : {};

  if (last?.state === 'set') return { ...open, ...booked, outcome: 'set', setAt: last.at };
  if (fate === 'given up' && hasEnded) {
    const at = hoursAfter(endsAt, 10);
    const abandoned = { kind: 'abandoned', at, note: anyOf(whyGivenUp, random) } as const;
    return { ...open, outcome: 'abandoned', abandoned, fetchedAt: at };
  }
  if (fate === 'never looked at') {
    const fetchedAt = fetchedAfter(seededAt, expectedDays + 5);
    return { ...open, outcome: 'never looked at', fetchedAt };
  }
  if ((fate === 'forgotten' && hasEnded) || looks.length === mostLooks) {
    return { ...open, outcome: 'not seen set' };
  }
  const fetchedAt = fetchedAfter(reference, 4 + 0.5 * expectedDays);
  return { ...open, fetchedAt, ...booked, outcome: 'still setting' };
}
