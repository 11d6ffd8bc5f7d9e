import fc from 'fast-check';
import { keptInOrder, type WaitingWish } from '../../../src/core/planning/next-in-line';
import { freeOnGrid } from './grid-oracle';
import {
  at,
  booking,
  cabinet,
  closure,
  MINUTE_MS,
  smallStation,
  smallWish,
  wishFor,
} from './small-stations';

const waits = (id: string, rest: Partial<WaitingWish> = {}): WaitingWish => ({
  ...wishFor(),
  id,
  notBefore: at(0),
  notAfter: at(600),
  ...rest,
});
const early = { now: at(-600), offerMinutes: 60 };

describe('examples', () => {
  test('the first who fits gets the earliest time, the next one what is left', () => {
    const station = cabinet({ placeIds: ['p1'] });

    const kept = keptInOrder(station, [waits('ada'), waits('ben')], early);

    expect(kept).toEqual([
      { wishId: 'ada', startsAt: at(0), endsAt: at(60), placeIds: ['p1'], keptUntil: at(-540) },
      { wishId: 'ben', startsAt: at(60), endsAt: at(120), placeIds: ['p1'], keptUntil: at(-540) },
    ]);
  });

  test('who does not fit keeps waiting and holds up nobody behind', () => {
    const station = cabinet({ bookings: [booking(0, 600, ['p1', 'p2'])] });

    const kept = keptInOrder(station, [waits('wide', { places: 2 }), waits('narrow')], early);

    expect(kept.map(({ wishId }) => wishId)).toEqual(['narrow']);
  });

  test('there is as long to answer as the club says, where the time allows', () => {
    const [kept] = keptInOrder(cabinet(), [waits('ada')], { now: at(0), offerMinutes: 120 });

    expect(kept).toMatchObject({ startsAt: at(120), keptUntil: at(120) });
  });

  test('a time that must start soon is kept until it starts', () => {
    const [kept] = keptInOrder(cabinet(), [waits('ada', { notAfter: at(100) })], {
      now: at(0),
      offerMinutes: 120,
    });

    expect(kept).toMatchObject({ startsAt: at(40), keptUntil: at(40) });
  });

  test('what would start within a quarter of an hour is not offered: nobody could answer', () => {
    const soon = { now: at(0), offerMinutes: 120 };

    expect(keptInOrder(cabinet(), [waits('ada', { notAfter: at(74) })], soon)).toEqual([]);
    expect(keptInOrder(cabinet(), [waits('ada', { notAfter: at(75) })], soon)).toHaveLength(1);
  });

  test('a time that was freed between two minutes begins with the next minute', () => {
    const halfPast = at(30) + MINUTE_MS / 2;
    const station = cabinet({
      placeIds: ['p1'],
      bookings: [{ ...booking(0, 30, ['p1']), endsAt: halfPast }],
    });

    const [kept] = keptInOrder(station, [waits('ada')], early);

    expect(kept?.startsAt).toBe(at(31));
  });

  test('a gap without a whole minute to start on is passed over for a later one', () => {
    const station = cabinet({
      placeIds: ['p1'],
      bookings: [
        { ...booking(-60, 0, ['p1']), endsAt: at(0) + 20_000 },
        { ...booking(60, 90, ['p1']), startsAt: at(60) + 30_000 },
      ],
      closures: [closure(90, 95)],
    });

    const [kept] = keptInOrder(station, [waits('ada')], early);

    expect(kept?.startsAt).toBe(at(95));
  });

  test('refuses an offer that nobody could answer', () => {
    expect(() => keptInOrder(cabinet(), [], { now: at(0), offerMinutes: 14 })).toThrow(RangeError);
    expect(() => keptInOrder(cabinet(), [], { now: 0.5, offerMinutes: 60 })).toThrow(RangeError);
  });
});

describe('whatever is booked and whoever waits', () => {
  const waiting = fc.array(
    fc
      .tuple(smallWish, fc.integer({ min: -5, max: 50 }), fc.nat(30))
      .map(([wish, start, slack]): Omit<WaitingWish, 'id'> => ({
        ...wish,
        notBefore: at(start),
        notAfter: at(start + wish.minutes + slack),
      })),
    { maxLength: 6 },
  );
  const cases = [
    smallStation,
    waiting.map((wishes) => wishes.map((wish, index) => ({ ...wish, id: `w${index}` }))),
    fc.integer({ min: -60, max: 40 }),
  ] as const;

  test('nobody who fits is passed over, the order is kept, and what is kept is free', () => {
    fc.assert(
      fc.property(...cases, (station, wishes, nowMinute) => {
        const now = at(nowMinute);
        const kept = keptInOrder(station, wishes, { now, offerMinutes: 20 });
        const order = wishes.map(({ id }) => id);
        const places = kept.map(({ wishId }) => order.indexOf(wishId));
        expect(places).toEqual([...places].sort((a, b) => a - b));

        let taken = station;
        for (const wish of wishes) {
          const got = kept.find(({ wishId }) => wishId === wish.id);
          const starts = startsOnGrid(wish, now);
          const fitting = starts.filter(
            (start) => (freeOnGrid(taken, wish, start)?.length ?? 0) >= wish.places,
          );
          if (got === undefined) {
            expect(fitting).toEqual([]);
            continue;
          }
          expect(fitting).toContain(got.startsAt);
          expect(new Set(got.placeIds).size).toBe(wish.places);
          expect(freeOnGrid(taken, wish, got.startsAt)).toEqual(
            expect.arrayContaining([...got.placeIds]),
          );
          expect(got.keptUntil).toBe(Math.min(now + 20 * MINUTE_MS, got.startsAt));
          expect(got.endsAt - got.startsAt).toBe(wish.minutes * MINUTE_MS);
          taken = { ...taken, bookings: [...taken.bookings, { ...wish, ...got }] };
        }
      }),
      { numRuns: 500 },
    );
  });
});

/** Every whole minute at which the wish might start, a quarter of an hour ahead at least. */
function startsOnGrid(wish: WaitingWish, now: number): number[] {
  const starts = [];
  for (
    let start = wish.notBefore;
    start + wish.minutes * MINUTE_MS <= wish.notAfter;
    start += MINUTE_MS
  ) {
    if (start >= now + 15 * MINUTE_MS) starts.push(start);
  }
  return starts;
}
