import fc from 'fast-check';
import type { Duty, StationTimes } from '../../../src/core/planning/station-times';
import { placesOrWhyNot, whyNot } from '../../../src/core/planning/why-not';
import { freeOnGrid, STEP_MS } from './grid-oracle';
import { at, booking, cabinet, closure, smallStation, smallWish, wishFor } from './small-stations';

const ALL = ['p1', 'p2', 'p3'];

describe('closures', () => {
  test('a station closed for one minute of the wish is closed to it', () => {
    const cleaning = closure(59, 90);

    expect(whyNot(cabinet({ closures: [cleaning] }), wishFor(), at(0))).toEqual({
      reason: 'closed',
      closures: [cleaning],
    });
  });

  test('a wish may end the minute a closure begins and start the minute it ends', () => {
    const station = cabinet({ closures: [closure(60, 90)] });

    expect(whyNot(station, wishFor(), at(0))).toBeNull();
    expect(whyNot(station, wishFor(), at(90))).toBeNull();
    expect(whyNot(station, wishFor(), at(89))?.reason).toBe('closed');
  });
});

describe('a room that is not always open', () => {
  // Open for the first hour, and for an hour four hours later.
  const station = cabinet({ open: [closure(0, 60), closure(240, 300)] });
  const reason = (startMinute: number, minutes: number, duty: Duty = 'warm') =>
    whyNot(station, wishFor({ minutes, duty }), at(startMinute))?.reason;

  test('lets a wish start at its opening, and up to a minute before its closing', () => {
    expect(reason(0, 250)).toBeUndefined();
    expect(reason(59, 200)).toBeUndefined();
    expect(reason(60, 200)).toBe('room-closed');
    expect(reason(-1, 250)).toBe('room-closed');
  });

  test('lets a wish end at the moment of opening or of closing, and in between', () => {
    expect(reason(0, 240)).toBeUndefined();
    expect(reason(0, 239)).toBe('room-closed');
    expect(reason(0, 60)).toBeUndefined();
    expect(reason(0, 61)).toBe('room-closed');
    expect(reason(240, 60)).toBeUndefined();
    expect(reason(241, 60)).toBe('room-closed');
  });

  test('is open all the while that somebody stands at the bench', () => {
    expect(reason(0, 60, 'bench')).toBeUndefined();
    expect(reason(240, 30, 'bench')).toBeUndefined();
    expect(reason(30, 240, 'bench')).toBe('room-closed');
  });

  test('that never opens has room for nothing', () => {
    expect(whyNot(cabinet({ open: [] }), wishFor(), at(0))).toEqual({ reason: 'room-closed' });
  });
});

describe('duty windows', () => {
  const cooling = { ...closure(100, 200), duty: 'cool' as const };
  const station = cabinet({ dutyWindows: [cooling] });

  test('keep another duty out, from their first to their last minute, without changeover', () => {
    expect(whyNot(station, wishFor(), at(40))).toBeNull();
    expect(whyNot(station, wishFor(), at(41))).toEqual({
      reason: 'duty-window',
      dutyWindows: [cooling],
    });
    expect(whyNot(station, wishFor(), at(199))?.reason).toBe('duty-window');
    expect(whyNot(station, wishFor(), at(200))).toBeNull();
  });

  test('are no hindrance to the duty that they are for', () => {
    expect(whyNot(station, wishFor({ duty: 'cool' }), at(90))).toBeNull();
  });
});

describe('another duty', () => {
  const cooling = booking(200, 300, ['p1'], { duty: 'cool', minC: 10, maxC: 14 });
  const station = cabinet({ bookings: [cooling] });

  test('keeps its distance by the changeover, before and after', () => {
    expect(whyNot(station, wishFor(), at(110))).toBeNull();
    expect(whyNot(station, wishFor(), at(111))).toEqual({
      reason: 'other-duty',
      bookings: [cooling],
    });
    expect(whyNot(station, wishFor(), at(329))?.reason).toBe('other-duty');
    expect(whyNot(station, wishFor(), at(330))).toBeNull();
  });

  test('stands in the way even when it holds no place of the wish and would agree in temperature', () => {
    const bench = booking(0, 60, [], { duty: 'bench', minC: 40, maxC: 45 });

    expect(whyNot(cabinet({ bookings: [bench] }), wishFor(), at(0))?.reason).toBe('other-duty');
  });

  test('without a changeover may follow at once', () => {
    const quick = cabinet({ bookings: [cooling], changeoverMinutes: 0 });

    expect(whyNot(quick, wishFor(), at(140))).toBeNull();
    expect(whyNot(quick, wishFor(), at(300))).toBeNull();
    expect(whyNot(quick, wishFor(), at(299))?.reason).toBe('other-duty');
  });
});

describe('temperature', () => {
  test('a band that ends where the other begins shares that one temperature', () => {
    const station = cabinet({ bookings: [booking(0, 60, ['p1'], { minC: 35, maxC: 40 })] });

    expect(whyNot(station, wishFor({ minC: 40, maxC: 45 }), at(0))).toBeNull();
  });

  test('bands without a common temperature cannot share a station, and all such bookings are named', () => {
    const milder = booking(0, 60, ['p1'], { minC: 35, maxC: 39.5 });
    const hotter = booking(30, 90, ['p2'], { minC: 46, maxC: 50 });
    const agreeing = booking(0, 90, ['p3']);
    const station = cabinet({ bookings: [milder, agreeing, hotter] });

    expect(whyNot(station, wishFor(), at(0))).toEqual({
      reason: 'temperature',
      bookings: [milder, hotter],
    });
  });

  test('what is over by then has no say in the temperature, and the same duty needs no changeover', () => {
    const station = cabinet({ bookings: [booking(0, 60, ALL, { minC: 20, maxC: 25 })] });

    expect(whyNot(station, wishFor(), at(60))).toBeNull();
  });
});

describe('places', () => {
  test('must be free for the whole time, not by turns', () => {
    // At any instant two places are free, but only p3 all the time.
    const early = booking(0, 30, ['p1']);
    const late = booking(30, 60, ['p2']);
    const station = cabinet({ bookings: [early, late] });

    expect(whyNot(station, wishFor({ places: 2 }), at(0))).toEqual({
      reason: 'places',
      bookings: [early, late],
      freePlaces: 1,
    });
    expect(whyNot(station, wishFor({ places: 1 }), at(0))).toBeNull();
  });

  test('more than the station has are never free', () => {
    expect(whyNot(cabinet(), wishFor({ places: 4 }), at(0))).toEqual({
      reason: 'places',
      bookings: [],
      freePlaces: 3,
    });
  });

  test('bookings come back as the very objects given, whatever else is on them', () => {
    const held = { ...booking(0, 60, ALL), bookingId: 'b1' };
    const answer = whyNot({ ...cabinet(), bookings: [held], closures: [] }, wishFor(), at(0));

    expect(answer?.reason === 'places' && answer.bookings[0]).toBe(held);
  });
});

test('a closed room is named before a closure, a closure before a duty, a duty before a temperature, a temperature before places', () => {
  const closed = closure(0, 60);
  const cooling = booking(0, 60, ['p1'], { duty: 'cool' });
  const milder = booking(0, 60, ['p2'], { minC: 20, maxC: 25 });
  const full = booking(0, 60, ALL);

  const kept = { ...closed, duty: 'cool' as const };
  const reason = (bookings: (typeof full)[], rest: Partial<StationTimes> = {}) =>
    whyNot(cabinet({ bookings, ...rest }), wishFor(), at(0))?.reason;

  const closures = [closed];
  expect(reason([full], { open: [], closures, dutyWindows: [kept] })).toBe('room-closed');
  expect(reason([full], { closures, dutyWindows: [kept] })).toBe('closed');
  expect(reason([full, cooling], { dutyWindows: [kept] })).toBe('duty-window');
  expect(reason([full, milder, cooling], { closures })).toBe('closed');
  expect(reason([full, milder, cooling])).toBe('other-duty');
  expect(reason([full, milder])).toBe('temperature');
  expect(reason([full])).toBe('places');
});

test('a wish that fits is answered with its places, one that does not with the reason', () => {
  const station = cabinet({ bookings: [booking(0, 60, ['p1'])] });

  expect(placesOrWhyNot(station, wishFor({ places: 2 }), at(0))).toEqual({
    fits: true,
    placeIds: ['p2', 'p3'],
  });
  expect(placesOrWhyNot(station, wishFor({ places: 3 }), at(0))).toMatchObject({
    fits: false,
    whyNot: { reason: 'places', freePlaces: 2 },
  });
});

test('on random stations it fits exactly when half minute by half minute nothing is in the way', () => {
  const seen = new Map<string, number>();
  fc.assert(
    fc.property(smallStation, smallWish, fc.nat(140), (station, wish, steps) => {
      const start = at(-10) + steps * STEP_MS;
      const free = freeOnGrid(station, wish, start);
      const answer = placesOrWhyNot(station, wish, start);

      expect(answer.fits).toBe(free !== null && free.length >= wish.places);
      const reason = answer.fits ? 'fits' : answer.whyNot.reason;
      seen.set(reason, (seen.get(reason) ?? 0) + 1);
      if (answer.fits) {
        expect(new Set(answer.placeIds).size).toBe(wish.places);
        expect(free).toEqual(expect.arrayContaining([...answer.placeIds]));
      } else if (answer.whyNot.reason === 'places') {
        expect(answer.whyNot.freePlaces).toBe(free?.length);
      }
    }),
    { numRuns: 3_000 },
  );
  for (const reason of [
    'fits',
    'room-closed',
    'closed',
    'duty-window',
    'other-duty',
    'temperature',
    'places',
  ]) {
    expect(seen.get(reason)).toBeGreaterThan(50);
  }
});

describe('nonsense is refused', () => {
  test.each([
    ['no places', { places: 0 }, /^places must be/],
    ['half a place', { places: 1.5 }, /^places must be/],
    ['no time', { minutes: 0 }, /^minutes must be/],
    ['a time that is no number', { minutes: NaN }, /^minutes must be/],
    ['a band upside down', { minC: 45, maxC: 40 }, /^the wish's minC must be at most its maxC/],
    ['a band that is no number', { maxC: NaN }, /^the wish's minC/],
  ])('a wish for %s', (_what, rest, message) => {
    expect(() => whyNot(cabinet(), wishFor(rest), at(0))).toThrow(message);
  });

  test.each([
    [
      'a booking that ends as it starts',
      { bookings: [booking(5, 5, ['p1'])] },
      /endsAt must be after/,
    ],
    ['a closure that ends before it starts', { closures: [closure(5, 4)] }, /endsAt must be after/],
    [
      'a closure without end',
      { closures: [{ startsAt: 0, endsAt: Infinity }] },
      /endsAt must be an instant/,
    ],
    ['a negative changeover', { changeoverMinutes: -1 }, /^changeoverMinutes must be/],
  ])('a station with %s', (_what, rest, message) => {
    expect(() => whyNot(cabinet(rest), wishFor(), at(0))).toThrow(message);
  });

  test('a start that is no instant', () => {
    expect(() => whyNot(cabinet(), wishFor(), NaN)).toThrow(/^startsAt must be an instant/);
  });
});
