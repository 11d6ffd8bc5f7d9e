import { urnOf, type EpcisEvent } from './epcis-event';
import type { LotHistory } from './lot-history';
import { zoneOffset } from './zone-offset';

/** The id of the event of that name in the club: always the same for one name. */
export type EventIdOf = (name: string) => string;

/** Which event it is, when it happened by the club's clocks, and when it was recorded. */
export function when(
  { timeZone }: LotHistory,
  at: Date,
  recordedAt: Date,
  eventId: string,
): Pick<EpcisEvent, 'eventID' | 'eventTime' | 'eventTimeZoneOffset' | 'recordTime'> {
  return {
    eventID: urnOf(eventId),
    eventTime: at.toISOString(),
    eventTimeZoneOffset: zoneOffset(timeZone, at),
    recordTime: recordedAt.toISOString(),
  };
}
