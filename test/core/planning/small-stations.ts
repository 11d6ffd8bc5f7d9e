import fc from 'fast-check';
import type {
  Duty,
  StationBooking,
  StationTimes,
  Wish,
} from '../../../src/core/planning/station-times';

export const MINUTE_MS = 60_000;

/** Minutes after an arbitrary whole minute, as an instant. */
export const at = (minute: number): number => 1_790_000_040_000 + minute * MINUTE_MS;

export const booking = (
  startMinute: number,
  endMinute: number,
  placeIds: string[],
  rest: Partial<StationBooking> = {},
): StationBooking => ({
  placeIds,
  duty: 'warm',
  minC: 38,
  maxC: 42,
  startsAt: at(startMinute),
  endsAt: at(endMinute),
  ...rest,
});

export const closure = (startMinute: number, endMinute: number) => ({
  startsAt: at(startMinute),
  endsAt: at(endMinute),
});

/** A cabinet of three places that needs half an hour to change over. */
export const cabinet = (rest: Partial<StationTimes> = {}): StationTimes => ({
  placeIds: ['p1', 'p2', 'p3'],
  changeoverMinutes: 30,
  bookings: [],
  closures: [],
  dutyWindows: [],
  open: null,
  ...rest,
});

export const wishFor = (rest: Partial<Wish> = {}): Wish => ({
  duty: 'warm',
  minC: 40,
  maxC: 45,
  places: 1,
  minutes: 60,
  ...rest,
});

/** Wishes and stations within about an hour, on whole minutes, with bookings that need not be consistent. */
const duty = fc.constantFrom<Duty>('warm', 'warm', 'warm', 'cool', 'bench');
const band = fc
  .tuple(fc.nat(6), fc.nat(4))
  .map(([low, width]) => ({ minC: 30 + low, maxC: 30 + low + width }));
const span = (longest: number) =>
  fc.tuple(fc.integer({ min: -15, max: 60 }), fc.integer({ min: 1, max: longest }));

export const smallStation: fc.Arbitrary<StationTimes> = fc
  .integer({ min: 1, max: 4 })
  .map((places) => Array.from({ length: places }, (_, index) => `p${index + 1}`))
  .chain((placeIds) =>
    fc.record({
      placeIds: fc.constant(placeIds),
      changeoverMinutes: fc.nat(6),
      bookings: fc.array(
        fc
          .tuple(span(25), duty, band, fc.subarray([...placeIds, 'gone'], { minLength: 1 }))
          .map(([[start, length], bookedDuty, { minC, maxC }, held]) =>
            booking(start, start + length, held, { duty: bookedDuty, minC, maxC }),
          ),
        { maxLength: 6 },
      ),
      closures: fc.array(
        span(8).map(([start, length]) => closure(start, start + length)),
        { maxLength: 2 },
      ),
      dutyWindows: fc.array(
        fc
          .tuple(span(8), duty)
          .map(([[start, length], kept]) => ({ ...closure(start, start + length), duty: kept })),
        { maxLength: 2 },
      ),
      open: fc.option(
        fc
          .uniqueArray(fc.integer({ min: -15, max: 130 }), { maxLength: 8 })
          .map((minutes) => minutes.sort((a, b) => a - b))
          .map((minutes) =>
            minutes.flatMap((minute, index) =>
              index % 2 === 1 ? [closure(minutes[index - 1] ?? minute, minute)] : [],
            ),
          ),
      ),
    }),
  );

export const smallWish: fc.Arbitrary<Wish> = fc
  .tuple(duty, band, fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 20 }))
  .map(([wishedDuty, { minC, maxC }, places, minutes]) => ({
    duty: wishedDuty,
    minC,
    maxC,
    places,
    minutes,
  }));
