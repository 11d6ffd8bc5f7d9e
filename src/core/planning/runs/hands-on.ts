import {
  commonTimes,
  firstMinuteFrom,
  intersect,
  lastMinuteUntil,
  mergeSpans,
  type MinuteSpan,
} from './minute-spans';
import type { Room, Run } from './run';
import type { Waivers } from './waivers';

/** The minutes at which somebody can be there, in order and apart. */
export type HandsOn = {
  /** Loading and shelving take a minute: they begin at least so long before the room closes. */
  readonly loading: readonly MinuteSpan[];
  /** Taking out and clearing: the moment of closing counts. */
  readonly clearing: readonly MinuteSpan[];
  /** Starts of the bench slot: somebody stands there until it ends, on one local day. */
  readonly bench: readonly MinuteSpan[];
};

/** When the room is open and the member can come, as far as neither is waived. */
export function handsOnMinutes(room: Room, run: Run, waivers: Waivers): HandsOn {
  const everOpen = [{ startsAt: -8.64e15, endsAt: 8.64e15 }];
  const open = waivers.has('opening-hours') ? everOpen : mergeSpans(room.openSpans);
  const came = waivers.has('members-hours') ? everOpen : mergeSpans(run.memberSpans);
  const there = commonTimes(open, came);
  const onOneDay = waivers.has('potting-day')
    ? startsWithin(everOpen, run.bench.minutes)
    : startsWithin(
        room.days.toSorted((a, b) => a.startsAt - b.startsAt),
        run.bench.minutes,
      );
  return {
    loading: startsWithin(there, 1),
    clearing: startsWithin(there, 0),
    bench: intersect(startsWithin(there, run.bench.minutes), onOneDay),
  };
}

/** The starts of so many minutes that are over when the span ends. */
function startsWithin(
  spans: readonly { startsAt: number; endsAt: number }[],
  minutes: number,
): MinuteSpan[] {
  return spans
    .map(({ startsAt, endsAt }) => ({
      first: firstMinuteFrom(startsAt),
      last: lastMinuteUntil(endsAt) - minutes,
    }))
    .filter(({ first, last }) => first <= last);
}
