import { minutesToMs } from './station-times';
import type { StartSpan } from './next-free-times';

const minuteMs = minutesToMs(1);

/** What is left of spans of starts when a booking must start on a whole minute of the epoch: spans without such a start drop out. */
export function wholeMinuteStarts(spans: readonly StartSpan[]): StartSpan[] {
  return spans
    .map((span) => ({
      ...span,
      firstStart: Math.ceil(span.firstStart / minuteMs) * minuteMs,
      lastStart: Math.floor(span.lastStart / minuteMs) * minuteMs,
    }))
    .filter(({ firstStart, lastStart }) => firstStart <= lastStart);
}
