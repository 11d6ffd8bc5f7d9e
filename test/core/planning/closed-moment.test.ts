import fc from 'fast-check';
import { closedMoment } from '../../../src/core/planning/closed-moment';
import { whyNot } from '../../../src/core/planning/why-not';
import { at, cabinet, closure, smallStation, smallWish, wishFor } from './small-stations';

// Open for the first hour, and for an hour four hours later.
const open = [closure(0, 60), closure(240, 300)];

test('a start before the opening names that opening, a start at the closing the next one', () => {
  expect(closedMoment(open, wishFor(), at(-30))).toEqual({
    part: 'start',
    closedAt: at(-30),
    opensNext: open[0],
  });
  expect(closedMoment(open, wishFor(), at(60))).toMatchObject({
    part: 'start',
    opensNext: open[1],
  });
});

test('an end when nobody can come in names the opening after it', () => {
  expect(closedMoment(open, wishFor({ minutes: 100 }), at(0))).toEqual({
    part: 'end',
    closedAt: at(100),
    opensNext: open[1],
  });
  expect(closedMoment(open, wishFor({ minutes: 400 }), at(0))).toMatchObject({
    part: 'end',
    opensNext: null,
  });
});

test('whoever stands at the bench is told when the room closes over them', () => {
  expect(closedMoment(open, wishFor({ minutes: 250, duty: 'bench' }), at(0))).toEqual({
    part: 'between',
    closedAt: at(60),
    opensNext: open[1],
  });
});

test('there is such a moment exactly when the room is why a wish does not fit', () => {
  fc.assert(
    fc.property(
      smallStation,
      smallWish,
      fc.integer({ min: -20, max: 130 }),
      (station, wish, start) => {
        const { open: times } = station;
        if (times === null) return;
        const isClosed =
          whyNot(cabinet({ open: times }), wish, at(start))?.reason === 'room-closed';
        expect(closedMoment(times, wish, at(start)) !== null).toBe(isClosed);
      },
    ),
    { numRuns: 2_000 },
  );
});
