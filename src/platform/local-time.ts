import { Temporal } from '@js-temporal/polyfill';

/** An instant as the clock and the calendar of the club show it: Saturday 28 November 2026, 09:00. */
export function localTime(at: Date, timeZone: string): string {
  const local = Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(timeZone);
  const day = local.toPlainDate().toLocaleString('en-GB', {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  });
  return `${day}, ${local.toPlainTime().toString({ smallestUnit: 'minute' })}`;
}
