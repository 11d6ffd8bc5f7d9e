import { Temporal } from '@js-temporal/polyfill';

/** What the words of a notice are made of, as notify() was given it. */
export type NoticeDetails = Record<string, string | number | boolean | null>;

export interface NoticeWords {
  subject: string;
  text: string;
}

interface Said {
  /** A detail as text; nothing where it is missing. */
  text: (name: string) => string;
  /** A detail that is a time, by the club's clock. */
  time: (name: string) => string;
  has: (name: string) => boolean;
}

/** The words for each kind of notice. To add a kind: an entry here, made of the details that notify() is given with it. */
const wordsByKind: Record<string, (said: Said) => NoticeWords> = {
  'booking.cancelled': ({ text, time, has }) => ({
    subject: `Your booking of ${text('stationName')} was cancelled`,
    text:
      `Your booking of ${text('stationName')} from ${time('startsAt')} to ${time('endsAt')} was cancelled by ${text('by')}` +
      (has('reason') ? `, because the station is closed then: ${text('reason')}.` : '.') +
      ' Book another time: the free times of the station show when it would do.',
  }),
  'booking.moved': ({ text, time }) => ({
    subject: `Your booking of ${text('stationName')} was moved`,
    text: `${text('by')} changed your booking. It is now: ${text('stationName')}, from ${time('startsAt')} to ${time('endsAt')}.`,
  }),
  'booking.released': ({ text, time }) => ({
    subject: `Your booking of ${text('stationName')} was ended`,
    text: `${text('by')} released the rest of your booking of ${text('stationName')}, at ${time('endsAt')}. If your honey stands there, talk to each other.`,
  }),
  'invitation.accepted': ({ text }) => ({
    subject: `${text('name')} has joined the club`,
    text: `${text('name')} has accepted your invitation and is a ${text('role')} now.`,
  }),
  'loan.received': ({ text, has }) => ({
    subject: `${text('lender')} lent you seed`,
    text:
      `${text('massKg')} kg of “${text('lotName')}” are yours to use, lent by ${text('lender')}.` +
      (has('dueOn') ? ` As much is wanted back by ${text('dueOn')}.` : ''),
  }),
  'loan.given': ({ text }) => ({
    subject: `Seed of yours was lent to ${text('borrower')}`,
    text: `${text('by')} lent ${text('massKg')} kg of your “${text('lotName')}” to ${text('borrower')}.`,
  }),
  'batch.seen-set': ({ text, time }) => ({
    subject: `“${text('batchName')}” has set`,
    text: `${text('by')} looked at “${text('batchName')}” and found it set, ${time('at')}. Clear its places, so that others can have them.`,
  }),
};

/** What a notice says, by the clock of the club. A kind without words is told by what is known of it. */
export function noticeWords(
  kind: string,
  details: NoticeDetails,
  { clubName, timeZone }: { clubName: string; timeZone: string },
): NoticeWords {
  const said: Said = {
    text: (name) => String(details[name] ?? ''),
    time: (name) => localTime(details[name], timeZone),
    has: (name) => (details[name] ?? '') !== '',
  };
  return (
    wordsByKind[kind]?.(said) ?? {
      subject: `${clubName}: ${kind.replace(/\W+/g, ' ')}`,
      text: Object.entries(details)
        .map(([name, value]) => `${name}: ${String(value)}`)
        .join('\n'),
    }
  );
}

/** Such as Saturday 28 November 2026, 09:00. */
function localTime(value: unknown, timeZone: string): string {
  const at = new Date(String(value));
  if (Number.isNaN(at.getTime())) return '';
  const local = Temporal.Instant.from(at.toISOString()).toZonedDateTimeISO(timeZone);
  const day = local.toPlainDate().toLocaleString('en-GB', {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  });
  return `${day}, ${local.toPlainTime().toString({ smallestUnit: 'minute' })}`;
}
