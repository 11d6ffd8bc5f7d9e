import fc from 'fast-check';
import { moveDisplaced } from '../../../src/core/planning/move-displaced';
import { nextFreeTimes } from '../../../src/core/planning/next-free-times';
import { wholeMinuteStarts } from '../../../src/core/planning/whole-minute-starts';
import { whyNot } from '../../../src/core/planning/why-not';
import { at, booking, cabinet, closure, smallStation } from './small-stations';

const closed = closure(0, 100);

test('a booking goes to the first minute after the closure, at its own places', () => {
  const displaced = booking(50, 90, ['p2']);

  expect(moveDisplaced(cabinet({ closures: [closed] }), [displaced], at(1000))).toEqual([
    { booking: displaced, to: { startsAt: at(100), endsAt: at(140), placeIds: ['p2'] } },
  ]);
});

test('whoever was first is first again, and the second goes where the first leaves room', () => {
  const first = booking(10, 40, ['p1', 'p2']);
  const second = booking(20, 80, ['p1', 'p3']);
  const moved = moveDisplaced(cabinet({ closures: [closed] }), [second, first], at(1000));

  expect(moved.map(({ booking: one, to }) => [one, to?.startsAt, to?.placeIds])).toEqual([
    [first, at(100), ['p1', 'p2']],
    [second, at(130), ['p1', 'p3']],
  ]);
});

test('it keeps off other duties and closed hours, and is not moved to an earlier time', () => {
  const displaced = booking(50, 90, ['p1']);
  const cooling = booking(120, 200, ['p3'], { duty: 'cool' });
  const station = cabinet({
    closures: [closed],
    bookings: [cooling],
    open: [closure(-500, -300), closure(0, 150), closure(210, 290), closure(400, 500)],
  });

  // The changeover is over at 230; 40 minutes later the room is still open.
  expect(moveDisplaced(station, [displaced], at(1000))[0]?.to?.startsAt).toBe(at(230));
});

test('where there is no such time it is said', () => {
  const displaced = booking(50, 90, ['p1']);

  expect(moveDisplaced(cabinet({ closures: [closed] }), [displaced], at(139))).toEqual([
    { booking: displaced, to: null },
  ]);
});

test('starts fall on whole minutes, even after a closure that ends between two', () => {
  const displaced = booking(50, 90, ['p1']);
  const station = cabinet({ closures: [{ startsAt: at(0), endsAt: at(100) + 1 }] });

  expect(moveDisplaced(station, [displaced], at(1000))[0]?.to?.startsAt).toBe(at(101));
  expect(
    wholeMinuteStarts([{ firstStart: at(3) + 1, lastStart: at(4) - 1, freePlaces: 1 }]),
  ).toEqual([]);
});

test('on random stations each move fits beside all that came before it, and none could be sooner', () => {
  let moves = 0;
  fc.assert(
    fc.property(
      smallStation,
      fc.subarray([0, 1, 2, 3, 4, 5], { minLength: 1 }),
      (station, which) => {
        const mine = station.bookings.filter(({ placeIds }) => !placeIds.includes('gone'));
        const displaced = mine.filter((_, index) => which.includes(index));
        const others = station.bookings.filter((one) => !displaced.includes(one));

        let bookings = others;
        const found = moveDisplaced({ ...station, bookings }, displaced, at(200));
        expect(found).toHaveLength(displaced.length);
        for (const { booking: moved, to } of found) {
          const times = { ...station, bookings };
          const minutes = (moved.endsAt - moved.startsAt) / 60_000;
          const wish = { ...moved, places: moved.placeIds.length, minutes };
          const search = { from: moved.startsAt, until: at(200), count: 1 };
          expect(to?.startsAt).toBe(nextFreeTimes(times, wish, search)[0]?.firstStart);
          if (to === null) continue;
          moves += 1;
          expect(whyNot(times, wish, to.startsAt)).toBeNull();
          bookings = [...bookings, { ...moved, ...to }];
        }
      },
    ),
    { numRuns: 1_000 },
  );
  expect(moves).toBeGreaterThan(150);
});
