import { Temporal } from '@js-temporal/polyfill';
import { rounded } from '../reckonings/reckoned';
import type { SettingDay } from './setting-forecast.responses';

const dayMs = 86_400_000;

/** Days after a start (epoch milliseconds), as a moment and as a day of the calendar. */
export function dayAfter(startsAt: number, days: number, timeZone: string): SettingDay {
  const at = startsAt + days * dayMs;
  return { days: rounded(days, 2), at: new Date(at).toISOString(), on: localDay(at, timeZone) };
}

export function localDay(at: number, timeZone: string): string {
  return Temporal.Instant.fromEpochMilliseconds(Math.round(at))
    .toZonedDateTimeISO(timeZone)
    .toPlainDate()
    .toString();
}

/** A day of the calendar as it is said: 5 December 2026. */
export function dayInWords(on: string): string {
  return Temporal.PlainDate.from(on).toLocaleString('en-GB', {
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  });
}
