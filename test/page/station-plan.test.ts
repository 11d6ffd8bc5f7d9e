import fc from 'fast-check';
import { freePlacesOf } from '../../src/web/screens/room/free-places';
import { bookingAt, bookingByKey, stationPlan } from '../../src/web/screens/room/station-plan';
import type { DiaryBooking, DiaryStation } from '../../src/web/screens/room/diary';

const from = new Date('2031-05-01T00:00:00Z');
const dayMs = 86_400_000;
const day = (count: number) => new Date(from.getTime() + count * dayMs);

let made = 0;
function booking(start: number, end: number, places: number[]): DiaryBooking {
  return {
    id: String(made++),
    duty: 'warm',
    memberId: 'm',
    memberName: 'Ada',
    startsAt: day(start).toISOString(),
    endsAt: day(end).toISOString(),
    places,
    state: 'booked',
  };
}

function station(bookings: DiaryBooking[], different: Partial<DiaryStation> = {}): DiaryStation {
  return {
    id: 's',
    name: 'Cabinet',
    places: 4,
    bookings,
    closures: [],
    dutyWindows: [],
    ...different,
  };
}

describe('what is free', () => {
  const days = [0, 1, 2, 3].map(day);

  test('a place is free on a day that nothing on it touches; a closed day has none', () => {
    const closures = [
      { id: 'c', startsAt: day(2.5).toISOString(), endsAt: day(2.6).toISOString(), reason: 'r' },
    ];
    const bookings = [booking(-1, 0.5, [1, 2]), booking(0.6, 1, [2]), booking(1.2, 9, [3])];
    expect(freePlacesOf(days, station(bookings))).toEqual([2, 3, 3]);
    expect(freePlacesOf(days, station(bookings, { closures }))).toEqual([2, 3, 0]);
  });
});

describe('a point of the drawing', () => {
  const plan = stationPlan(4, day(0), day(14), 1000);
  const anywhere = fc
    .tuple(
      fc.double({ min: 0, max: 12, noNaN: true }),
      fc.double({ min: 0.1, max: 2, noNaN: true }),
    )
    .chain(([start, length]) =>
      fc.record({
        start: fc.constant(start),
        end: fc.constant(start + length),
        place: fc.integer({ min: 1, max: 4 }),
        part: fc.double({ min: 0.01, max: 0.99, noNaN: true }),
      }),
    );

  test('within a block it is that booking', () => {
    fc.assert(
      fc.property(anywhere, ({ start, end, place, part }) => {
        const here = booking(start, end, [place]);
        const others = [1, 2, 3, 4]
          .filter((one) => one !== place)
          .map((one) => booking(0, 14, [one]));
        const x = plan.x(here.startsAt) + part * (plan.x(here.endsAt) - plan.x(here.startsAt));
        const y = plan.y(place) + part * plan.rowHeight;
        expect(bookingAt(plan, [...others, here], { x, y }, 0)).toBe(here);
      }),
    );
  });

  test('beside blocks it is the nearest, as far as a finger reaches', () => {
    const [left, right] = [booking(1, 2, [1]), booking(3, 4, [1])];
    const y = plan.y(1) + 5;
    const at = (x: number, reach: number) => bookingAt(plan, [left, right], { x, y }, reach);
    expect(at(plan.x(left.endsAt) + 4, 5)).toBe(left);
    expect(at(plan.x(right.startsAt) - 4, 500)).toBe(right);
    expect(at(plan.x(left.endsAt) + 6, 5)).toBeUndefined();
    expect(
      bookingAt(plan, [left], { x: plan.x(left.startsAt), y: plan.y(2) + 1 }, 50),
    ).toBeUndefined();
  });

  test('what begins before the first day or ends after the last stays within the drawing', () => {
    expect(plan.x(day(-3))).toBe(plan.x(day(0)));
    expect(plan.x(day(20))).toBe(plan.width);
  });
});

describe('an arrow key', () => {
  const bookings = {
    first: booking(0, 1, [1]),
    below: booking(1.9, 2.5, [3]),
    second: booking(2, 3, [1, 2]),
    farBelow: booking(6, 7, [3]),
  };
  type Name = keyof typeof bookings;

  test.each<[Name, string, Name | undefined]>([
    ['first', 'ArrowRight', 'second'],
    ['second', 'ArrowRight', 'second'],
    ['second', 'ArrowLeft', 'first'],
    ['second', 'ArrowDown', 'below'],
    ['farBelow', 'ArrowUp', 'second'],
    ['below', 'End', 'farBelow'],
    ['farBelow', 'Home', 'below'],
    ['below', 'ArrowDown', undefined],
    ['below', 'a', undefined],
  ])('leads from %s by %s to %s', (here, key, there) => {
    const reached = bookingByKey(Object.values(bookings), bookings[here], key);
    expect(reached).toBe(there && bookings[there]);
  });

  test('leads from every booking to every other', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 13 }), fc.integer({ min: 1, max: 4 })), {
          minLength: 1,
          maxLength: 20,
        }),
        (cells) => {
          const all = cells
            .sort(([one], [other]) => one - other)
            .map(([start, place]) => booking(start, start + 1, [place]));
          const [start] = all;
          const reached = new Set([start!]);
          for (const here of reached) {
            for (const key of ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown']) {
              const next = bookingByKey(all, here, key);
              if (next !== undefined) reached.add(next);
            }
          }
          expect(reached.size).toBe(all.length);
        },
      ),
    );
  });
});
