import { nextLook } from './next-look';
import { nextSteps, type DoneStep } from './next-steps';

/** What a member does with a batch in the room. */
export const batchTaskKinds = [
  'load',
  'take-out',
  'seed',
  'pot',
  'shelve',
  'check',
  'clear',
] as const;
export type BatchTaskKind = (typeof batchTaskKinds)[number];

/** A booking of the batch that has not been cancelled. Times are epoch milliseconds. */
export interface BatchBooking {
  id: string;
  duty: 'warm' | 'cool' | 'bench';
  startsAt: number;
  endsAt: number;
  /** Somebody said that the honey has come, or that it is gone; null: nobody did. */
  arrivedAt: number | null;
  clearedAt: number | null;
}

/** All that is known of a batch and bears on what is to be done. Times are epoch milliseconds. */
export interface BatchNow {
  steps: readonly DoneStep[];
  bookings: readonly BatchBooking[];
  /** The last look that counts; null: nobody has looked. */
  lastLookAt: number | null;
  /** When it is as likely to have set as not; null: not known. */
  expectedAt: number | null;
}

export interface BatchTask {
  kind: BatchTaskKind;
  /** The booking that it belongs to; null: there is none. */
  bookingId: string | null;
  /** Not to be done before; null: any time. */
  notBefore: number | null;
  /** From then on it is late; null: it is never late. */
  dueAt: number | null;
}

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

// Common practice, no source.
/** The warming is reckoned from the start of its booking. */
const loadWithinMs = hourMs;
/** Honey that has set hard is clear in a day or two. */
const warmForMs = 2 * dayMs;
/** Seeded honey is potted the same day, before it thickens. */
const potWithinMs = 8 * hourMs;
/** Pots that stand warm set coarse. */
const shelveWithinMs = 4 * hourMs;
const lookWithinMs = dayMs;
/** Who has had the honey at home for a month without looking, will not be reminded into it (own choice). */
const lookAfterLeavingMs = 30 * dayMs;

/**
 * What is to be done with a batch, now or later, in the order in which it falls due. Each task is one that its next step (see nextSteps), a
 * look, or a booking that its honey has left asks for; a batch of which nothing is booked and nothing done asks for nothing.
 */
export function tasksOfBatch(batch: BatchNow, now: number): BatchTask[] {
  const done = new Map(batch.steps.map(({ kind, at }) => [kind, at]));
  const tasks = [hands(batch, done), look(batch, done, now), ...clearing(batch, done, now)];
  return tasks
    .filter((task) => task !== null)
    .sort((a, b) => (a.dueAt ?? Infinity) - (b.dueAt ?? Infinity));
}

type Done = ReadonlyMap<DoneStep['kind'], number>;

/** The next thing done with hands. */
function hands({ steps, bookings }: BatchNow, done: Done): BatchTask | null {
  const open = nextSteps(steps.map(({ kind }) => kind));
  const warm = first(bookings, 'warm');
  const bench = first(bookings, 'bench');
  const cool = first(bookings, 'cool');

  if (open.includes('loaded') && warm !== null) {
    return task('load', warm, warm.startsAt, warm.startsAt + loadWithinMs);
  }
  const loadedAt = done.get('loaded');
  if (loadedAt !== undefined && open.includes('cleared')) {
    return task('take-out', warm, loadedAt, warm?.endsAt ?? loadedAt + warmForMs);
  }
  if (open.includes('seeded') && (bench !== null || done.has('cleared') || done.has('cooled'))) {
    const ready = done.get('cooled') ?? done.get('cleared') ?? null;
    const notBefore = latest(bench?.startsAt ?? null, ready);
    return task('seed', bench, notBefore, bench?.endsAt ?? null);
  }
  const seededAt = done.get('seeded');
  if (seededAt !== undefined && open.includes('potted')) {
    return task('pot', bench, seededAt, seededAt + potWithinMs);
  }
  const pottedAt = done.get('potted');
  if (pottedAt !== undefined && open.includes('shelved')) {
    const notBefore = latest(cool?.startsAt ?? null, pottedAt);
    return task('shelve', cool, notBefore, (notBefore ?? pottedAt) + shelveWithinMs);
  }
  return null;
}

function look(
  { lastLookAt, expectedAt, bookings }: BatchNow,
  done: Done,
  now: number,
): BatchTask | null {
  const seededAt = done.get('seeded');
  if (seededAt === undefined || done.has('set') || done.has('abandoned')) return null;
  const goneAt = goneSince(bookings);
  if (goneAt !== null && now > goneAt + lookAfterLeavingMs) return null;
  const at = nextLook(seededAt, lastLookAt, expectedAt);
  return { kind: 'check', bookingId: null, notBefore: at, dueAt: at + lookWithinMs };
}

/** Since when all the places where it was to set are cleared; null: some are not, or there are none. */
function goneSince(bookings: readonly BatchBooking[]): number | null {
  const cleared = bookings.filter(({ duty }) => duty === 'cool').map(({ clearedAt }) => clearedAt);
  return cleared.includes(null) ? null : latest(...cleared);
}

/** Places that the honey has left, or must leave. */
function clearing({ bookings }: BatchNow, done: Done, now: number): BatchTask[] {
  return bookings.flatMap((booking) => {
    if (booking.startsAt > now || booking.clearedAt !== null) return [];
    const leftAt = leftSince(booking, done);
    if (booking.endsAt > now) {
      return leftAt === null || leftAt < booking.startsAt
        ? []
        : [task('clear', booking, leftAt, booking.endsAt)];
    }
    // Of a booking that nobody said the honey had come for, nobody can say that it stands there still.
    return booking.arrivedAt === null || leftAt !== null
      ? []
      : [task('clear', booking, null, booking.endsAt)];
  });
}

/** Since when a batch needs a booking of that duty no more. */
function leftSince({ duty }: BatchBooking, done: Done): number | null {
  const abandonedAt = done.get('abandoned');
  const steps = {
    warm: ['cleared', 'cooled', 'seeded'],
    bench: ['potted'],
    cool: ['set'],
  } as const;
  const times = steps[duty].flatMap((kind) => done.get(kind) ?? []);
  if (abandonedAt !== undefined) times.push(abandonedAt);
  return times.length === 0 ? null : Math.min(...times);
}

function task(
  kind: BatchTaskKind,
  booking: BatchBooking | null,
  notBefore: number | null,
  dueAt: number | null,
): BatchTask {
  // What can only be begun later is not due before.
  const due = dueAt === null || notBefore === null ? dueAt : Math.max(dueAt, notBefore);
  return { kind, bookingId: booking?.id ?? null, notBefore, dueAt: due };
}

function first(bookings: readonly BatchBooking[], duty: BatchBooking['duty']): BatchBooking | null {
  return bookings
    .filter((booking) => booking.duty === duty)
    .reduce<BatchBooking | null>(
      (earliest, one) => (earliest === null || one.startsAt < earliest.startsAt ? one : earliest),
      null,
    );
}

function latest(...times: (number | null)[]): number | null {
  const known = times.filter((time) => time !== null);
  return known.length === 0 ? null : Math.max(...known);
}
