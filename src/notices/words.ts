import { localTime } from '../platform/local-time';

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
      `Your booking of ${text('stationName')} from ${time('startsAt')} to ${time('endsAt')} was cancelled by ${text('byName')}` +
      (has('reason') ? `, because the station is closed then: ${text('reason')}.` : '.') +
      ' Book another time: the free times of the station show when it would do.',
  }),
  'booking.moved': ({ text, time, has }) => ({
    subject: `Your booking of ${text('stationName')} was moved`,
    text:
      `${text('byName')} changed your booking. It is now: ${text('stationName')}, from ${time('startsAt')} to ${time('endsAt')}.` +
      (has('places') ? ` Its places there: ${text('places')}.` : '') +
      (has('reason') ? ` The station is closed meanwhile: ${text('reason')}.` : ''),
  }),
  'booking.shortened': ({ text, time }) => ({
    subject: `Your booking of ${text('stationName')} ends earlier`,
    text: `${text('byName')} closed ${text('stationName')}: ${text('reason')}. Your booking ends ${time('endsAt')}; take your honey out by then.`,
  }),
  'booking.released': ({ text, time, has }) => ({
    subject: `Your booking of ${text('stationName')} was ended`,
    text:
      `${text('byName')} ended your booking of ${text('stationName')} that began ${time('startsAt')}` +
      (has('reason') ? `: ${text('reason')}.` : '.') +
      ' If your honey stands there still, talk to each other.',
  }),
  'booking.no-show': ({ text, time }) => ({
    subject: `Nothing came in to ${text('stationName')}`,
    text: `${text('memberName')} has ${text('stationName')} from ${time('startsAt')} to ${time('endsAt')}, and nothing has come in. If nothing will, release the booking: others wait for the room.`,
  }),
  'booking.overstay': ({ text, time, has }) => ({
    subject: `Your honey stands in ${text('stationName')} past its time`,
    text:
      `Your booking of ${text('stationName')} ended ${time('endedAt')}, and nobody has said that its places are clear.` +
      (has('nextName')
        ? ` ${text('nextName')} has them from ${time('nextStartsAt')}: clear them, or talk to each other.`
        : ' Clear them, or book longer.'),
  }),
  'booking.places-not-cleared': ({ text, time }) => ({
    subject: `Your places in ${text('stationName')} are not clear yet`,
    text: `Honey of ${text('memberName')} stands on places that are yours from ${time('startsAt')}. They have been told.`,
  }),
  'waiting.offered': ({ text, time }) => ({
    subject: `${text('stationName')} is free for you, if you take it`,
    text: `What you wait for is free: ${text('stationName')}, ${text('places')} places from ${time('startsAt')} to ${time('endsAt')}. They are kept for you until ${time('keptUntil')}; then the next in line gets them.`,
  }),
  'waiting.lapsed': ({ text, time, has }) => ({
    subject: `You wait for ${text('stationName')} no longer`,
    text: has('keptUntil')
      ? `The time in ${text('stationName')} that was kept for you until ${time('keptUntil')} went to the next in line.`
      : has('byName')
        ? `${text('byName')} changed ${text('stationName')}: what you waited for cannot be had there any more. Wish for it elsewhere, or for fewer places.`
        : `The time for which you waited for ${text('stationName')} has passed. Wish for a later one if it would do.`,
  }),
  'waiting.withdrawn': ({ text }) => ({
    subject: `You wait for ${text('stationName')} no longer`,
    text: `${text('byName')} took your wish for ${text('stationName')} off the waiting list.`,
  }),
  'waiting.offer-cancelled': ({ text }) => ({
    subject: `The time in ${text('stationName')} kept for you is gone`,
    text: `The time in ${text('stationName')} that was kept for you cannot be had any more. You are on the waiting list again, where you were.`,
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
    text: `${text('byName')} lent ${text('massKg')} kg of your “${text('lotName')}” to ${text('borrower')}.`,
  }),
  'hold.placed': ({ text }) => ({
    subject: `Stop: “${text('lotName')}” is on hold`,
    text:
      `${text('byName')} suspects “${text('lotName')}”: ${text('because')}. Lots of yours that it is or is in: ${text('lots')}. ` +
      'Use, lend, pot and give away nothing of them until the hold is released. Steps that move no honey, and looking, go on.',
  }),
  'hold.released': ({ text }) => ({
    subject: `Released: what was on hold for “${text('lotName')}”`,
    text: `${text('byName')} released lots of yours that were on hold for “${text('lotName')}”, ${text('lots')} of them: ${text('because')}. If another hold reaches one, it says so.`,
  }),
  'loan.asked': ({ text, has }) => ({
    subject: `${text('borrower')} asks for seed`,
    text:
      `${text('borrower')} asks ${has('lender') ? 'you' : 'anybody who has some'} to lend ${text('massKg')} kg of seed` +
      (has('lotName') ? `, of “${text('lotName')}”.` : '.') +
      (has('dueOn') ? ` As much is to come back by ${text('dueOn')}.` : ''),
  }),
  'loan.offered': ({ text, has }) => ({
    subject: `${text('lender')} offers you seed`,
    text:
      `${text('lender')} offers to lend you ${text('massKg')} kg of “${text('lotName')}”. Accept it or decline it.` +
      (has('dueOn') ? ` As much is wanted back by ${text('dueOn')}.` : ''),
  }),
  'loan.accepted': ({ text }) => ({
    subject: `${text('byName')} said yes: ${text('massKg')} kg of seed`,
    text: `${text('byName')} accepted the loan of ${text('massKg')} kg of seed from ${text('lender')} to ${text('borrower')}. Nothing is reserved for it: agree when to hand it over.`,
  }),
  'loan.declined': ({ text, has }) => ({
    subject: `${text('byName')} declined the loan of seed`,
    text:
      `${text('byName')} said no to ${text('massKg')} kg of seed` +
      (has('because') ? `: ${text('because')}` : '.'),
  }),
  'loan.withdrawn': ({ text }) => ({
    subject: `The loan of ${text('massKg')} kg of seed was withdrawn`,
    text: `${text('byName')} took it back: no seed changes hands.`,
  }),
  'loan.returned': ({ text }) => ({
    subject: `${text('returnedMassKg')} kg of seed came back`,
    text: `${text('borrower')} gave ${text('lender')} ${text('returnedMassKg')} kg of “${text('returnedLotName')}” back for “${text('lotName')}”, recorded by ${text('byName')}. ${stillOwed(text('owedMassKg'))}`,
  }),
  'loan.forgiven': ({ text, has }) => ({
    subject: `${text('forgivenMassKg')} kg of seed need not come back`,
    text:
      `${text('byName')} waived the ${text('forgivenMassKg')} kg that ${text('borrower')} still owed ${text('lender')} for “${text('lotName')}”` +
      (has('because') ? `: ${text('because')}` : '.'),
  }),
  'loan.due-changed': ({ text, has }) => ({
    subject: has('dueOn')
      ? `Lent seed is wanted back by ${text('dueOn')}`
      : 'Lent seed may come back on any day',
    text:
      `${text('byName')} moved the day for the ${text('owedMassKg')} kg of “${text('lotName')}” that ${text('borrower')} owes ${text('lender')}` +
      (has('dueBefore') ? `, wanted back by ${text('dueBefore')} before` : '') +
      (has('dueOn') ? `: now by ${text('dueOn')}.` : ': now there is none.'),
  }),
  'loan.corrected': ({ text }) => ({
    subject: `The record of lent seed was corrected: “${text('lotName')}”`,
    text: `${text('byName')} corrected what ${text('lender')} lent ${text('borrower')}: it was ${text('massKg')} kg of “${text('lotName')}”. ${stillOwed(text('owedMassKg'))} Why: ${text('because')}`,
  }),
  'loan.overdue': ({ text }) => ({
    subject: `Lent seed is overdue: ${text('owedMassKg')} kg`,
    text: `${text('borrower')} owes ${text('lender')} ${text('owedMassKg')} kg of seed for “${text('lotName')}”, wanted back by ${text('dueOn')}. Give it back, or talk to each other: the lender may waive it.`,
  }),
  'batch.seen-set': ({ text, time }) => ({
    subject: `“${text('batchName')}” has set`,
    text: `${text('byName')} looked at “${text('batchName')}” and found it set, ${time('at')}. Clear its places, so that others can have them.`,
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
    time: (name) => {
      const at = new Date(String(details[name] ?? ''));
      return Number.isNaN(at.getTime()) ? '' : localTime(at, timeZone);
    },
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

function stillOwed(massKg: string): string {
  return Number(massKg) === 0 ? 'Nothing is owed any more.' : `${massKg} kg are still owed.`;
}
