import type { ExpectedSetting } from '../setting-forecast/setting-forecast.service';
import type { TodayBatch } from './today-rows';
import type { TodayHoney } from './today.responses';

/** Loaded, and neither set nor given up. */
export function isInRoom({ steps }: TodayBatch): boolean {
  return steps.length > 0 && !steps.some(({ kind }) => kind === 'set' || kind === 'abandoned');
}

export function toHoney(
  batch: TodayBatch,
  expected: ExpectedSetting | undefined,
  now: number,
): TodayHoney {
  const last = batch.steps.at(-1);
  if (last === undefined) throw new RangeError('A batch in the room has a step.');
  return {
    batch: { id: batch.id, name: batch.name },
    member: { id: batch.memberId, name: batch.memberName },
    stage: last.kind,
    stageAt: iso(last.at),
    places: batch.bookings
      .filter(({ startsAt, endsAt }) => startsAt <= now && endsAt > now)
      .map(({ id, stationName, places, endsAt }) => ({
        bookingId: id,
        stationName,
        places,
        until: iso(endsAt),
      })),
    lastLookAt: isoOrNull(batch.lastLookAt),
    expectedSetAt: isoOrNull(expected?.likelyAt ?? null),
    almostSurelySetAt: isoOrNull(expected?.almostSurelyAt ?? null),
  };
}

function iso(at: number): string {
  return new Date(at).toISOString();
}

function isoOrNull(at: number | null): string | null {
  return at === null ? null : iso(at);
}
