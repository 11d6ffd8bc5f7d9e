import type { RandomSource } from '../src/core/random';
import { members } from './club';
import { dayMs, daysAfter, minuteMs, startOfDay, type LookRecord } from './records';

export const mostLooks = 12;
const ownerLooks = 0.7;
/** What does not set is looked at as if it did. */
const longestExpectedDays = 30;

export interface Watched {
  owner: string;
  seededAt: Date;
  /** When it sets, which nobody knows. */
  setsAfterDays: number;
  /** What its owner expects. */
  medianDays: number;
  temperatureC: number;
  isCoarse: boolean;
  /** Nobody looks from then on. */
  until: Date;
}

/** Who looked when and saw what: every few days, until it has set, or nobody comes any more. */
export function looksAt(batch: Watched, random: RandomSource): LookRecord[] {
  const looks: LookRecord[] = [];
  const firstDay = startOfDay(batch.seededAt);
  let days = 1 + Math.floor(3 * random());
  while (looks.length < mostLooks) {
    const minutes = 7 * 60 + Math.floor(11 * 60 * random());
    const at = new Date(daysAfter(firstDay, days).getTime() + minutes * minuteMs);
    if (at >= batch.until) break;
    const look = whatIsSeen(batch, at, random);
    looks.push(look);
    if (look.state === 'set') break;
    days += Math.max(
      1,
      Math.round(Math.min(batch.medianDays, longestExpectedDays) * (0.06 + 0.2 * random())),
    );
  }
  return looks;
}

function whatIsSeen(batch: Watched, at: Date, random: RandomSource): LookRecord {
  const progress = (at.getTime() - batch.seededAt.getTime()) / dayMs / batch.setsAfterDays;
  const temperatureC = tenths(batch.temperatureC + 0.6 * (random() - 0.5));
  const member = random() < ownerLooks ? batch.owner : anyOf(members, random).ref;
  const seen = { at, temperatureC, member };
  if (progress < 0.5) return { ...seen, state: 'liquid', firmness: 'soft' };
  if (progress < 1) return { ...seen, state: 'thickening', firmness: 'soft' };
  return {
    ...seen,
    state: 'set',
    texture: random() < (batch.isCoarse ? 0.4 : 0.06) ? 'grainy' : 'smooth',
    firmness: random() < 0.6 ? 'spreadable' : 'firm',
  };
}

export function anyOf<Thing>(things: readonly Thing[], random: RandomSource): Thing {
  const thing = things[Math.floor(random() * things.length)];
  if (thing === undefined) throw new RangeError('things must hold at least one.');
  return thing;
}

export function tenths(value: number): number {
  return Math.round(value * 10) / 10;
}
