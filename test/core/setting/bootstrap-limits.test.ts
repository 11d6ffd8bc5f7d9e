import { bootstrapLimits } from '../../../src/core/setting/bootstrap-limits';
import { seededRandom } from '../../../src/core/random';
import { settingTimeQuantile } from '../../../src/core/setting/setting-time-quantile';
import { observationsOf, resultsOfKind, tolerance } from './reference-cases';

const bootstraps = resultsOfKind('turnbull-bootstrap').flatMap(({ reference, result }) =>
  result.expected.groups.map((group) => ({ reference, result, group, name: group.group })),
);

// npsurv 0.5-0 on 4000 resamples a group; it counts an interval as set from its end on, so its upper limits are of the same bound as
// ours, and its lower limits not below ours (test/references/survival).
test.each(bootstraps)('$name: the share not yet set has the published limits', (one) => {
  const { reference, result, group, name } = one;
  const observations = observationsOf(reference, result.groupColumn, name);

  const { survival } = bootstrapLimits(
    observations,
    { setFractions: [], timesDays: group.time },
    { replicates: 600, random: seededRandom(7) },
  );

  const within = tolerance(result, 'limitAbs');
  survival.forEach(({ lower, upper }, index) => {
    expect(Math.abs(upper - group.upper95[index]!)).toBeLessThanOrEqual(within);
    expect(lower).toBeLessThanOrEqual(group.lower95[index]! + within);
    expect(lower).toBeLessThanOrEqual(group.estimate[index]!);
  });
});

test('where every batch was seen at the moment it set, limits are those of a share of batches', () => {
  // 40 of 100 had set by day 5: by the normal approximation 0.6 -+ 1.96 sqrt(0.6 x 0.4 / 100).
  const observations = [
    { lower: 5, upper: 5, weight: 40 },
    { lower: 9, upper: 9, weight: 60 },
  ];

  const { survival } = bootstrapLimits(
    observations,
    { setFractions: [], timesDays: [4, 5, 9] },
    { replicates: 2000, random: seededRandom(3) },
  );

  expect(survival[0]).toEqual({ lower: 1, upper: 1 });
  expect(survival[1]?.lower).toBeCloseTo(0.6 - 1.96 * 0.049, 1);
  expect(survival[1]?.upper).toBeCloseTo(0.6 + 1.96 * 0.049, 1);
  expect(survival[2]).toEqual({ lower: 0, upper: 0 });
});

test('the same resamples give the limits that a quantile asked for alone has', () => {
  const observations = [3, 5, 6, 8, 8, 9, 12].map((upper) => ({ lower: upper - 2, upper }));
  const alone = settingTimeQuantile(observations, {
    setFraction: 0.8,
    replicates: 200,
    random: seededRandom(11),
  });

  const { quantiles } = bootstrapLimits(
    observations,
    { setFractions: [0.5, 0.8], timesDays: [4] },
    { replicates: 200, random: seededRandom(11) },
  );

  expect(alone).toMatchObject({ kind: 'estimate', confidence: quantiles[1] });
});

test('times out of order, or before the seeding, are refused', () => {
  const limits = (timesDays: number[]) =>
    bootstrapLimits(
      [{ lower: 1, upper: 2 }],
      { setFractions: [], timesDays },
      { replicates: 1, random: seededRandom(1) },
    );

  expect(() => limits([3, 2])).toThrow(RangeError);
  expect(() => limits([-1])).toThrow(RangeError);
});
