import { Temporal } from '@js-temporal/polyfill';

/** What the clocks of a zone (IANA name) were ahead of UTC at that time, summer time included: +02:00, -03:30. */
export function zoneOffset(timeZone: string, at: Date): string {
  return Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(timeZone).offset;
}
