import fc from 'fast-check';
import type { SettingObservation } from '../../../src/core/setting/observation';

function anyObservation(
  unit: fc.Arbitrary<number>,
  most: number,
): fc.Arbitrary<SettingObservation> {
  return fc
    .record({
      kind: fc.constantFrom('exact', 'interval', 'left', 'right'),
      lower: unit,
      length: unit,
      weight: fc.oneof(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: most })),
    })
    .map(({ kind, lower, length, weight }) => {
      if (kind === 'exact') return { lower, upper: lower, weight };
      if (kind === 'left') return { lower: 0, upper: length, weight };
      if (kind === 'right') return { lower, upper: null, weight };
      return { lower, upper: lower + length, weight };
    });
}

/** A few observations in whole days up to nine, so that ends often coincide. */
export const anyObservations = fc.array(anyObservation(fc.integer({ min: 1, max: 9 }), 4), {
  minLength: 1,
  maxLength: 14,
});

/** Many observations to the thousandth of a day, some standing for up to a million batches. */
export const unevenObservations = fc.array(
  anyObservation(
    fc.integer({ min: 1, max: 30_000 }).map((thousandths) => thousandths / 1000),
    1_000_000,
  ),
  { minLength: 1, maxLength: 40 },
);
