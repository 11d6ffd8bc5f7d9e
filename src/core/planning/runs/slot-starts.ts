import type { Wish } from '../station-times';
import { handsOnMinutes, type HandsOn } from './hands-on';
import { firstMinuteFrom, intersect, shift, type MinuteSpan } from './minute-spans';
import type { RunRoom, Warming } from './run-room';
import type { IndexedStation } from './station-diary-index';
import { stationStarts } from './station-starts';
import { RUN_REASONS, SLOT_REASONS, type Waivers } from './waivers';
import type { SlotName } from './run';
import { SearchWindows, type SearchWindow } from './search-windows';
import { warmingLevels, type WarmingLevel } from './warming-levels';

/** Warming of one length: the honey may be cool enough to be seeded at these minutes. */
export type ReadyLevel = {
  readonly otherPails: number;
  readonly minutes: number;
  readonly ready: readonly MinuteSpan[];
};

/** Any temperature will do: only places, duty and times are asked for. */
const ANY_BAND = { minC: -1_000, maxC: 1_000 };

/** Found so far: by what was waived, then by window, then by station or way of warming. */
type Found = Map<string, Map<object, Map<object, unknown>>>;

/**
 * The minutes at which each slot of a run may start, one slot at a time: what the station allows, and when somebody
 * can be there for it. Remembers what it has found, for alternatives and reasons ask for the same again.
 */
export class SlotStarts {
  readonly windows: SearchWindows;
  private readonly found: Found = new Map();

  constructor(private readonly runRoom: RunRoom) {
    this.windows = new SearchWindows(runRoom);
  }

  /** The same with constraints left out. */
  without(waivers: Waivers): SlotFinder {
    return new SlotFinder(this.runRoom, waivers, this.found);
  }
}

/** Finds starts under one set of waivers. */
export class SlotFinder {
  private readonly handsOn: HandsOn;
  private readonly known;

  constructor(
    private readonly runRoom: RunRoom,
    private readonly waivers: Waivers,
    found: Found,
  ) {
    const ofRun = RUN_REASONS.filter((reason) => waivers.has(reason)).join();
    const knownOf = (slot: string) => {
      const ofSlot = SLOT_REASONS.filter((reason) =>
        (waivers as ReadonlySet<string>).has(`${slot} ${reason}`),
      );
      return kept(
        found,
        `${slot} ${ofRun} ${ofSlot.join()}`,
        () => new Map<object, Map<object, unknown>>(),
      );
    };
    this.known = {
      hands: knownOf('hands'),
      ready: knownOf('ready'),
      levels: kept(
        found,
        `levels ${String(waivers.has('other-pails'))}`,
        () => new Map<object, Map<object, unknown>>(),
      ),
      warm: knownOf('warm'),
      bench: knownOf('bench'),
      cool: knownOf('cool'),
    };
    const { room, run } = runRoom;
    this.handsOn = remembered(this.known.hands, room, run, () =>
      handsOnMinutes(room, run, waivers),
    );
  }

  /**
   * By length, when the honey warmed so would become ready within the window, if only somebody had to be there: a
   * bound for `readyMinutes`, soon found.
   */
  readyWithHands(warming: Warming, window: SearchWindow): readonly ReadyLevel[] {
    return remembered(this.known.ready, window, warming, () =>
      this.levels(warming, window.ready).flatMap(({ otherPails, minutes, starts }) => {
        const span = outerSpan(starts);
        if (span === null) return [];
        const toReady = minutes + warming.option.coolingMinutes;
        const { loading, clearing } = this.handsOn;
        let there = intersect(intersect(shiftPart(clearing, -minutes, span), loading), starts);
        if (this.runRoom.run.coolsInPlace) {
          there = intersect(there, shiftPart(clearing, -toReady, span));
        }
        const ready = intersect(shift(there, toReady), [window.ready]);
        return ready.length === 0 ? [] : [{ otherPails, minutes, ready }];
      }),
    );
  }

  /** Of the minutes of a level those at which the honey can be ready, as the cabinet allows it. */
  readyMinutes(warming: Warming, window: SearchWindow, level: ReadyLevel): readonly MinuteSpan[] {
    return remembered(this.known.warm, window, level, () => {
      const toReady = level.minutes + warming.option.coolingMinutes;
      return shift(this.warmStarts(warming, level.minutes, shift(level.ready, -toReady)), toReady);
    });
  }

  bench(indexed: IndexedStation, window: SearchWindow): readonly MinuteSpan[] {
    return remembered(this.known.bench, window, indexed, () => {
      const wish: Wish = { ...this.runRoom.run.bench, duty: 'bench' };
      const withHands = intersect([window.bench], this.handsOn.bench);
      return this.startsAmong(indexed, 'bench', wish, withHands);
    });
  }

  cool(indexed: IndexedStation, window: SearchWindow): readonly MinuteSpan[] {
    return remembered(this.known.cool, window, indexed, () => {
      const { crates, ...rest } = this.runRoom.run.cool;
      const wish: Wish = { ...rest, places: crates, duty: 'cool' };
      const { loading, clearing } = this.handsOn;
      const cleared = shiftPart(clearing, -wish.minutes, window.shelf);
      return this.startsAmong(indexed, 'cool', wish, intersect(cleared, loading));
    });
  }

  /** How long the honey takes, put in when it may become ready within the window. */
  private levels(warming: Warming, window: MinuteSpan): readonly WarmingLevel[] {
    const { indexed, option, mostOthers } = warming;
    return remembered(this.known.levels, window, warming, () => {
      const alone = option.minutes(0);
      const minutes = this.waivers.has('other-pails') ? () => alone : option.minutes;
      const longest = minutes(mostOthers) + option.coolingMinutes;
      const earliest = firstMinuteFrom(this.runRoom.run.earliestStart);
      const first = Math.max(window.first - longest, earliest);
      const last = window.last - alone - option.coolingMinutes;
      return first > last ? [] : warmingLevels(indexed, minutes, mostOthers, { first, last });
    });
  }

  private warmStarts(
    { indexed, option }: Warming,
    minutes: number,
    among: readonly MinuteSpan[],
  ): readonly MinuteSpan[] {
    const { coolsInPlace, pails: places } = this.runRoom.run;
    const { coolingMinutes, minC, maxC } = option;
    const warm: Wish = { duty: 'warm', places, minutes, minC, maxC };
    const starts = this.startsAmong(indexed, 'warm', warm, among);
    if (coolsInPlace === null || coolingMinutes === 0) return starts;

    // The heater off, and the same places all the time.
    const off = { ...warm, ...coolsInPlace, minutes: coolingMinutes };
    const both = { ...warm, ...ANY_BAND, minutes: minutes + coolingMinutes };
    const held = this.startsAmong(indexed, 'warm', both, starts);
    return shift(this.startsAmong(indexed, 'warm', off, shift(held, minutes)), -minutes);
  }

  /** Of these starts those that the station allows, too. */
  private startsAmong(
    indexed: IndexedStation,
    slot: SlotName,
    wish: Wish,
    among: readonly MinuteSpan[],
  ): readonly MinuteSpan[] {
    const span = outerSpan(among);
    if (span === null) return [];
    return intersect(among, stationStarts(indexed, slot, wish, span, this.waivers));
  }
}

function remembered<T>(
  known: Map<object, Map<object, unknown>>,
  first: object,
  second: object,
  find: () => T,
): T {
  const inFirst = kept(known, first, () => new Map<object, unknown>());
  return kept(inFirst, second, find) as T;
}

/** What the map has under the key; else what is found now, which it then has. */
function kept<Key, Value>(map: Map<Key, Value>, key: Key, find: () => Value): Value {
  let value = map.get(key);
  if (value === undefined) map.set(key, (value = find()));
  return value;
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
