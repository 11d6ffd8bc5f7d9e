import { choosePlaces } from '../../../src/core/planning/choose-places';
import { at, booking, cabinet, wishFor } from './small-stations';

test('in an empty station the first places are given', () => {
  expect(choosePlaces(cabinet(), wishFor({ places: 2 }), at(0))).toEqual(['p1', 'p2']);
});

test('a place with a neighbouring booking is given before an untouched one', () => {
  const station = cabinet({ bookings: [booking(-500, -400, ['p3'])] });

  expect(choosePlaces(station, wishFor({ places: 2 }), at(0))).toEqual(['p3', 'p1']);
});

test('the gap that the wish fills best is used first, and the longest free run is kept whole', () => {
  // Wish 0 to 60. Idle: p1 60 + 30 minutes, p2 none at all, p3 20 minutes before and open behind.
  const station = cabinet({
    bookings: [
      booking(-90, -60, ['p1']),
      booking(90, 120, ['p1']),
      booking(-30, 0, ['p2']),
      booking(60, 120, ['p2']),
      booking(-50, -20, ['p3']),
    ],
  });

  expect(choosePlaces(station, wishFor({ places: 3 }), at(0))).toEqual(['p2', 'p1', 'p3']);
  expect(choosePlaces(station, wishFor({ places: 1 }), at(0))).toEqual(['p2']);
});

test('only the nearest booking on each side is a neighbour', () => {
  const station = cabinet({
    bookings: [
      booking(-300, -200, ['p1', 'p2']),
      booking(-20, -10, ['p2']),
      booking(100, 110, ['p1', 'p2']),
      booking(900, 910, ['p1', 'p2']),
    ],
  });

  expect(choosePlaces(station, wishFor({ places: 2 }), at(0))).toEqual(['p2', 'p1']);
});

test('a moved booking keeps the places it had, where they are free, in its own order', () => {
  const station = cabinet({ bookings: [booking(60, 90, ['p1']), booking(0, 30, ['p4'])] });
  const four = { ...station, placeIds: ['p1', 'p2', 'p3', 'p4'] };

  expect(choosePlaces(four, wishFor({ places: 2 }), at(0), ['p4', 'p3'])).toEqual(['p3', 'p1']);
  expect(choosePlaces(four, wishFor({ places: 2 }), at(0), ['p3', 'p2'])).toEqual(['p3', 'p2']);
  expect(choosePlaces(four, wishFor({ places: 1 }), at(0), ['gone'])).toEqual(['p1']);
});

test('when too few places are free none is given', () => {
  const station = cabinet({ bookings: [booking(59, 60, ['p1', 'p2'])] });

  expect(choosePlaces(station, wishFor({ places: 1 }), at(0))).toEqual(['p3']);
  expect(choosePlaces(station, wishFor({ places: 2 }), at(0))).toBeNull();
});
