import fc from 'fast-check';
import { longestStay } from '../../../src/core/planning/longest-stay';
import { freeOnGrid, STEP_MS } from './grid-oracle';
import { at, booking, cabinet, closure, smallStation, smallWish } from './small-stations';

const stay = booking(0, 60, ['p1', 'p2']);

test.each([
  ['nothing else goes on', cabinet(), 200],
  ['another place is booked', cabinet({ bookings: [booking(60, 90, ['p3'])] }), 200],
  ['one of its places is booked later', cabinet({ bookings: [booking(100, 120, ['p2'])] }), 100],
  ['a closure comes first', cabinet({ closures: [closure(80, 90)] }), 80],
  [
    'the station is kept for another duty',
    cabinet({ dutyWindows: [{ ...closure(85, 99), duty: 'cool' }] }),
    85,
  ],
  [
    'it is kept for this duty',
    cabinet({ dutyWindows: [{ ...closure(0, 99), duty: 'warm' }] }),
    200,
  ],
  [
    'another duty comes, which needs half an hour to change over',
    cabinet({ bookings: [booking(120, 180, ['p3'], { duty: 'cool', minC: 10, maxC: 12 })] }),
    90,
  ],
  [
    'other temperatures come',
    cabinet({ bookings: [booking(120, 180, ['p3'], { minC: 50, maxC: 55 })] }),
    120,
  ],
])('when %s', (_, station, latestMinute) => {
  expect(longestStay(station, stay, at(200))).toBe(at(latestMinute));
});

test('none when somebody else has a place from its end', () => {
  expect(longestStay(cabinet({ bookings: [booking(60, 90, ['p1'])] }), stay, at(200))).toBeNull();
});

test('none when the caller looks no further than its end', () => {
  expect(longestStay(cabinet(), stay, at(60))).toBeNull();
});

test('is the longest for which the places are free, whatever else is booked', () => {
  fc.assert(
    fc.property(
      smallStation,
      smallWish,
      fc.integer({ min: 0, max: 40 }),
      (atHours, wish, start) => {
        const station = { ...atHours, open: null };
        const placeIds = station.placeIds.slice(0, wish.places);
        const { duty, minC, maxC } = wish;
        const held = {
          duty,
          minC,
          maxC,
          placeIds,
          startsAt: at(start),
          endsAt: at(start + wish.minutes),
        };
        const until = at(100);

        const longest = longestStay(station, held, until);

        const lasts = (endsAt: number): boolean => {
          const whole = { ...wish, minutes: (endsAt - held.startsAt) / 60_000 };
          const free = freeOnGrid(station, whole, held.startsAt) ?? [];
          return placeIds.every((placeId) => free.includes(placeId));
        };
        if (longest === null) expect(lasts(held.endsAt + STEP_MS)).toBe(false);
        else {
          expect(lasts(longest)).toBe(true);
          if (longest < until) expect(lasts(longest + STEP_MS)).toBe(false);
        }
      },
    ),
    { numRuns: 300 },
  );
});
