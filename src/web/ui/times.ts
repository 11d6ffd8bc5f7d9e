import { useClub } from '../api/club';
import { locale } from '../text/locale';

/** Words for instants, in the club's time zone: the clock on the wall of the honey house. */
export function timeWords(timeZone: string) {
  const format = (options: Intl.DateTimeFormatOptions) =>
    new Intl.DateTimeFormat(locale, { timeZone, ...options });
  const time = format({ hour: '2-digit', minute: '2-digit' });
  const day = format({ weekday: 'short', day: 'numeric', month: 'short' });
  const shortDay = format({ day: 'numeric', month: 'short' });
  const weekday = format({ weekday: 'short' });
  const date = format({ day: 'numeric', month: 'short', year: 'numeric' });
  const parts = format({ year: 'numeric', month: '2-digit', day: '2-digit' });
  return {
    time: (at: string | Date) => time.format(new Date(at)),
    day: (at: string | Date) => day.format(new Date(at)),
    shortDay: (at: string | Date) => shortDay.format(new Date(at)),
    weekday: (at: string | Date) => weekday.format(new Date(at)),
    date: (at: string | Date) => date.format(new Date(at)),
    dayAndTime: (at: string | Date) => `${day.format(new Date(at))}, ${time.format(new Date(at))}`,
    /** For what is not of this week. */
    dateAndTime: (at: string | Date) =>
      `${date.format(new Date(at))}, ${time.format(new Date(at))}`,
    /** The local day as YYYY-MM-DD. */
    isoDay: (at: string | Date) => {
      const found = Object.fromEntries(
        parts.formatToParts(new Date(at)).map(({ type, value }) => [type, value]),
      );
      return `${found['year'] ?? ''}-${found['month'] ?? ''}-${found['day'] ?? ''}`;
    },
  };
}

const known = new Map<string, ReturnType<typeof timeWords>>();

export function useTimes() {
  const { timeZone } = useClub();
  // Formats take longer to make than to use, and every row of a list asks for them.
  const words = known.get(timeZone) ?? timeWords(timeZone);
  known.set(timeZone, words);
  return words;
}

/** The instant at which a clock in that zone shows `local` (YYYY-MM-DDTHH:MM), as RFC 3339 in UTC. In a gap the clock's jump moves it on. */
export function instantOf(local: string, timeZone: string): string {
  const asUtc = Date.parse(`${local}:00Z`);
  let instant = asUtc;
  // Twice: the first correction may step over a change of the clock.
  for (let turn = 0; turn < 2; turn++) instant = asUtc - offsetMs(instant, timeZone);
  return new Date(instant).toISOString();
}

/** What a clock in that zone shows at an instant, as YYYY-MM-DDTHH:MM for a field. */
export function localOf(instant: string | Date, timeZone: string): string {
  const ms = new Date(instant).getTime();
  return new Date(ms + offsetMs(ms, timeZone)).toISOString().slice(0, 16);
}

/** A day of the calendar, YYYY-MM-DD, as people write it. */
export function dayWords(day: string): string {
  return timeWords('UTC').date(`${day}T00:00:00Z`);
}

/** An instant as a drawing shows it that writes its times in UTC: the clock on the wall of that zone. */
export function wallClock(instant: string | Date, timeZone: string): Date {
  return new Date(`${localOf(instant, timeZone)}Z`);
}

/** Two lines below an axis of such times: the hour, and the day. */
export function axisWords(wall: Date): string {
  const format = (options: Intl.DateTimeFormatOptions) =>
    new Intl.DateTimeFormat(locale, { timeZone: 'UTC', ...options }).format(wall);
  return `${format({ hour: '2-digit', minute: '2-digit' })}\n${format({ day: 'numeric', month: 'short' })}`;
}

function offsetMs(instant: number, timeZone: string): number {
  const parts = Object.fromEntries(
    new Intl.DateTimeFormat('en-US', {
      timeZone,
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric',
    })
      .formatToParts(instant)
      .map(({ type, value }) => [type, Number(value)]),
  );
  const shown = Date.UTC(
    parts['year'] ?? 0,
    (parts['month'] ?? 1) - 1,
    parts['day'] ?? 1,
    parts['hour'] ?? 0,
    parts['minute'] ?? 0,
    parts['second'] ?? 0,
  );
  return shown - Math.floor(instant / 1000) * 1000;
}
