import type { Distribution } from '../../../../src/core/setting/regression/error-law';
import {
  bestDistribution,
  likelihoodRatioTest,
  waldTest,
} from '../../../../src/core/setting/regression/compare-regressions';
import { fitRegression } from '../../../../src/core/setting/regression/fit-regression';
import { predictQuantiles } from '../../../../src/core/setting/regression/predict-quantiles';
import { resultsOfKind, tolerance } from '../reference-cases';
import { dataOf, designOfFormula, estimateOf } from './regression-cases';

// Source of every expected number: test/references/survival, R 4.2.2, survival 3.5-3, at the
// tolerances stated there.

const fits = resultsOfKind('aft').map(({ reference, result }) => ({
  name: `${reference.id}: ${result.label}`,
  reference,
  result,
}));

describe.each(fits)('the regression of $name', ({ reference, result }) => {
  const { expected } = result;
  const fit = estimateOf(dataOf(reference, result.design, result.rowsUsed), result.dist);
  const withScale = [...fit.coefficients, Math.log(fit.scale)];

  test('has the same coefficients and scale', () => {
    expect(fit.coefficients).toHaveLength(expected.coefficients.length);
    [...expected.coefficients, expected.logScale].forEach((value, j) => {
      const off = Math.abs(withScale[j]! - value);
      expect(off).toBeLessThan(tolerance(result, 'coefAbsInStdErrs') * expected.stdErr[j]!);
      expect(off).toBeLessThan(
        Math.max(tolerance(result, 'coefRel') * Math.abs(value), 1e-6 * expected.stdErr[j]!),
      );
    });
    expect(fit.terms.map(({ kind }) => kind)).toEqual(
      result.design.map(({ type }) => (type === 'indicator' ? 'level' : type)),
    );
  });

  test('has the same likelihood, AIC and number of batches', () => {
    expect(Math.abs(fit.logLik - expected.logLik)).toBeLessThan(tolerance(result, 'logLikAbs'));
    expect(Math.abs(fit.aic - expected.aic)).toBeLessThan(2 * tolerance(result, 'logLikAbs'));
    expect(fit.n).toBe(expected.n);
  });

  test('has the same covariance and standard errors', () => {
    expected.vcov.forEach((line, r) => {
      line.forEach((value, c) => {
        const size = expected.stdErr[r]! * expected.stdErr[c]!;
        expect(Math.abs(fit.covariance[r]![c]! - value)).toBeLessThan(
          tolerance(result, 'vcovRel') * Math.max(Math.abs(value), 1e-3 * size),
        );
      });
      expect(fit.standardErrors[r]).toBeCloseTo(Math.sqrt(fit.covariance[r]![r]!), 14);
    });
  });

  test('predicts the same times with the same limits', () => {
    for (const prediction of result.predictions) {
      const found = predictQuantiles(fit, prediction.profile, prediction.p);
      if (found.kind !== 'estimate') throw new Error('expected an estimate');

      expect(found.linearPredictor).toBeCloseTo(prediction.linearPredictor, 6);
      expect(
        Math.abs(found.linearPredictorStandardError / prediction.linearPredictorSe - 1),
      ).toBeLessThan(tolerance(result, 'seRel'));
      found.quantiles.forEach((quantile, i) => {
        const near = (value: number, reference: number, rel: string) =>
          expect(Math.abs(value / reference - 1)).toBeLessThan(tolerance(result, rel));
        near(quantile.time, prediction.quantile[i]!, 'quantileRel');
        near(quantile.standardError, prediction.se[i]!, 'seRel');
        near(Math.exp(quantile.logTime), Math.exp(prediction.logQuantile[i]!), 'quantileRel');
        near(quantile.logStandardError, prediction.logSe[i]!, 'seRel');
        near(quantile.limits.lower, prediction.ciLog.lower[i]!, 'seRel');
        near(quantile.limits.upper, prediction.ciLog.upper[i]!, 'seRel');
        const width = prediction.se[i]! * tolerance(result, 'seRel') * 2;
        expect(Math.abs(quantile.plainLimits.lower - prediction.ciPlain.lower[i]!)).toBeLessThan(
          width + 1e-6 * prediction.quantile[i]!,
        );
        expect(Math.abs(quantile.plainLimits.upper - prediction.ciPlain.upper[i]!)).toBeLessThan(
          width + 1e-6 * prediction.quantile[i]!,
        );
      });
    }
  });
});

const comparisons = resultsOfKind('aic-comparison').map(({ reference, result }) => ({
  name: `${reference.id}: ${result.label}`,
  reference,
  result,
}));

test.each(comparisons)('the same distribution has the smallest AIC in $name', (comparison) => {
  const { reference, result } = comparison;
  const ofThese = reference.results.filter(
    (other) => other.kind === 'aft' && other.formula === result.formula,
  );
  const regressions = ofThese.flatMap((other) =>
    other.kind === 'aft' && result.label.includes(other.label.slice(0, -other.dist.length - 2))
      ? [estimateOf(dataOf(reference, other.design, other.rowsUsed), other.dist)]
      : [],
  );

  expect(regressions).toHaveLength(3);
  for (const { distribution, aic } of regressions) {
    expect(Math.abs(aic - result.expected.aic[distribution])).toBeLessThan(
      tolerance(result, 'abs'),
    );
  }
  expect(bestDistribution(regressions)).toBe(result.expected.best);
});

const ratios = resultsOfKind('likelihood-ratio').map(({ reference, result }) => ({
  name: `${reference.id}: ${result.label}`,
  reference,
  result,
}));

test.each(ratios)('the likelihood ratio test is the same in $name', ({ reference, result }) => {
  const fitOf = (formula: string, dist: Distribution) =>
    estimateOf(dataOf(reference, designOfFormula(reference, formula)), dist);
  const { expected } = result;

  const found = likelihoodRatioTest(
    fitOf(result.full, result.dist),
    fitOf(result.reduced, result.dist),
  );

  expect(Math.abs(found.chiSquare - expected.chiSquare)).toBeLessThan(
    tolerance(result, 'chiSquareAbs'),
  );
  expect(found.degreesOfFreedom).toBe(expected.df);
  expect(Math.abs(found.logP - expected.logP)).toBeLessThan(tolerance(result, 'logPAbs'));
  expect(Math.abs(found.p - expected.p)).toBeLessThanOrEqual(
    tolerance(result, 'pRel') * expected.p,
  );
});

const walds = resultsOfKind('wald').map(({ reference, result }) => ({
  name: `${reference.id}: ${result.label}`,
  reference,
  result,
}));

test.each(walds)("Wald's test is the same in $name", ({ reference, result }) => {
  const design = designOfFormula(reference, result.full);
  const fit = estimateOf(dataOf(reference, design), result.dist);

  const found = waldTest(fit, result.factor);

  expect(Math.abs(found.chiSquare / result.expected.chiSquare - 1)).toBeLessThan(
    tolerance(result, 'chiSquareRel'),
  );
  expect(found.degreesOfFreedom).toBe(result.expected.df);
  if (result.expected.logP !== null) {
    expect(Math.abs(found.logP / result.expected.logP - 1)).toBeLessThan(1e-3);
  }
});

test('a group of which none has been seen set is set aside, and the rest fitted', () => {
  const { reference, result } = fits.find(
    (fit) => fit.reference.id === 'edge-zero-event-group' && fit.result.dist === 'weibull',
  )!;
  const { columns } = reference.data;
  const group = columns['group']!.map(String);
  const whole = dataOf(reference, []);
  const limit = estimateOf(dataOf(reference, result.design, result.rowsUsed), 'weibull');

  for (const levels of [
    ['a', 'b', 'none'],
    ['none', 'a', 'b', 'empty'],
  ]) {
    const covariates = [{ kind: 'factor' as const, name: 'group', levels, values: group }];
    const fit = estimateOf({ ...whole, covariates }, 'weibull');

    expect(fit.coefficients).toEqual(limit.coefficients);
    expect(fit.logLik).toBe(limit.logLik);
    expect(fit.n).toBe(10);
    expect(fit.setAside).toEqual([
      { covariate: 'group', level: 'none', n: 4, why: 'none seen set' },
      ...(levels.length > 3
        ? [{ covariate: 'group', level: 'empty', n: 0, why: 'no batches' }]
        : []),
    ]);
    expect(predictQuantiles(fit, { group: 'none' }, [0.5])).toEqual({
      kind: 'no-estimate',
      level: fit.setAside[0],
    });
  }
});

test('all the reference results are there, and cases without an estimate have none', () => {
  expect(fits.length).toBeGreaterThanOrEqual(90);
  expect(comparisons.length).toBeGreaterThanOrEqual(18);
  expect(ratios.length).toBeGreaterThanOrEqual(23);
  expect(walds.length).toBeGreaterThanOrEqual(12);
  const reasons = resultsOfKind('r-behaviour')
    .filter(({ result }) => result.label.startsWith('Weibull AFT, all'))
    .map(({ reference }) => fitRegression(dataOf(reference, []), 'weibull'));
  expect(reasons).toMatchObject([
    { kind: 'no-estimate', reason: 'all set before the first look' },
    { kind: 'no-estimate', reason: 'none seen set' },
  ]);
});
