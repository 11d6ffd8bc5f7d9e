import { hoursAfter, type BookingRecord } from './records';
import type { RoomDiary, Run } from './room-diary';

/** What a batch needs of the room. */
export interface Stay {
  ref: string;
  number: number;
  member: string;
  run: Run;
  pails: number;
  honeyG: number;
  crates: number;
  creamedG: number;
  /** How long it stands in the cooling cabinet before it goes to the cool room; null: it never does. */
  cabinetUntil: Date | null;
  /** When its owner fetches it. */
  fetchedAt: Date;
}

/** Bands differ, yet any of them go together. */
const warmBands = [
  [40, 45],
  [40, 44],
  [41, 45],
  [40, 43],
] as const;
const coolBands = [
  [8, 17],
  [8, 18],
  [9, 17],
] as const;

/** Books all of it: warming, the bench, and a cool place until it is fetched. */
export function bookRoom(diary: RoomDiary, stay: Stay): BookingRecord[] {
  const { ref: batch, number, member, run, pails, honeyG, crates, cabinetUntil, fetchedAt } = stay;
  const mine = { batch, member };
  const [warmMinC, warmMaxC] = warmBands[number % warmBands.length] ?? warmBands[0];
  const [minC, maxC] = coolBands[number % coolBands.length] ?? coolBands[0];
  const inCrates = { ...mine, duty: 'cool' as const, places: crates, loadG: stay.creamedG };
  const bookings = [
    diary.book({
      ...mine,
      station: 'cabinet',
      duty: 'warm',
      minC: warmMinC,
      maxC: warmMaxC,
      startsAt: run.warmFrom,
      endsAt: run.warmUntil,
      places: pails,
      loadG: honeyG,
    }),
    diary.book({
      ...mine,
      station: 'bench',
      duty: 'bench',
      minC: 18,
      maxC: 26,
      startsAt: run.benchFrom,
      endsAt: run.benchUntil,
      places: 1,
      loadG: stay.creamedG,
    }),
  ];
  if (cabinetUntil !== null) {
    const cooling = { startsAt: run.benchUntil, endsAt: cabinetUntil, minC: 12, maxC: 16 };
    bookings.push(diary.book({ ...inCrates, ...cooling, station: 'cabinet' }));
  }
  const startsAt = cabinetUntil ?? run.benchUntil;
  const endsAt = fetchedAt > startsAt ? fetchedAt : hoursAfter(startsAt, 2);
  bookings.push(diary.book({ ...inCrates, station: 'coolRoom', minC, maxC, startsAt, endsAt }));
  return bookings;
}

/** How many crates of twenty-four half-kilogram pots it fills. */
export function cratesFor(massG: number): number {
  return Math.ceil(massG / 12_000);
}
