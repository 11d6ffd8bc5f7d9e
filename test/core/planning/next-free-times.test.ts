import fc from 'fast-check';
import { nextFreeTimes, type StartSpan } from '../../../src/core/planning/next-free-times';
import { whyNot } from '../../../src/core/planning/why-not';
import { freeOnGrid, STEP_MS } from './grid-oracle';
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

const ALL = ['p1', 'p2', 'p3'];
const search = (fromMinute: number, untilMinute: number, count = 10) => ({
  from: at(fromMinute),
  until: at(untilMinute),
  count,
});
const spans = (...list: [number, number, number][]): StartSpan[] =>
  list.map(([first, last, freePlaces]) => ({
    firstStart: at(first),
    lastStart: at(last),
    freePlaces,
  }));

describe('an hour wished for', () => {
  test('in an empty station may start at once, and must end in time', () => {
    expect(nextFreeTimes(cabinet(), wishFor(), search(0, 600))).toEqual(spans([0, 540, 3]));
  });

  test('has exactly one start when the time searched is exactly as long, and none when shorter', () => {
    expect(nextFreeTimes(cabinet(), wishFor(), search(0, 60))).toEqual(spans([0, 0, 3]));
    expect(nextFreeTimes(cabinet(), wishFor(), search(0, 59))).toEqual([]);
  });

  test('fits before and after bookings that fill the station', () => {
    const station = cabinet({ bookings: [booking(100, 200, ALL)] });

    expect(nextFreeTimes(station, wishFor(), search(0, 600))).toEqual(
      spans([0, 40, 3], [200, 540, 3]),
    );
  });

  test('fits a gap of exactly an hour at one instant, and a gap a minute shorter not at all', () => {
    const gap = (minutes: number) =>
      cabinet({ bookings: [booking(0, 100, ALL), booking(100 + minutes, 300, ALL)] });

    expect(nextFreeTimes(gap(60), wishFor(), search(0, 360))).toEqual(
      spans([100, 100, 3], [300, 300, 3]),
    );
    expect(nextFreeTimes(gap(59), wishFor(), search(0, 360))).toEqual(spans([300, 300, 3]));
  });

  test('waits for the changeover after another duty, and keeps clear of it before', () => {
    const cooling = booking(200, 300, ['p1'], { duty: 'cool' });

    expect(nextFreeTimes(cabinet({ bookings: [cooling] }), wishFor(), search(0, 600))).toEqual(
      spans([0, 110, 3], [330, 540, 3]),
    );
  });

  test('waits for a closure and for other temperatures to end, without changeover', () => {
    const hotter = booking(200, 300, ['p1'], { minC: 50, maxC: 55 });
    const station = cabinet({ bookings: [hotter], closures: [closure(300, 310)] });

    expect(nextFreeTimes(station, wishFor(), search(150, 600))).toEqual(spans([310, 540, 3]));
  });

  test('starts and ends when the room is open, and waits for the end of a window of another duty', () => {
    const open = [closure(0, 90), closure(300, 390)];
    const dutyWindows = [{ ...closure(310, 320), duty: 'cool' as const }];
    const station = cabinet({ open, dutyWindows });

    // From 0 to 90 the end must come by 90; a start at 89 would end at 149, when it is closed.
    expect(nextFreeTimes(station, wishFor(), search(-60, 600))).toEqual(
      spans([0, 30, 3], [320, 330, 3]),
    );
    // Over the night: in while it is open first, out while it is open again.
    expect(nextFreeTimes(station, wishFor({ minutes: 280, duty: 'cool' }), search(0, 600))).toEqual(
      spans([20, 89, 3]),
    );
  });

  test('is told how many places are free at the least, whichever start is taken', () => {
    const station = cabinet({ bookings: [booking(100, 200, ['p1']), booking(150, 250, ['p2'])] });

    expect(nextFreeTimes(station, wishFor(), search(0, 600))).toEqual(spans([0, 540, 1]));
    expect(nextFreeTimes(station, wishFor({ places: 2 }), search(0, 600))).toEqual(
      spans([0, 90, 2], [200, 540, 2]),
    );
  });

  test('does not get a place that is free only by turns', () => {
    const station = cabinet({
      placeIds: ['p1', 'p2'],
      bookings: [booking(0, 330, ['p1']), booking(330, 660, ['p2'])],
    });

    expect(nextFreeTimes(station, wishFor(), search(0, 660))).toEqual(
      spans([0, 270, 1], [330, 600, 1]),
    );
  });

  test('is told only as many spans as asked for, the earliest', () => {
    const station = cabinet({ bookings: [booking(100, 200, ALL), booking(300, 400, ALL)] });

    expect(nextFreeTimes(station, wishFor(), search(0, 600, 2))).toEqual(
      spans([0, 40, 3], [200, 240, 3]),
    );
  });

  test('never fits when it asks for more places than the station has', () => {
    expect(nextFreeTimes(cabinet(), wishFor({ places: 4 }), search(0, 600))).toEqual([]);
  });

  test('is found to the millisecond, not on a grid', () => {
    const odd = { ...booking(0, 100, ALL), endsAt: at(100) + 1 };

    const [first] = nextFreeTimes(cabinet({ bookings: [odd] }), wishFor(), search(0, 600));

    expect(first?.firstStart).toBe(at(100) + 1);
  });

  test('gives way to a booking that begins a millisecond before the end of the search', () => {
    const last = { ...booking(600, 700, ALL), startsAt: at(600) - 1 };

    const [only] = nextFreeTimes(cabinet({ bookings: [last] }), wishFor(), search(0, 600));

    expect(only).toEqual({ firstStart: at(0), lastStart: at(540) - 1, freePlaces: 3 });
  });
});

const FROM_MINUTE = 0;
const UNTIL_MINUTE = 70;

describe('against every half minute tried on random stations', () => {
  test('the spans hold exactly the starts that fit, no earlier one is missed, and freePlaces is the least', () => {
    let instants = 0;
    let several = 0;
    fc.assert(
      fc.property(smallStation, smallWish, (station, wish) => {
        const expected: StartSpan[] = [];
        let open = false;
        const lastStart = at(UNTIL_MINUTE - wish.minutes);
        for (let start = at(FROM_MINUTE); start <= lastStart; start += STEP_MS) {
          const free = freeOnGrid(station, wish, start)?.length ?? 0;
          const last = expected[expected.length - 1];
          if (free < wish.places) open = false;
          else if (open && last) {
            const freePlaces = Math.min(last.freePlaces, free);
            expected[expected.length - 1] = { ...last, lastStart: start, freePlaces };
          } else {
            expected.push({ firstStart: start, lastStart: start, freePlaces: free });
            open = true;
          }
        }
        instants += expected.filter((s) => s.firstStart === s.lastStart).length;
        if (expected.length > 1) several += 1;

        const found = nextFreeTimes(station, wish, search(FROM_MINUTE, UNTIL_MINUTE, 1_000));

        expect(found).toEqual(expected);
        expect(nextFreeTimes(station, wish, search(FROM_MINUTE, UNTIL_MINUTE, 1))).toEqual(
          expected.slice(0, 1),
        );
      }),
      { numRuns: 1_500 },
    );
    expect(instants).toBeGreaterThan(20);
    expect(several).toBeGreaterThan(100);
  });

  test('at times of any millisecond, every span fits at its ends and a millisecond beyond it does not', () => {
    const crooked = fc.integer({ min: -20_000, max: 20_000 });
    fc.assert(
      fc.property(
        smallStation,
        smallWish,
        fc.array(crooked, { minLength: 16, maxLength: 16 }),
        (plain, wish, shifts) => {
          const station = {
            ...plain,
            bookings: plain.bookings.map((held, index) => ({
              ...held,
              startsAt: held.startsAt + shifts[index]!,
              endsAt: held.endsAt + shifts[index + 8]!,
            })),
          };
          const { from, until } = search(FROM_MINUTE, UNTIL_MINUTE);
          const latestStart = until - wish.minutes * MINUTE_MS;

          for (const { firstStart, lastStart } of nextFreeTimes(station, wish, {
            from,
            until,
            count: 1_000,
          })) {
            const middle = Math.floor((firstStart + lastStart) / 2);
            for (const start of [firstStart, middle, lastStart]) {
              expect(whyNot(station, wish, start)).toBeNull();
            }
            if (firstStart > from) expect(whyNot(station, wish, firstStart - 1)).not.toBeNull();
            if (lastStart < latestStart)
              expect(whyNot(station, wish, lastStart + 1)).not.toBeNull();
          }
        },
      ),
      { numRuns: 1_000 },
    );
  });
});

test.each([
  ['from', { from: NaN }],
  ['until', { until: 0.5 }],
  ['count', { count: 0 }],
])('a search with a senseless %s is refused', (name, rest) => {
  const senseless = { ...search(0, 60), ...rest };

  expect(() => nextFreeTimes(cabinet(), wishFor(), senseless)).toThrow(new RegExp(`^${name} must`));
});
