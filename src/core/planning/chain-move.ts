import { minutesToMs, type Span } from './station-times';
import type { StartSpan } from './next-free-times';

/** What ties the slots of a run to each other, in whole minutes. */
export interface ChainRules {
  /** From the end of warming until the honey is cool enough for the bench. */
  readonly coolingMinutes: number;
  /** How long it may then wait for the bench. */
  readonly maxStandMinutes: number;
  /** How long filled pots may wait for the cool room. */
  readonly maxShelveMinutes: number;
}

/** The slots of a run as far as they are still there. */
export interface ChainSpans {
  readonly warm: Span | null;
  readonly bench: Span | null;
  readonly cool: Span | null;
}

export type BrokenLink =
  | 'bench-before-honey-is-cool'
  | 'honey-waits-too-long'
  | 'cool-before-potted'
  | 'pots-wait-too-long';

/** Which ties do not hold? What is not there ties nothing. Instants in whole epoch milliseconds. */
export function brokenLinks({ warm, bench, cool }: ChainSpans, rules: ChainRules): BrokenLink[] {
  const broken: BrokenLink[] = [];
  if (warm !== null && bench !== null) {
    const coolEnoughAt = warm.endsAt + minutesToMs(rules.coolingMinutes);
    if (bench.startsAt < coolEnoughAt) broken.push('bench-before-honey-is-cool');
    if (bench.startsAt > coolEnoughAt + minutesToMs(rules.maxStandMinutes)) {
      broken.push('honey-waits-too-long');
    }
  }
  if (bench !== null && cool !== null) {
    if (cool.startsAt < bench.endsAt) broken.push('cool-before-potted');
    if (cool.startsAt > bench.endsAt + minutesToMs(rules.maxShelveMinutes)) {
      broken.push('pots-wait-too-long');
    }
  }
  return broken;
}

/** A slot that may be moved, and to which starts; one that stays has the span of its own start alone. */
export interface MovableSlot extends Span {
  readonly starts: readonly Pick<StartSpan, 'firstStart' | 'lastStart'>[];
}

export type MovableChain = {
  readonly [Slot in keyof ChainSpans]: MovableSlot | null;
};

const stepMs = minutesToMs(15);

/**
 * Where do the slots of a run go so that all ties hold again, each moved as little as can be? Lengths stay. Null when there is no way.
 *
 * Tries the bench at the ends of its possible starts, at each quarter of an hour between, and where it is; for each the nearest warming
 * and the nearest place in the cool room. The least sum of moves wins, of equal ones the earlier bench. Exact but for the quarter hours.
 * Instants in whole epoch milliseconds. Without a bench nothing is tied: everything stays.
 */
export function mendChain(chain: MovableChain, rules: ChainRules): ChainSpans | null {
  const { warm, bench, cool } = chain;
  if (bench === null) return { warm: spanOf(warm), bench, cool: spanOf(cool) };
  let best: { spans: ChainSpans; movedMs: number } | null = null;
  for (const startsAt of triedStarts(bench)) {
    const endsAt = startsAt + lengthOf(bench);
    const movedBenchMs = Math.abs(startsAt - bench.startsAt);
    if (best !== null && movedBenchMs >= best.movedMs) continue;

    const latestClear = startsAt - minutesToMs(rules.coolingMinutes);
    const warmStart = nearest(warm, {
      first: latestClear - minutesToMs(rules.maxStandMinutes) - lengthOf(warm),
      last: latestClear - lengthOf(warm),
    });
    const coolStart = nearest(cool, {
      first: endsAt,
      last: endsAt + minutesToMs(rules.maxShelveMinutes),
    });
    if (warmStart === null || coolStart === null) continue;
    const spans = {
      warm: movedTo(warm, warmStart),
      bench: { startsAt, endsAt },
      cool: movedTo(cool, coolStart),
    };
    const movedMs = movedBenchMs + distance(warm, warmStart) + distance(cool, coolStart);
    if (best === null || movedMs < best.movedMs) best = { spans, movedMs };
  }
  return best?.spans ?? null;
}

function triedStarts(bench: MovableSlot): number[] {
  const tried = new Set<number>();
  for (const { firstStart, lastStart } of bench.starts) {
    tried.add(firstStart).add(lastStart);
    if (bench.startsAt >= firstStart && bench.startsAt <= lastStart) tried.add(bench.startsAt);
    for (let at = Math.ceil(firstStart / stepMs) * stepMs; at < lastStart; at += stepMs) {
      tried.add(at);
    }
  }
  return [...tried].sort((a, b) => a - b);
}

/** The possible start within the window that is nearest to where the slot is; 0 for a slot that is not there. */
function nearest(slot: MovableSlot | null, window: { first: number; last: number }): number | null {
  if (slot === null) return 0;
  let found: number | null = null;
  for (const { firstStart, lastStart } of slot.starts) {
    const first = Math.max(firstStart, window.first);
    const last = Math.min(lastStart, window.last);
    if (first > last) continue;
    const at = Math.min(last, Math.max(first, slot.startsAt));
    if (found === null || distance(slot, at) < distance(slot, found)) found = at;
  }
  return found;
}

function distance(slot: MovableSlot | null, startsAt: number): number {
  return slot === null ? 0 : Math.abs(startsAt - slot.startsAt);
}

function lengthOf(slot: Span | null): number {
  return slot === null ? 0 : slot.endsAt - slot.startsAt;
}

function movedTo(slot: MovableSlot | null, startsAt: number): Span | null {
  return slot === null ? null : { startsAt, endsAt: startsAt + lengthOf(slot) };
}

function spanOf(slot: MovableSlot | null): Span | null {
  return slot === null ? null : { startsAt: slot.startsAt, endsAt: slot.endsAt };
}
