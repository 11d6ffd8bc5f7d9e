import type { Wish } from '../station-times';
import { handsOnMinutes, type HandsOn } from './hands-on';
import { firstMinuteFrom, intersect, shift, type MinuteSpan } from './minute-spans';
import type { RunRoom, Warming } from './run-room';
import type { IndexedStation } from './station-diary-index';
import { stationStarts } from './station-starts';
import type { Waivers } from './waivers';
import { warmingLevels } from './warming-levels';

/** Warming of one length: from these minutes on the honey may be cool enough to be seeded. */
export type ReadyLevel = {
  readonly otherPails: number;
  readonly minutes: number;
  readonly ready: readonly MinuteSpan[];
};

/** Any temperature will do: only places, duty and times are asked for. */
const ANY_BAND = { minC: -1_000, maxC: 1_000 };

/**
 * The minutes at which each slot of a run may start, one slot at a time: what the station allows, and when somebody
 * can be there for it. Remembers what it has found: alternatives and reasons ask for the same again.
 */
export class SlotStarts {
  private readonly remembered = new Map<string, unknown>();

  constructor(private readonly runRoom: RunRoom) {}

  /** By length, when the honey warmed so may become ready within the window. */
  readyLevels(warming: Warming, index: number, window: MinuteSpan, waivers: Waivers): ReadyLevel[] {
    return this.remember(`warm ${index}`, window, waivers, () => {
      const { run } = this.runRoom;
      const { indexed, option, mostOthers } = warming;
      const alone = option.minutes(0);
      const minutes = waivers.has('other-pails') ? () => alone : option.minutes;
      const starts = {
        first: Math.max(
          window.first - minutes(mostOthers) - option.coolingMinutes,
          firstMinuteFrom(run.earliestStart),
        ),
        last: window.last - alone - option.coolingMinutes,
      };
      if (starts.first > starts.last) return [];
      return warmingLevels(indexed, minutes, mostOthers, starts).flatMap((level) => {
        const toReady = level.minutes + option.coolingMinutes;
        const ready = intersect(
          shift(this.warmStarts(warming, level.minutes, level.starts, waivers), toReady),
          [window],
        );
        return ready.length === 0 ? [] : [{ ...level, ready }];
      });
    });
  }

  bench(indexed: IndexedStation, window: MinuteSpan, waivers: Waivers): MinuteSpan[] {
    return this.remember(`bench ${indexed.station.stationId}`, window, waivers, () => {
      const wish: Wish = { ...this.runRoom.run.bench, duty: 'bench' };
      const withHands = intersect([window], this.handsOn(waivers).bench);
      return this.startsAmong(indexed, 'bench', wish, withHands, waivers);
    });
  }

  cool(indexed: IndexedStation, window: MinuteSpan, waivers: Waivers): MinuteSpan[] {
    return this.remember(`cool ${indexed.station.stationId}`, window, waivers, () => {
      const { crates, ...rest } = this.runRoom.run.cool;
      const wish: Wish = { ...rest, places: crates, duty: 'cool' };
      const { loading, clearing } = this.handsOn(waivers);
      const withHands = intersect(
        intersect([window], loading),
        shiftPart(clearing, -wish.minutes, window),
      );
      return this.startsAmong(indexed, 'cool', wish, withHands, waivers);
    });
  }

  private warmStarts(
    { indexed, option }: Warming,
    minutes: number,
    among: readonly MinuteSpan[],
    waivers: Waivers,
  ): MinuteSpan[] {
    const { coolsInPlace, pails } = this.runRoom.run;
    const { loading, clearing } = this.handsOn(waivers);
    const span = outerSpan(among);
    if (span === null) return [];
    const toEnd = minutes + option.coolingMinutes;
    let starts = intersect(intersect(among, loading), shiftPart(clearing, -minutes, span));
    const wish: Wish = { duty: 'warm', places: pails, minutes, ...bandOf(option) };
    if (coolsInPlace === null || option.coolingMinutes === 0) {
      return this.startsAmong(indexed, 'warm', wish, starts, waivers);
    }
    // The same places for both, then each with its own temperature.
    starts = intersect(starts, shiftPart(clearing, -toEnd, span));
    starts = this.startsAmong(
      indexed,
      'warm',
      { ...wish, ...ANY_BAND, minutes: toEnd },
      starts,
      waivers,
    );
    starts = this.startsAmong(indexed, 'warm', wish, starts, waivers);
    const coolDown = { ...wish, ...coolsInPlace, minutes: option.coolingMinutes };
    const ends = this.startsAmong(indexed, 'warm', coolDown, shift(starts, minutes), waivers);
    return shift(ends, -minutes);
  }

  /** Of these starts those that the station allows, too. */
  private startsAmong(
    indexed: IndexedStation,
    slot: 'warm' | 'bench' | 'cool',
    wish: Wish,
    among: readonly MinuteSpan[],
    waivers: Waivers,
  ): MinuteSpan[] {
    const span = outerSpan(among);
    return span === null ? [] : intersect(among, stationStarts(indexed, slot, wish, span, waivers));
  }

  private handsOn(waivers: Waivers): HandsOn {
    return this.remember('hands', { first: 0, last: 0 }, waivers, () =>
      handsOnMinutes(this.runRoom.room, this.runRoom.run, waivers),
    );
  }

  private remember<T>(what: string, window: MinuteSpan, waivers: Waivers, find: () => T): T {
    const slot = what.slice(0, what.indexOf(' '));
    const waived = [...waivers].filter(
      (waiver) => !waiver.includes(' ') || waiver.startsWith(slot),
    );
    const key = `${what} ${window.first} ${window.last} ${waived.join()}`;
    if (!this.remembered.has(key)) this.remembered.set(key, find());
    return this.remembered.get(key) as T;
  }
}

function bandOf({ minC, maxC }: { minC: number; maxC: number }) {
  return { minC, maxC };
}

function outerSpan(spans: readonly MinuteSpan[]): MinuteSpan | null {
  const first = spans[0]?.first;
  const last = spans.at(-1)?.last;
  return first === undefined || last === undefined ? null : { first, last };
}

/** The spans shifted, as far as they then meet the window. */
function shiftPart(
  spans: readonly MinuteSpan[],
  byMinutes: number,
  window: MinuteSpan,
): MinuteSpan[] {
  const unshifted = { first: window.first - byMinutes, last: window.last - byMinutes };
  return shift(intersect([unshifted], spans), byMinutes);
}
