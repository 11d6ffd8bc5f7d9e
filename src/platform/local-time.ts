import { Temporal } from '@js-temporal/polyfill';

/** An instant as the clock and the calendar of the club show it: Saturday, 28 November 2026, 09:00. */
export function localTime(at: Date, timeZone: string): string {
  const time = zoned(at, timeZone).toPlainTime().toString({ smallestUnit: 'minute' });
  return `${localDay(at, timeZone)}, ${time}`;
}

/** The day of an instant by the calendar of the club: Saturday, 28 November 2026. */
export function localDay(at: Date, timeZone: string): string {
  return zoned(at, timeZone).toPlainDate().toLocaleString('en-GB', {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  });
}

function zoned(at: Date, timeZone: string): Temporal.ZonedDateTime {
  return Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(timeZone);
}
