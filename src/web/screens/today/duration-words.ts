import { text } from '../../text';

/** Minutes as people say them: in the largest unit that is at least two, rounded down. */
export function durationWords(minutes: number): string {
  if (minutes >= 2 * 24 * 60) return text.today.days(Math.floor(minutes / (24 * 60)));
  if (minutes >= 120) return text.today.hours(Math.floor(minutes / 60));
  return text.today.minutes(minutes);
}
