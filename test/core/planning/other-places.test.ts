import fc from 'fast-check';
import { otherPlaces } from '../../../src/core/planning/other-places';
import { at, booking, cabinet, smallStation } from './small-stations';

test('a booking keeps those of its places that remain, and gets others for the rest', () => {
  const displaced = booking(0, 60, ['p3', 'gone']);

  expect(otherPlaces(cabinet(), [displaced])).toEqual([
    { booking: displaced, placeIds: ['p3', 'p1'] },
  ]);
});

test('whoever begins first chooses first, and none gets what another took', () => {
  const first = booking(0, 60, ['gone']);
  const second = booking(30, 90, ['gone', 'p1']);
  const third = booking(59, 70, ['gone']);
  const fourth = booking(60, 70, ['gone']);

  const found = otherPlaces(cabinet({ bookings: [] }), [fourth, third, second, first]);

  expect(found.map(({ booking: one, placeIds }) => [one, placeIds])).toEqual([
    [first, ['p1']],
    [second, ['p2', 'p3']],
    [third, null],
    [fourth, ['p1']],
  ]);
});

test('where too few are free for the whole time it is said', () => {
  const displaced = booking(0, 60, ['gone', 'p1']);
  const others = [booking(-10, 1, ['p1', 'p2']), booking(59, 61, ['p3'])];

  expect(otherPlaces(cabinet({ bookings: others }), [displaced])).toEqual([
    { booking: displaced, placeIds: null },
  ]);
});

test('a booking of broken minutes is refused', () => {
  const odd = { ...booking(0, 60, ['gone']), endsAt: at(60) + 1 };

  expect(() => otherPlaces(cabinet(), [odd])).toThrow(RangeError);
});

test('on random stations all that get places stand beside each other, each on as many as it had', () => {
  let given = 0;
  fc.assert(
    fc.property(smallStation, (station) => {
      const displaced = station.bookings.filter(({ placeIds }) => placeIds.includes('gone'));
      const others = station.bookings.filter((one) => !displaced.includes(one));

      const found = otherPlaces({ ...station, bookings: others }, displaced);

      expect(found.map((one) => one.booking).sort(byStart)).toEqual([...displaced].sort(byStart));
      for (const { booking: one, placeIds } of found) {
        if (placeIds === null) continue;
        given += 1;
        expect(new Set(placeIds).size).toBe(one.placeIds.length);
        for (const placeId of placeIds) {
          expect(station.placeIds).toContain(placeId);
          const beside = [
            ...others.filter((other) => other.placeIds.includes(placeId)),
            ...found.filter((other) => other.placeIds?.includes(placeId)).map((o) => o.booking),
          ].filter((other) => other !== one);
          for (const other of beside) {
            expect(other.endsAt <= one.startsAt || one.endsAt <= other.startsAt).toBe(true);
          }
        }
      }
    }),
    { numRuns: 1_000 },
  );
  expect(given).toBeGreaterThan(150);
});

function byStart(one: { startsAt: number }, other: { startsAt: number }): number {
  return one.startsAt - other.startsAt;
}
