import fc from 'fast-check';
import { nextLook } from '../../../src/core/batches/next-look';

const day = 86_400_000;
const seededAt = Date.UTC(2026, 2, 27, 9);
const after = (days: number) => seededAt + days * day;
const daysOf = (at: number) => (at - seededAt) / day;
const next = (lastDays: number | null, expectedDays: number | null) =>
  daysOf(
    nextLook(
      seededAt,
      lastDays === null ? null : after(lastDays),
      expectedDays === null ? null : after(expectedDays),
    ),
  );

test.each([
  // Nothing forecast: from the fifth day, every third day.
  [null, null, 5],
  [1, null, 5],
  [5, null, 8],
  [8.25, null, 11.25],
  // Expected on day 14: daily from day 12 until day 19.
  [null, 14, 5],
  [8, 14, 11],
  [11, 14, 12],
  [12, 14, 13],
  [18, 14, 19],
  [19, 14, 22],
  // Expected early: the first look comes before the fifth day, but never on the day of the seeding.
  [null, 4, 2],
  [null, 1, 1],
])(
  'after a look on day %p, expected on day %p, the next is due on day %p',
  (last, expected, due) => {
    expect(next(last, expected)).toBe(due);
  },
);

test('the next look comes after the last one, within three days or on the fifth, and a forecast never puts it off', () => {
  const lasts = fc.option(fc.double({ min: 0, max: 200, noNaN: true }));
  fc.assert(
    fc.property(lasts, fc.double({ min: 0, max: 200, noNaN: true }), (last, expected) => {
      const due = next(last, expected);
      expect(due).toBeGreaterThan(last ?? 0);
      expect(due).toBeLessThanOrEqual(next(last, null) + 1e-6);
      expect(due).toBeLessThanOrEqual(Math.max(5, (last ?? 0) + 3) + 1e-6);
    }),
  );
});
