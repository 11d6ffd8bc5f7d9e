import { nextFreeTimes } from '../core/planning/next-free-times';
import type { Wish } from '../core/planning/station-times';
import { placesOrWhyNot, type WhyNot } from '../core/planning/why-not';
import { invalidField, Refusal, type RefusalCode } from '../core/refusal';
import {
  toFreeTimes,
  type DiaryBooking,
  type DiaryClosure,
  type DiaryWindow,
  type StationDiary,
} from '../stations/station-diary';
import { closedRoomWords, dutyWindowWords } from './room-rules';

type FreeTime = ReturnType<typeof toFreeTimes>[number];

/** How far ahead of the wished start a refusal looks for free times. */
const offerDays = 60;
const dayMs = 86_400_000;

const offered = 5;

/**
 * The places that the wish gets at that start, or a refusal that says why it gets none and when it would. `readDiary` reads the
 * station's diary between two times: first just what bears on the wish, and more only when there are free times to be found.
 */
export async function placesOrRefusal(
  readDiary: (from: Date, until: Date) => Promise<StationDiary>,
  wish: Wish,
  { startsAt, endsAt }: { startsAt: Date; endsAt: Date },
  keepFirst: (diary: StationDiary) => string[] = () => [],
): Promise<{ diary: StationDiary; placeIds: readonly string[] }> {
  const diary = await readDiary(startsAt, endsAt);
  refuseUnlessServed(diary, wish);
  const answer = placesOrWhyNot(diary.times, wish, startsAt.getTime(), keepFirst(diary));
  if (answer.fits) return { diary, placeIds: answer.placeIds };

  const until = new Date(endsAt.getTime() + offerDays * dayMs);
  const later = await readDiary(startsAt, until);
  const search = { from: startsAt.getTime(), until: until.getTime(), count: offered };
  const freeTimes = toFreeTimes(nextFreeTimes(later.times, wish, search));
  const { code, detail, offers } = wordsFor(answer.whyNot, later, wish, startsAt);
  throw new Refusal(code, `${detail} ${adviceOf(freeTimes)}`, { offers: { ...offers, freeTimes } });
}

function adviceOf([first]: FreeTime[]): string {
  return first === undefined
    ? `There is no such time within ${offerDays} days; fewer places or a shorter time may do.`
    : `The next time that will do starts at ${first.firstStart}.`;
}

function wordsFor(
  whyNot: WhyNot<DiaryBooking, DiaryClosure, DiaryWindow>,
  diary: StationDiary,
  wish: Wish,
  startsAt: Date,
): { code: RefusalCode; detail: string; offers?: object } {
  switch (whyNot.reason) {
    case 'room-closed':
      return { code: 'club-closed', ...closedRoomWords(diary, wish, startsAt) };
    case 'duty-window':
      return { code: 'duty-window', ...dutyWindowWords(diary, whyNot.dutyWindows[0]) };
    case 'closed':
      return {
        code: 'station-closed',
        detail: `${diary.name} is closed then: ${whyNot.closures.map(({ reason }) => reason).join(', ')}.`,
      };
    case 'other-duty':
      return {
        code: 'other-duty',
        detail: `${diary.name} is booked to ${whyNot.bookings[0]?.duty ?? ''} then, and takes ${diary.times.changeoverMinutes} minutes to change over.`,
      };
    case 'temperature': {
      const other = whyNot.bookings[0];
      return {
        code: 'temperature-clash',
        detail: `${diary.name} is booked for ${other?.minC ?? ''} to ${other?.maxC ?? ''} °C then, which does not go with ${wish.minC} to ${wish.maxC} °C.`,
      };
    }
    case 'places':
      return {
        code: 'place-taken',
        detail: `Of ${diary.times.placeIds.length} places in ${diary.name}, ${whyNot.freePlaces} are free for the whole time; ${wish.places} are wanted.`,
      };
  }
}

/** Refuses, by its field, a wish that the station could not serve even if it were empty. */
export function refuseUnlessServed(diary: StationDiary, wish: Wish): void {
  if (diary.isRetired) throw invalidField('#/stationId', `${diary.name} is out of use.`);
  const served = diary.duties.find(({ duty }) => duty === wish.duty);
  if (served === undefined) {
    const duties = diary.duties.map(({ duty }) => duty).join(', ');
    throw invalidField(
      '#/duty',
      `${diary.name} does not serve "${wish.duty}"; it serves ${duties}.`,
    );
  }
  if (served.minC > wish.maxC || wish.minC > served.maxC) {
    throw invalidField(
      wish.minC > served.maxC ? '#/minC' : '#/maxC',
      `${diary.name} holds ${served.minC} to ${served.maxC} °C when it serves "${wish.duty}".`,
    );
  }
  if (wish.places > diary.times.placeIds.length) {
    throw invalidField('#/places', `${diary.name} has ${diary.times.placeIds.length} places.`);
  }
}
