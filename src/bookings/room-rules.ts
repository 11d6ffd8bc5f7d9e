import { closedMoment } from '../core/planning/closed-moment';
import type { Wish } from '../core/planning/station-times';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import type { DiaryWindow, StationDiary } from '../stations/station-diary';

/** Rules of the room that a steward may set aside for one booking. */
export interface Waivers {
  evenIfClosed?: boolean;
  overFairShare?: boolean;
}

export function refuseWaiversOfMembers({ role }: ClubCaller, waivers: Waivers): void {
  if (role === 'steward') return;
  for (const name of ['evenIfClosed', 'overFairShare'] as const) {
    if (waivers[name] === true) {
      throw new Refusal(
        'not-yours',
        `Only a steward sets a rule of the room aside: leave ${name} out.`,
      );
    }
  }
}

/** Files which rules were set aside, if any were. */
export async function auditWaivers(
  tx: Transaction,
  caller: ClubCaller,
  bookingId: string,
  { evenIfClosed = false, overFairShare = false }: Waivers,
): Promise<void> {
  if (!evenIfClosed && !overFairShare) return;
  await audit(tx, caller, 'booking.rules-set-aside', bookingId, { evenIfClosed, overFairShare });
}

/** The diary as it would be if people could come in at any time. */
export function atAnyHour(diary: StationDiary): StationDiary {
  return { ...diary, times: { ...diary.times, open: null } };
}

/** Why the room is closed to the wish, and when it opens next; `diary` reaches on to the times that are offered. */
export function closedRoomWords(
  { times }: StationDiary,
  wish: Wish,
  startsAt: Date,
): { detail: string; offers: object } {
  const moment = closedMoment(times.open ?? [], wish, startsAt.getTime());
  const opensNext = moment?.opensNext ?? null;
  const nextOpening = opensNext && {
    opensAt: new Date(opensNext.startsAt).toISOString(),
    closesAt: new Date(opensNext.endsAt).toISOString(),
  };
  const part = {
    start: 'It starts when the room is closed',
    end: 'It ends when the room is closed, and somebody must come to clear the places',
    between: 'Somebody stands at the bench all the while, and the room closes before the end',
  }[moment?.part ?? 'start'];
  const next = nextOpening
    ? `The room opens next at ${nextOpening.opensAt}.`
    : 'No next opening is known.';
  return { detail: `${part}. ${next}`, offers: { nextOpening } };
}

/** Which duty the station is kept for, and how long. */
export function dutyWindowWords(
  { name }: StationDiary,
  { id, duty, note, ...span }: DiaryWindow,
): { detail: string; offers: object } {
  const startsAt = new Date(span.startsAt).toISOString();
  const endsAt = new Date(span.endsAt).toISOString();
  return {
    detail: `${name} serves the duty "${duty}" alone from ${startsAt} until ${endsAt}${note === '' ? '' : ` (${note})`}.`,
    offers: { dutyWindow: { id, duty, startsAt, endsAt, note } },
  };
}
