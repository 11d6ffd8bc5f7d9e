import fc from 'fast-check';
import type { SettingObservation } from '../../../src/core/setting/observation';
import { survivalAt } from '../../../src/core/setting/survival-at';
import { fitTurnbull, type TurnbullFit } from '../../../src/core/setting/turnbull';
import { anyObservations, unevenObservations } from './any-observations';
import {
  cellsOf,
  gradientOf,
  massesByExpectation,
  probabilitiesOf,
} from './turnbull-by-expectation';

const runs = { numRuns: 400 };

function expectSameMasses(fit: TurnbullFit, other: TurnbullFit, unit = 1) {
  expect(other.intervals).toHaveLength(fit.intervals.length);
  fit.intervals.forEach(({ left, right, mass }, i) => {
    const { left: otherLeft, right: otherRight, mass: otherMass } = other.intervals[i]!;
    expect(otherLeft).toBeCloseTo(left * unit, 9);
    expect(otherRight).toEqual(right === null ? null : right * unit);
    expect(otherMass).toBeCloseTo(mass, 8);
  });
}

test('two batches known to have set in overlapping times set where the times overlap', () => {
  const fit = fitTurnbull([
    { lower: 2, upper: 6 },
    { lower: 4, upper: 9 },
  ]);

  expect(fit.intervals).toEqual([{ left: 4, right: 6, mass: 1 }]);
  expect(fit.logLik).toBeCloseTo(0, 12);
});

test('a look at day 2 that ends one interval and begins another keeps them apart', () => {
  const fit = fitTurnbull([
    { lower: 1, upper: 2 },
    { lower: 2, upper: 3 },
  ]);

  expect(fit.intervals.map(({ left, right }) => [left, right])).toEqual([
    [1, 2],
    [2, 3],
  ]);
});

test('without any observation nothing is known of any time', () => {
  const fit = fitTurnbull([]);

  expect(fit.n).toBe(0);
  expect(survivalAt(fit, 0)).toEqual({ lower: 1, upper: 1 });
  expect(survivalAt(fit, 1000)).toEqual({ lower: 0, upper: 1 });
});

test('an observation that cannot be true is refused', () => {
  expect(() => fitTurnbull([{ lower: 5, upper: 4 }])).toThrow(RangeError);
});

test('the order in which batches are listed does not matter', () => {
  const shuffled = anyObservations.chain((observations) =>
    fc.tuple(
      fc.constant(observations),
      fc.shuffledSubarray(observations, { minLength: observations.length }),
    ),
  );
  fc.assert(
    fc.property(shuffled, ([observations, otherOrder]) => {
      const fit = fitTurnbull(observations);
      const other = fitTurnbull(otherOrder);

      expectSameMasses(fit, other);
      expect(other.logLik).toBeCloseTo(fit.logLik, 9);
    }),
    runs,
  );
});

test('counting in hours instead of days changes nothing but the unit', () => {
  fc.assert(
    fc.property(anyObservations, (observations) => {
      const inHours = observations.map((observation) => ({
        ...observation,
        lower: observation.lower * 24,
        upper: observation.upper === null ? null : observation.upper * 24,
      }));

      expectSameMasses(fitTurnbull(observations), fitTurnbull(inHours), 24);
    }),
    runs,
  );
});

test('listing every batch twice leaves the masses and doubles the log-likelihood', () => {
  fc.assert(
    fc.property(anyObservations, (observations) => {
      const fit = fitTurnbull(observations);
      const twice = fitTurnbull([...observations, ...observations]);

      expectSameMasses(fit, twice);
      expect(twice.logLik).toBeCloseTo(2 * fit.logLik, 8);
      expect(twice.n).toBe(2 * fit.n);
    }),
    runs,
  );
});

test('a weight of three is the batch listed three times', () => {
  fc.assert(
    fc.property(anyObservations, (observations) => {
      const listed = observations.flatMap(({ lower, upper, weight = 1 }) =>
        Array.from({ length: weight }, () => ({ lower, upper })),
      );

      expectSameMasses(fitTurnbull(observations), fitTurnbull(listed));
    }),
    runs,
  );
});

test('masses are above zero and sum to one', () => {
  fc.assert(
    fc.property(anyObservations, (observations) => {
      const masses = fitTurnbull(observations).intervals.map(({ mass }) => mass);

      expect(Math.min(...masses)).toBeGreaterThan(0);
      expect(masses.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    }),
    runs,
  );
});

/** The masses of a fit, each in the last cell that its interval holds. */
function massesInCells(fit: TurnbullFit, observations: readonly SettingObservation[]): number[] {
  return cellsOf(observations).cells.map(({ from, to }) =>
    fit.intervals
      .filter(({ left, right }) =>
        right === null ? from === left && to === Infinity : from === right && to === right,
      )
      .reduce((sum, { mass }) => sum + mass, 0),
  );
}

test.each([
  ['of a few batches in whole days', anyObservations],
  ['of many batches at any time, very unevenly weighted', unevenObservations],
])('%s, no distribution whatever on the time line is more likely', (_, anyOf) => {
  // By concavity no other log-likelihood exceeds this one by more than the excess of the gradient.
  fc.assert(
    fc.property(anyOf, (observations) => {
      const fit = fitTurnbull(observations);
      const table = cellsOf(observations);
      const masses = massesInCells(fit, observations);
      const logLik = probabilitiesOf(table, masses).reduce(
        (sum, probability, i) => sum + table.weights[i]! * Math.log(probability),
        0,
      );

      expect(fit.kktMaxViolation).toBeLessThan(1e-8);
      expect(Math.max(...gradientOf(table, masses)) - table.n).toBeLessThan(1e-8 * table.n);
      expect(Math.abs(logLik - fit.logLik)).toBeLessThan(1e-9 * (1 + table.n));
    }),
    runs,
  );
});

test('a plain expectation-maximization over all cells of the time line comes to the same curve', () => {
  fc.assert(
    fc.property(anyObservations, (observations) => {
      const fit = fitTurnbull(observations);
      const table = cellsOf(observations);
      const masses = massesByExpectation(table, 1500);

      for (const end of new Set(table.cells.map(({ from }) => from))) {
        const unset = table.cells.reduce(
          (sum, { to }, j) => (to > end ? sum + masses[j]! : sum),
          0,
        );
        expect(Math.abs(survivalAt(fit, end).upper - unset)).toBeLessThan(5e-3);
      }
    }),
    { numRuns: 300 },
  );
});
