/** Three months of a year, by name, so that they are right in either hemisphere. */
export const seasons = [
  'December to February',
  'March to May',
  'June to August',
  'September to November',
] as const;

export type Season = (typeof seasons)[number];

const MONTHS_IN_A_SEASON = 3;

/**
 * The season in which a moment (epoch milliseconds) falls by the calendar of a time zone (IANA name).
 * Throws RangeError for a time that is not finite, and for a zone that nobody knows.
 */
export function seasonOf(at: number, timeZone: string): Season {
  if (!Number.isFinite(at)) {
    throw new RangeError(`at must be a time in epoch milliseconds, got ${at}`);
  }
  const month = Number(monthOf(timeZone).format(at));
  return seasons[Math.floor((month % 12) / MONTHS_IN_A_SEASON)] ?? seasons[0];
}

const months = new Map<string, Intl.DateTimeFormat>();

/** Making one takes longer than using it a thousand times. */
function monthOf(timeZone: string): Intl.DateTimeFormat {
  let month = months.get(timeZone);
  if (month === undefined) {
    month = new Intl.DateTimeFormat('en', { timeZone, month: 'numeric' });
    months.set(timeZone, month);
  }
  return month;
}
