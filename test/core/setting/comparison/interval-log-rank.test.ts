import fc from 'fast-check';
import { anyObservations } from '../any-observations';
import { seededRandom } from '../../../../src/core/random';
import { intervalLogRank } from '../../../../src/core/setting/comparison/interval-log-rank';
import { intervalScores } from '../../../../src/core/setting/comparison/interval-scores';
import type { Group } from '../../../../src/core/setting/comparison/log-rank';
import type { SettingObservation } from '../../../../src/core/setting/observation';
import { drawnTime, lookedAt } from '../regression/simulated-batches';
import { observationsOf, resultsOfKind } from '../reference-cases';

const weighed = (observations: readonly SettingObservation[], scores: readonly number[]) =>
  observations.reduce((sum, { weight = 1 }, i) => sum + weight * scores[i]!, 0);

function tested(groups: Group[], seed = 3, permutations = 999) {
  const answer = intervalLogRank(groups, { permutations, random: seededRandom(seed) });
  if (answer.test.kind !== 'test') throw new Error(answer.test.reason);
  return { ...answer, test: answer.test };
}

const logRankCases = resultsOfKind('logrank')
  .filter(({ result }) => result.rho === 0)
  .map(({ reference, result }) => ({ name: reference.id, reference, result }));

test.each(logRankCases)(
  'on exact times the scores sum to observed less expected in $name',
  ({ reference, result }) => {
    // Source: test/references/survival, survdiff in R's survival 3.5-3.
    const { groups, observed, expected, p, chiSquare } = result.expected;
    const found = tested(
      groups.map((name) => ({
        name,
        observations: observationsOf(reference, result.groupColumn, name),
      })),
    );

    found.groups.forEach(({ score }, g) => {
      expect(score).toBeCloseTo(observed[g]! - expected[g]!, 8);
    });
    // The variances differ where groups are looked at for unequal times, so only about.
    if (result.expected.n.every((n) => n >= 10)) {
      expect(found.test.largeSample.chiSquare / chiSquare).toBeGreaterThan(0.8);
      expect(found.test.largeSample.chiSquare / chiSquare).toBeLessThan(1.25);
      expect(Math.abs(found.test.p - p)).toBeLessThan(0.03);
    }
  },
);

test('the scores of an interval are those found by hand', () => {
  // By hand: two of four in (0, 1], one of the other two in (1, 2], one still setting at 2.
  const observations = [
    { lower: 0, upper: 1, weight: 2 },
    { lower: 1, upper: 2 },
    { lower: 2, upper: null },
  ];
  // Shares set at each step: 2 of 4, 1 of 2.
  const scores = intervalScores(observations);

  // (S(R) A(R) - S(L) A(L)) / (S(L) - S(R)): (0.5 * 0.5 - 0) / 0.5; (0.25 * 1 - 0.25) / 0.25; -1.
  [0.5, 0, -1].forEach((score, i) => expect(scores[i]).toBeCloseTo(score, 9));
});

test('a batch of which all that is known is that it set tells nothing, one set first most', () => {
  const scores = intervalScores([
    { lower: 0, upper: 30 },
    { lower: 1, upper: 1 },
    { lower: 9, upper: 12 },
    { lower: 12, upper: 14 },
  ]);

  expect(scores[0]).toBeCloseTo(0, 8);
  expect(scores[1]).toBeGreaterThan(scores[2]!);
  expect(scores[2]).toBeGreaterThan(scores[3]!);
});

test('scores sum to nothing, and none is above one', () => {
  fc.assert(
    fc.property(anyObservations, (observations) => {
      const scores = intervalScores(observations);

      expect(Math.abs(weighed(observations, scores))).toBeLessThan(1e-6);
      expect(Math.max(...scores)).toBeLessThanOrEqual(1 + 1e-9);
    }),
  );
});

const early = { name: 'early', observations: [{ lower: 2, upper: 4, weight: 9 }] };
const late = { name: 'late', observations: [{ lower: 8, upper: 11, weight: 9 }] };

test('names and order of the groups change nothing but names and order', () => {
  const groups: Group[] = [
    { name: 'a', observations: [3, 5, 6, 9].map((day) => ({ lower: day, upper: day + 2 })) },
    { name: 'b', observations: [4, 7, 8, 12].map((day) => ({ lower: day, upper: day + 3 })) },
    { name: 'c', observations: [6, 9, 11].map((day) => ({ lower: day, upper: null })) },
  ];

  const found = tested(groups, 3, 4999);
  const turned = tested([groups[2]!, groups[0]!, groups[1]!], 3, 4999);

  expect(turned.groups.map(({ name }) => name)).toEqual(['c', 'a', 'b']);
  expect(turned.groups[1]!.score).toBeCloseTo(found.groups[0]!.score, 9);
  expect(turned.test.largeSample.chiSquare).toBeCloseTo(found.test.largeSample.chiSquare, 8);
  expect(found.test.largeSample.degreesOfFreedom).toBe(2);
  expect(Math.abs(turned.test.p - found.test.p)).toBeLessThan(0.03);
});

test('the chance is the share of all dealings that differ as much', () => {
  // By hand: of the 20 dealings of six to three and three, two put the three earliest together.
  const days = (...list: number[]) => list.map((day) => ({ lower: day, upper: day + 1 }));
  const groups = [
    { name: 'early', observations: days(1, 2, 3) },
    { name: 'late', observations: days(6, 7, 8) },
  ];

  const { test, groups: found } = tested(groups, 5, 9999);

  expect(Math.abs(test.p - 0.1)).toBeLessThan(0.01);
  expect(found[0]!.score).toBeGreaterThan(0);
  expect(found[0]!.score).toBeCloseTo(-found[1]!.score, 9);
  expect(test.permutations).toBe(9999);
});

test('groups that never overlap get the smallest chance there is, the same groups the largest', () => {
  expect(tested([early, late]).test.p).toBe(1 / 1000);
  expect(tested([early, late]).groups[0]).toMatchObject({ name: 'early', n: 9 });
  const mixed = [...early.observations, ...late.observations];
  const same = tested([
    { name: 'a', observations: mixed },
    { name: 'b', observations: mixed },
  ]);
  expect(same.test.p).toBe(1);
  expect(same.test.largeSample.chiSquare).toBeCloseTo(0, 9);
});

test('one group, empty groups, or batches all alike are too few to compare', () => {
  const options = { permutations: 99, random: seededRandom(1) };
  const empty = { name: 'empty', observations: [] };

  expect(intervalLogRank([early], options).test).toEqual({
    kind: 'too-few',
    reason: 'fewer than two groups have batches',
  });
  expect(intervalLogRank([early, empty], options).test.kind).toBe('too-few');
  expect(intervalLogRank([], options).groups).toEqual([]);
  expect(intervalLogRank([early, { ...early, name: 'again' }], options)).toMatchObject({
    method: 'log-rank test for intervals, by permutation',
    groups: [
      { name: 'early', n: 9 },
      { name: 'again', n: 9 },
    ],
    test: { kind: 'too-few', reason: 'all batches alike' },
  });
  expect(tested([early, empty, late]).test.largeSample.degreesOfFreedom).toBe(1);
});

test('where groups are alike, about one test in twenty says otherwise', () => {
  // 200 clubs of three sources alike: the count of p <= 0.05 is binomial, 10 expected; beyond 2 to 21
  // less than once in a thousand. The large-sample chance must agree within looser bounds.
  let [byPermutation, byLargeSample] = [0, 0];
  for (let club = 1; club <= 200; club += 1) {
    const random = seededRandom(club);
    const groups = ['a', 'b', 'c'].map((name) => ({
      name,
      observations: Array.from({ length: 10 }, () =>
        lookedAt(random, drawnTime(random, 'weibull', Math.log(14), 0.4), 25),
      ),
    }));
    const { test } = tested(groups, club, 199);
    if (test.p <= 0.05) byPermutation += 1;
    if (test.largeSample.p <= 0.05) byLargeSample += 1;
  }

  expect(byPermutation).toBeGreaterThanOrEqual(2);
  expect(byPermutation).toBeLessThanOrEqual(21);
  expect(byLargeSample).toBeGreaterThanOrEqual(1);
  expect(byLargeSample).toBeLessThanOrEqual(24);
});

test('fewer than 99 permutations are refused', () => {
  for (const permutations of [98, 99.5, NaN]) {
    expect(() => intervalLogRank([early, late], { permutations, random: seededRandom(1) })).toThrow(
      RangeError,
    );
  }
});
