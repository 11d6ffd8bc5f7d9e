import type { components } from '../../api/schema';

export type Hours = components['schemas']['DayHours'];

/** From a time of day to a later one, as a field shows it: HH:MM, the end of the day as 00:00. */
export interface Span {
  opens: string;
  closes: string;
}

export const weekdays = [1, 2, 3, 4, 5, 6, 7];

/** The spans of each day from Monday on, in order of time. */
export function spansOf(hours: Hours[]): Span[][] {
  return weekdays.map((weekday) =>
    hours
      .filter((one) => one.weekday === weekday)
      .sort((one, other) => one.opensMinute - other.opensMinute)
      .map(({ opensMinute, closesMinute }) => ({
        opens: clockOf(opensMinute),
        closes: clockOf(closesMinute % 1440),
      })),
  );
}

/** And back. */
export function hoursOf(days: Span[][]): Hours[] {
  return days.flatMap((spans, index) =>
    spans.map(({ opens, closes }) => ({
      weekday: weekdays[index] ?? 1,
      opensMinute: minutesOf(opens),
      closesMinute: minutesOf(closes) || 1440,
    })),
  );
}

function clockOf(minutes: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

function minutesOf(clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  return hours * 60 + minutes;
}
