import { kaplanMeier } from '../../../../src/core/setting/comparison/kaplan-meier';
import { logRank } from '../../../../src/core/setting/comparison/log-rank';
import { restrictedMean } from '../../../../src/core/setting/comparison/restricted-mean';
import { survivalLimits } from '../../../../src/core/setting/comparison/survival-limits';
import { survivalQuantile } from '../../../../src/core/setting/comparison/survival-quantile';
import { observationsOf, resultsOfKind, tolerance } from '../reference-cases';

// Source of every expected number: test/references/survival, R 4.2.2, survival 3.5-3, at the
// tolerances stated there.

const groups = resultsOfKind('kaplan-meier').flatMap(({ reference, result }) =>
  result.expected.groups.map((expected) => ({
    name: `${reference.id}, ${result.groupColumn ?? 'all rows'}: ${expected.group}`,
    observations: observationsOf(reference, result.groupColumn, expected.group),
    result,
    expected,
  })),
);

const scales = [
  ['log', 'log'],
  ['loglog', 'log-log'],
  ['plain', 'plain'],
] as const;

function expectAll(
  values: readonly (number | null)[],
  expected: readonly (number | null)[],
  within: number,
) {
  expect(values).toHaveLength(expected.length);
  values.forEach((value, i) => {
    const other = expected[i] ?? null;
    if (value === null || other === null) expect(value).toBe(other);
    else expect(Math.abs(value - other)).toBeLessThanOrEqual(within * (1 + Math.abs(other)));
  });
}

describe.each(groups)('the Kaplan-Meier curve of $name', (group) => {
  const { observations, result, expected } = group;
  const curve = kaplanMeier(observations);
  const within = tolerance(result, 'abs');

  test('has the same times, counts, shares and errors', () => {
    const of = <K extends keyof (typeof curve.steps)[number]>(key: K) =>
      curve.steps.map((step) => step[key]);
    expect([curve.n, curve.setCount]).toEqual([expected.n, expected.events]);
    expect(of('atRisk')).toEqual(expected.nRisk);
    expect(of('setCount')).toEqual(expected.nEvent);
    expect(of('censoredCount')).toEqual(expected.nCensor);
    expectAll(of('time'), expected.time, within);
    expectAll(of('survival'), expected.survival, within);
    expectAll(of('standardError'), expected.stdErrSurvival, within);
    expectAll(of('logStandardError'), expected.stdErrLogSurvival, within);
    expectAll(of('cumulativeHazard'), expected.cumulativeHazardNelsonAalen, within);
  });

  test.each(scales)('has the same %s limits', (name, scale) => {
    const { confLevel } = result;
    const limits = survivalLimits(curve, { confidenceLevel: confLevel, scale });

    expectAll(limits.lower, expected.ci[name].lower, within);
    expectAll(limits.upper, expected.ci[name].upper, within);
  });

  test.each(scales)('has the same quantiles with %s limits', (name, scale) => {
    const { p, estimate, ci, plateauToEnd } = expected.quantiles;
    const found = p.map((share) =>
      survivalQuantile(curve, share, { confidenceLevel: result.confLevel, scale }),
    );

    // Where the curve stays at the share to its end, R is not of one mind: see the README there.
    const settled = (_: unknown, i: number) => plateauToEnd[i] === false;
    expectAll(found.map(({ time }) => time).filter(settled), estimate.filter(settled), within);
    expectAll(
      found.map(({ lower }) => lower),
      ci[name].lower,
      within,
    );
    expectAll(
      found.map(({ upper }) => upper),
      ci[name].upper,
      within,
    );
  });

  test('has the same restricted mean and printed median', () => {
    const { tau, mean, se } = expected.restrictedMean;
    const found = restrictedMean(curve, tau);

    expectAll([found.mean, found.standardError], [mean, se], within);
    const { time, lower, upper } = survivalQuantile(curve, 0.5, {
      confidenceLevel: result.confLevel,
      scale: 'log',
    });
    const { median, ciLogLower, ciLogUpper } = expected.printedMedian;
    expectAll([time, lower, upper], [median, ciLogLower, ciLogUpper], within);
  });
});

const tests = resultsOfKind('logrank').map(({ reference, result }) => ({
  name: `${reference.id}, rho ${result.rho}`,
  reference,
  result,
}));

test.each(tests)('the test of equal setting is the same in $name', ({ reference, result }) => {
  const { expected } = result;
  const rel = tolerance(result, 'rel');
  const near = (values: readonly number[], others: readonly number[]) =>
    expectAll(values, others, rel);

  const found = logRank(
    expected.groups.map((name) => ({
      name,
      observations: observationsOf(reference, result.groupColumn, name),
    })),
    result.rho === 0 ? 'log-rank' : 'Peto-Peto',
  );

  near(
    found.groups.map(({ n }) => n),
    expected.n,
  );
  near(
    found.groups.map(({ observed }) => observed),
    expected.observed,
  );
  near(
    found.groups.map((group) => group.expected),
    expected.expected,
  );
  near(found.covariance.flat(), expected.variance.flat());
  if (found.test.kind !== 'test') throw new Error(found.test.reason);
  expect(Math.abs(found.test.chiSquare / expected.chiSquare - 1)).toBeLessThan(rel);
  expect(found.test.degreesOfFreedom).toBe(expected.df);
  expect(Math.abs(found.test.p / expected.p - 1)).toBeLessThan(1e-6);
});

test('all the reference results are there', () => {
  expect(groups.length).toBeGreaterThanOrEqual(25);
  expect(tests.length).toBeGreaterThanOrEqual(10);
});
