import type { Span } from '../station-times';

/** Whole minutes of the epoch from first to last, both included. */
export type MinuteSpan = { readonly first: number; readonly last: number };

const MS_PER_MINUTE = 60_000;

/** The first whole minute at or after an instant, in epoch milliseconds. */
export function firstMinuteFrom(instant: number): number {
  return Math.ceil(instant / MS_PER_MINUTE);
}

/** The last whole minute at or before an instant, in epoch milliseconds. */
export function lastMinuteUntil(instant: number): number {
  return Math.floor(instant / MS_PER_MINUTE);
}

/** The instant at which a minute of the epoch begins, in epoch milliseconds. */
export function toInstant(minute: number): number {
  return minute * MS_PER_MINUTE;
}

/** Spans of time in order, those that overlap or touch made one. */
export function mergeSpans(spans: readonly Span[]): Span[] {
  const merged: { startsAt: number; endsAt: number }[] = [];
  for (const { startsAt, endsAt } of spans.toSorted((a, b) => a.startsAt - b.startsAt)) {
    const last = merged.at(-1);
    if (last && startsAt <= last.endsAt) last.endsAt = Math.max(last.endsAt, endsAt);
    else merged.push({ startsAt, endsAt });
  }
  return merged;
}

/** The times that both have; each list in order and apart. */
export function commonTimes(a: readonly Span[], b: readonly Span[]): Span[] {
  const common: Span[] = [];
  let i = 0;
  let j = 0;
  for (let one = a[i], other = b[j]; one && other; one = a[i], other = b[j]) {
    const startsAt = Math.max(one.startsAt, other.startsAt);
    const endsAt = Math.min(one.endsAt, other.endsAt);
    if (startsAt < endsAt) common.push({ startsAt, endsAt });
    if (one.endsAt < other.endsAt) i++;
    else j++;
  }
  return common;
}

/** The minutes that both have; each list in order and apart. */
export function intersect(a: readonly MinuteSpan[], b: readonly MinuteSpan[]): MinuteSpan[] {
  const common: MinuteSpan[] = [];
  let i = 0;
  let j = firstEndingFrom(b, a[0]?.first ?? Infinity);
  for (let one = a[i], other = b[j]; one && other; one = a[i], other = b[j]) {
    const first = Math.max(one.first, other.first);
    const last = Math.min(one.last, other.last);
    if (first <= last) common.push({ first, last });
    if (one.last < other.last) i++;
    else j++;
  }
  return common;
}

/** The minutes of `a` that are not in `b`; each list in order and apart. */
export function subtract(a: readonly MinuteSpan[], b: readonly MinuteSpan[]): MinuteSpan[] {
  const left: MinuteSpan[] = [];
  for (const { first, last } of a) {
    let from = first;
    let j = firstEndingFrom(b, first);
    for (let gone = b[j]; gone && gone.first <= last; gone = b[++j]) {
      if (gone.first > from) left.push({ first: from, last: gone.first - 1 });
      from = gone.last + 1;
    }
    if (from <= last) left.push({ first: from, last });
  }
  return left;
}

/** All minutes of both, in order and apart; neighbouring minutes are one span. */
export function unite(a: readonly MinuteSpan[], b: readonly MinuteSpan[]): MinuteSpan[] {
  const united: { first: number; last: number }[] = [];
  for (const { first, last } of [...a, ...b].sort((one, other) => one.first - other.first)) {
    const open = united.at(-1);
    if (open && first <= open.last + 1) open.last = Math.max(open.last, last);
    else united.push({ first, last });
  }
  return united;
}

/** The same spans, so many minutes later; earlier where that is below 0. */
export function shift(spans: readonly MinuteSpan[], byMinutes: number): MinuteSpan[] {
  return spans.map(({ first, last }) => ({ first: first + byMinutes, last: last + byMinutes }));
}

/** How many of the first ones hold, when all that hold come before all that do not. */
export function countWhile<T>(sorted: readonly T[], holds: (one: T) => boolean): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(sorted[middle] as T)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The index of the first span that ends at the minute or later; the length when there is none. */
function firstEndingFrom(spans: readonly MinuteSpan[], minute: number): number {
  return countWhile(spans, ({ last }) => last < minute);
}
