import { quantileDays, quantileInterval } from '../../../src/core/setting/quantile-interval';
import { survivalAt } from '../../../src/core/setting/survival-at';
import { fitTurnbull } from '../../../src/core/setting/turnbull';
import { observationsOf, resultsOfKind, tolerance } from './reference-cases';

// Source of every expected number: test/references/survival, R 4.2.2, npsurv 0.5-0 polished to the
// maximum ('turnbull') and survival 3.5-3 ('kaplan-meier'), at the tolerances stated there.

const turnbullGroups = resultsOfKind('turnbull').flatMap(({ reference, result }) =>
  result.expected.groups.map((expected) => ({
    name: `${reference.id}, ${result.groupColumn ?? 'all rows'}: ${expected.group}`,
    observations: observationsOf(reference, result.groupColumn, expected.group),
    result,
    expected,
  })),
);

describe.each(turnbullGroups)('the Turnbull estimate of $name', (group) => {
  const { observations, result, expected } = group;
  const fit = fitTurnbull(observations);

  test('puts the same masses into the same intervals', () => {
    expect(fit.intervals.map(({ left, right }) => [left, right])).toEqual(
      expected.npmle.left.map((left, i) => [left, expected.npmle.right[i]]),
    );
    fit.intervals.forEach(({ mass }, i) => {
      expect(Math.abs(mass - expected.npmle.mass[i]!)).toBeLessThan(
        tolerance(result, 'npmleMassAbs'),
      );
    });
  });

  test('has the same likelihood, counts and candidates, and is at the maximum', () => {
    expect(Math.abs(fit.logLik - expected.npmle.logLik)).toBeLessThan(
      tolerance(result, 'logLikAbs'),
    );
    expect(fit.n).toBe(expected.n);
    expect(fit.distinctRows).toBe(expected.distinctRows);
    expect(fit.candidateIntervals).toBe(expected.candidateIntervals);
    expect(fit.kktMaxViolation).toBeLessThan(1e-8);
  });

  test('leaves the same share unset just after every end, without doubt', () => {
    expected.survivalAtEndpoints.time.forEach((time, i) => {
      const { lower, upper } = survivalAt(fit, time);
      expect(upper - lower).toBeLessThan(1e-12);
      expect(Math.abs(upper - expected.survivalAtEndpoints.survival[i]!)).toBeLessThan(
        tolerance(result, 'npmleSurvivalAbs'),
      );
    });
  });

  test('reaches each quantile in the same interval, ties included', () => {
    for (const { p, ...interval } of expected.quantileIntervals) {
      expect({ p, ...quantileInterval(fit, p) }).toEqual({ p, ...interval });
    }
  });
});

const kaplanMeierGroups = resultsOfKind('kaplan-meier').flatMap(({ reference, result }) =>
  result.expected.groups.map((expected) => ({
    id: reference.id,
    name: `${reference.id}, ${result.groupColumn ?? 'all rows'}: ${expected.group}`,
    observations: observationsOf(reference, result.groupColumn, expected.group),
    result,
    expected,
  })),
);
const roundingNoise = kaplanMeierGroups.filter(({ id }) => id === 'edge-km-float-ties');
const exactlyEqualTies = kaplanMeierGroups.filter(({ id }) => id !== 'edge-km-float-ties');

describe.each(exactlyEqualTies)('where times are exact or right-censored: $name', (group) => {
  const { observations, result, expected } = group;
  const fit = fitTurnbull(observations);

  test('the Turnbull estimate is the Kaplan-Meier estimate', () => {
    expected.time.forEach((time, i) => {
      const { lower, upper } = survivalAt(fit, time);
      expect(upper - lower).toBeLessThan(1e-12);
      expect(Math.abs(upper - expected.survival[i]!)).toBeLessThan(tolerance(result, 'abs'));
    });
  });

  test('the quoted quantile is the Kaplan-Meier quantile, but on a plateau without an end', () => {
    const { p, estimate, plateauToEnd } = expected.quantiles;
    const checked = p.filter((_, i) => plateauToEnd[i] === false);
    const quoted = checked.map((fraction) => quantileDays(quantileInterval(fit, fraction)).quoted);

    expect(quoted).toEqual(
      estimate
        .filter((_, i) => plateauToEnd[i] === false)
        .map((days) => (days === null ? null : (expect.closeTo(days, 9) as number))),
    );
  });
});

test.each(roundingNoise)(
  'rounding noise in times moves the curve by no more than itself',
  (group) => {
    const fit = fitTurnbull(group.observations);

    group.expected.time.forEach((time, i) => {
      const { upper } = survivalAt(fit, time * (1 + 1e-12));
      expect(Math.abs(upper - group.expected.survival[i]!)).toBeLessThan(1e-9);
    });
  },
);

test('all the reference results are there', () => {
  expect(turnbullGroups.length).toBeGreaterThanOrEqual(50);
  expect(exactlyEqualTies.length).toBeGreaterThanOrEqual(20);
  expect(roundingNoise).toHaveLength(1);
});
