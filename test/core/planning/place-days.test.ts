import fc from 'fast-check';
import { placeDaysAhead } from '../../../src/core/planning/place-days';
import { at, MINUTE_MS } from './small-stations';

const days = (count: number) => count * 1440;
const held = (startDay: number, endDay: number, places: number) => ({
  startsAt: at(days(startDay)),
  endsAt: at(days(endDay)),
  places,
});

test('a booking ahead counts its places for all its days', () => {
  expect(placeDaysAhead([held(2, 5, 4)], at(0))).toBe(12);
});

test('of a running booking the rest counts, and one that is over counts nothing', () => {
  expect(placeDaysAhead([held(-1, 1, 3)], at(0))).toBe(3);
  expect(placeDaysAhead([held(-3, 0, 3)], at(0))).toBe(0);
  expect(placeDaysAhead([], at(0))).toBe(0);
});

test('half a day of a place is half a place-day', () => {
  expect(placeDaysAhead([held(1, 1.5, 1), held(3, 3.25, 2)], at(0))).toBe(1);
});

test('it never grows while time goes by, and minute by minute loses what is running', () => {
  const booking = fc
    .tuple(fc.nat(300), fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 9 }))
    .map(([start, length, places]) => ({
      startsAt: at(start),
      endsAt: at(start + length),
      places,
    }));
  fc.assert(
    fc.property(fc.array(booking, { maxLength: 8 }), fc.nat(700), (bookings, minute) => {
      const now = at(minute);
      const running = bookings
        .filter(({ startsAt, endsAt }) => startsAt <= now && now < endsAt)
        .reduce((sum, { places }) => sum + places, 0);
      const lost = placeDaysAhead(bookings, now) - placeDaysAhead(bookings, now + MINUTE_MS);
      expect(lost * 1440).toBeCloseTo(running, 6);
    }),
  );
});

test('a time that is none is refused', () => {
  expect(() => placeDaysAhead([], NaN)).toThrow(RangeError);
});
