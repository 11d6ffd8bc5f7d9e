import type { Wish } from '../station-times';
import { handsOnMinutes, type HandsOn } from './hands-on';
import { firstMinuteFrom, intersect, shift, type MinuteSpan } from './minute-spans';
import type { RunRoom, Warming } from './run-room';
import type { IndexedStation } from './station-diary-index';
import { stationStarts } from './station-starts';
import { RUN_REASONS, SLOT_REASONS, type Waivers } from './waivers';
import type { SlotName } from './run';
import { warmingLevels } from './warming-levels';

/** Warming of one length: the honey may be cool enough to be seeded at these minutes. */
export type ReadyLevel = {
  readonly otherPails: number;
  readonly minutes: number;
  readonly ready: readonly MinuteSpan[];
};

/** Any temperature will do: only places, duty and times are asked for. */
const ANY_BAND = { minC: -1_000, maxC: 1_000 };

/**
 * The minutes at which each slot of a run may start, one slot at a time: what the station allows, and when somebody
 * can be there for it. Remembers what it has found, for alternatives and reasons ask for the same again.
 */
export class SlotStarts {
  private readonly remembered = new Map<string, unknown>();

  constructor(private readonly runRoom: RunRoom) {}

  /** The same with constraints left out. */
  without(waivers: Waivers): SlotFinder {
    return new SlotFinder(this.runRoom, waivers, (key, find) => {
      let known = this.remembered.get(key);
      if (known === undefined) this.remembered.set(key, (known = find()));
      return known as ReturnType<typeof find>;
    });
  }
}

/** Keeps what was found under a key, and gives it back. */
type Remember = <T>(key: string, find: () => T) => T;

/** Finds starts under one set of waivers. */
export class SlotFinder {
  private readonly handsOn: HandsOn;
  private readonly keys: Readonly<Record<SlotName | 'hands', string>>;

  constructor(
    private readonly runRoom: RunRoom,
    private readonly waivers: Waivers,
    private readonly remember: Remember,
  ) {
    const ofRun = RUN_REASONS.filter((reason) => waivers.has(reason)).join();
    const keyOf = (slot: SlotName) =>
      `${slot} ${ofRun} ${SLOT_REASONS.filter((reason) => waivers.has(`${slot} ${reason}`)).join()}`;
    this.keys = {
      hands: `hands ${ofRun}`,
      warm: keyOf('warm'),
      bench: keyOf('bench'),
      cool: keyOf('cool'),
    };
    this.handsOn = remember(this.keys.hands, () =>
      handsOnMinutes(runRoom.room, runRoom.run, waivers),
    );
  }

  /**
   * By length, when the honey warmed so would become ready within the window, if only somebody had to be there: a
   * bound for `readyMinutes`, soon found.
   */
  readyWithHands(warming: Warming, index: number, window: MinuteSpan): readonly ReadyLevel[] {
    const { option } = warming;
    const key = `${this.keys.hands} ${index} ${window.first}`;
    return this.remember(key, () =>
      this.levels(warming, index, window).flatMap(({ otherPails, minutes, starts }) => {
        const span = outerSpan(starts);
        if (span === null) return [];
        const toReady = minutes + option.coolingMinutes;
        const { loading, clearing } = this.handsOn;
        let there = intersect(intersect(shiftPart(clearing, -minutes, span), loading), starts);
        if (this.runRoom.run.coolsInPlace) {
          there = intersect(there, shiftPart(clearing, -toReady, span));
        }
        const ready = intersect(shift(there, toReady), [window]);
        return ready.length === 0 ? [] : [{ otherPails, minutes, ready }];
      }),
    );
  }

  /** Of these minutes those at which the honey can be ready, as the cabinet allows it. */
  readyMinutes(
    warming: Warming,
    index: number,
    window: MinuteSpan,
    level: ReadyLevel,
  ): readonly MinuteSpan[] {
    const key = `${this.keys.warm} ${index} ${window.first} ${level.otherPails}`;
    return this.remember(key, () => {
      const toReady = level.minutes + warming.option.coolingMinutes;
      return shift(this.warmStarts(warming, level.minutes, shift(level.ready, -toReady)), toReady);
    });
  }

  bench(indexed: IndexedStation, window: MinuteSpan): readonly MinuteSpan[] {
    const key = `${this.keys.bench} ${indexed.station.stationId} ${window.first}`;
    return this.remember(key, () => {
      const wish: Wish = { ...this.runRoom.run.bench, duty: 'bench' };
      const withHands = intersect([window], this.handsOn.bench);
      return this.startsAmong(indexed, 'bench', wish, withHands);
    });
  }

  cool(indexed: IndexedStation, window: MinuteSpan): readonly MinuteSpan[] {
    const key = `${this.keys.cool} ${indexed.station.stationId} ${window.first}`;
    return this.remember(key, () => {
      const { crates, ...rest } = this.runRoom.run.cool;
      const wish: Wish = { ...rest, places: crates, duty: 'cool' };
      const { loading, clearing } = this.handsOn;
      const cleared = shiftPart(clearing, -wish.minutes, window);
      return this.startsAmong(indexed, 'cool', wish, intersect(cleared, loading));
    });
  }

  /** How long the honey takes, put in when it may become ready within the window. */
  private levels({ indexed, option, mostOthers }: Warming, index: number, window: MinuteSpan) {
    const isAlone = this.waivers.has('other-pails');
    return this.remember(`levels ${index} ${window.first} ${String(isAlone)}`, () => {
      const alone = option.minutes(0);
      const minutes = isAlone ? () => alone : option.minutes;
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
