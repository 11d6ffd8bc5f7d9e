import { Temporal } from '@js-temporal/polyfill';
import { openSpans, type OpeningHours, type RoomHours } from '../core/planning/open-spans';
import type { Span } from '../core/planning/station-times';
import { invalidField } from '../core/refusal';
import { STEP_MINUTES } from './plan-assumptions';
import type { PlanRequest } from './plans.requests';

const dayMs = 86_400_000;
const stepMs = STEP_MINUTES * 60_000;
const longestDays = 120;
/** A change that would help is looked for so much later than the wish. */
const laterDays = 14;

/** When a run may go on, in epoch milliseconds. */
export interface PlanTimes {
  now: number;
  earliestStart: number;
  latestPotAt: number;
  /** The latest potting of which it is told that it would work. */
  searchedUntil: number;
}

/** Reads the times of a request; refuses those that leave nothing to plan. */
export function planTimes(
  { earliestStart, latestPotDay }: Pick<PlanRequest, 'earliestStart' | 'latestPotDay'>,
  now: Date,
  timeZone: string,
): PlanTimes {
  const start = Math.max(now.getTime(), earliestStart?.getTime() ?? 0);
  const first = Math.ceil(start / stepMs) * stepMs;
  const latestPotAt = midnightAfter(latestPotDay, timeZone);
  if (latestPotAt <= first) {
    throw invalidField('#/latestPotDay', 'That day is over before anything may begin.');
  }
  if (latestPotAt - now.getTime() > longestDays * dayMs) {
    throw invalidField('#/latestPotDay', `It must be within ${longestDays} days from now.`);
  }
  return {
    now: Math.ceil(now.getTime() / stepMs) * stepMs,
    earliestStart: first,
    latestPotAt,
    searchedUntil: latestPotAt + laterDays * dayMs,
  };
}

/** The local days that meet the times from one instant to another, each from its midnight to the next. */
export function localDays(timeZone: string, from: number, until: number): Span[] {
  const days: Span[] = [];
  let day = Temporal.Instant.fromEpochMilliseconds(from).toZonedDateTimeISO(timeZone).toPlainDate();
  let startsAt = day.toZonedDateTime(timeZone).epochMilliseconds;
  while (startsAt < until) {
    day = day.add({ days: 1 });
    const endsAt = day.toZonedDateTime(timeZone).epochMilliseconds;
    // Some zones have left out a day.
    if (endsAt > startsAt) days.push({ startsAt, endsAt });
    startsAt = endsAt;
  }
  return days;
}

const usualHours: readonly OpeningHours[] = [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({
  weekday,
  opensMinute: 8 * 60,
  closesMinute: 20 * 60,
}));

/**
 * When the member can come, from one instant to another. Whoever names but times of the calendar comes at usual hours once the honey is
 * potted: to fetch it, weeks later.
 */
export function memberSpans(
  { comes, comesAt }: Pick<PlanRequest, 'comes' | 'comesAt'>,
  timeZone: string,
  { from, pottedBy, until }: { from: number; pottedBy: number; until: number },
): Span[] {
  const week = (hours: readonly OpeningHours[], start: number) =>
    openSpans({ timeZone, hours, closedDays: [] }, Math.min(start, until), until);
  const named = (comesAt ?? []).map(({ startsAt, endsAt }, index) => {
    if (endsAt <= startsAt) {
      throw invalidField(`#/comesAt/${index}/endsAt`, 'endsAt must be after startsAt.');
    }
    return { startsAt: startsAt.getTime(), endsAt: endsAt.getTime() };
  });
  if (comes !== undefined) return [...week(comes.map(toHours), from), ...named];
  if (comesAt !== undefined) return [...named, ...week(usualHours, pottedBy)];
  return week(usualHours, from);
}

/** When the room is open. */
export function roomSpans(room: RoomHours, from: number, until: number): Span[] {
  return openSpans(room, from, until);
}

function toHours(
  { weekday, opens, closes }: NonNullable<PlanRequest['comes']>[number],
  index: number,
): OpeningHours {
  const opensMinute = minuteOf(opens);
  const closesMinute = minuteOf(closes);
  if (closesMinute <= opensMinute) {
    throw invalidField(`#/comes/${index}/closes`, 'closes must be after opens, on the same day.');
  }
  return { weekday, opensMinute, closesMinute };
}

function minuteOf(clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  return 60 * hours + minutes;
}

function midnightAfter(day: string, timeZone: string): number {
  return Temporal.PlainDate.from(day).add({ days: 1 }).toZonedDateTime(timeZone).epochMilliseconds;
}
