import ical, {
  ICalEventStatus,
  ICalEventTransparency,
  type ICalCalendar,
  type ICalEventData,
} from 'ical-generator';
import type {
  CalendarBooking,
  CalendarClosedDay,
  CalendarClosure,
  CalendarRow,
} from './calendar-rows';

const halfHourMs = 1_800_000;
const dayMs = 86_400_000;
const refreshSeconds = 3600;

/**
 * The diary as RFC 5545 has it, without METHOD: it is subscribed to, not sent. Times are in UTC. The UID of a thing stays the same for its
 * life, and the same rows make the same bytes.
 */
export function writeCalendar(row: CalendarRow, ownMemberId: string): string {
  const calendar = ical({
    name: clean(row.clubName),
    prodId: { company: 'The Creaming Room', product: 'Diary', language: 'EN' },
    ttl: refreshSeconds,
  });
  for (const booking of row.bookings) addBooking(calendar, booking, ownMemberId);
  for (const closure of row.closures) addClosure(calendar, closure);
  for (const closedDay of row.closedDays) addClosedDay(calendar, closedDay);
  // RFC 5545, 3.1: each line ends with CRLF, the last one too.
  const text = `${calendar.toString().trimEnd()}\r\n`;
  return calendar.length() > 0 ? text : text.replace('END:VCALENDAR', `${utc}END:VCALENDAR`);
}

/** RFC 5545, 3.6: a calendar holds one component at least. An empty diary has the time zone of its times. */
const utc = [
  'BEGIN:VTIMEZONE',
  'TZID:Etc/UTC',
  'BEGIN:STANDARD',
  'DTSTART:19700101T000000',
  'TZOFFSETFROM:+0000',
  'TZOFFSETTO:+0000',
  'END:STANDARD',
  'END:VTIMEZONE',
  '',
].join('\r\n');

function addBooking(calendar: ICalCalendar, booking: CalendarBooking, ownMemberId: string): void {
  const isOwn = booking.memberId === ownMemberId;
  const { id, stationName, duty, batchName, memberName, places, note } = booking;
  const what = batchName === null ? duty : `${duty} “${batchName}”`;
  const band = `${booking.minDeciC / 10} to ${booking.maxDeciC / 10} °C`;
  const common = {
    ...revisionOf(booking),
    location: clean(stationName),
    status: statusOf(booking),
  };
  calendar.createEvent({
    ...common,
    id,
    start: new Date(booking.startsAt),
    end: new Date(booking.endsAt),
    summary: clean(`${stationName}: ${what}${isOwn ? '' : ` (${memberName})`}`),
    description: clean(
      [`Places ${places.join(', ')}, ${band}, ${memberName}.`, note].filter(Boolean).join('\n'),
    ),
    // Somebody stands at the mixer; honey warms and sets by itself.
    transparency:
      isOwn && duty === 'bench' ? ICalEventTransparency.OPAQUE : ICalEventTransparency.TRANSPARENT,
  });
  if (!isOwn) return;
  for (const { name, at, summary } of handsOn(booking)) {
    calendar.createEvent({
      ...common,
      id: `${id}-${name}`,
      start: new Date(at),
      end: new Date(at + halfHourMs),
      summary: clean(summary),
      transparency: ICalEventTransparency.OPAQUE,
    });
  }
}

/** When its member must be in the room, but for the bench, where they are all the time. */
function handsOn({ duty, stationName, batchName, startsAt, endsAt, isReleased }: CalendarBooking) {
  const honey = batchName === null ? 'the honey' : `“${batchName}”`;
  const bringIn = { name: 'bring-in', at: startsAt, summary: `Put ${honey} into ${stationName}` };
  const takeOut = { name: 'take-out', at: endsAt, summary: `Take ${honey} out of ${stationName}` };
  if (duty === 'bench') return [];
  // It ended when its places were given back: nothing stands there.
  return isReleased ? [bringIn] : [bringIn, takeOut];
}

function addClosure(calendar: ICalCalendar, closure: CalendarClosure): void {
  calendar.createEvent({
    ...revisionOf(closure),
    id: closure.id,
    start: new Date(closure.startsAt),
    end: new Date(closure.endsAt),
    summary: clean(`${closure.stationName} is closed: ${closure.reason}`),
    location: clean(closure.stationName),
    transparency: ICalEventTransparency.TRANSPARENT,
  });
}

function addClosedDay(calendar: ICalCalendar, closedDay: CalendarClosedDay): void {
  const start = new Date(`${closedDay.day}T00:00:00Z`);
  calendar.createEvent({
    ...revisionOf(closedDay),
    id: closedDay.id,
    allDay: true,
    start,
    end: new Date(start.getTime() + dayMs),
    summary: clean(`The room is closed: ${closedDay.reason}`),
    transparency: ICalEventTransparency.TRANSPARENT,
  });
}

function revisionOf({ revision, revisedAt }: { revision: number; revisedAt: number }) {
  const at = new Date(revisedAt);
  return { stamp: at, lastModified: at, sequence: revision } satisfies Partial<ICalEventData>;
}

function statusOf({ isCancelled, isKept }: CalendarBooking): ICalEventStatus {
  if (isCancelled) return ICalEventStatus.CANCELLED;
  return isKept ? ICalEventStatus.TENTATIVE : ICalEventStatus.CONFIRMED;
}

/** Without what RFC 5545 (3.1) forbids in text: control characters, but for line breaks. */
function clean(text: string): string {
  return text.replace(/\r\n?/g, '\n').replace(/[\u0000-\u0009\u000b-\u001f\u007f]/g, ' ');
}
