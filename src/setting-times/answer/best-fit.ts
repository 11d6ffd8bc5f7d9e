import { bestDistribution } from '../../core/setting/regression/compare-regressions';
import type { RegressionData } from '../../core/setting/regression/covariate';
import type { Distribution } from '../../core/setting/regression/error-law';
import {
  fitRegression,
  type SettingRegression,
} from '../../core/setting/regression/fit-regression';
import type { NoEstimate } from '../../core/setting/regression/no-estimate';

const distributions: Distribution[] = ['weibull', 'lognormal', 'loglogistic'];

export interface BestFit {
  kind: 'estimate';
  fit: SettingRegression;
  /** Of every distribution that has an estimate. */
  compared: { distribution: Distribution; aic: number }[];
}

/** The regression with the distribution that Akaike's criterion chooses. */
export function bestFit(data: RegressionData): BestFit | NoEstimate {
  const fits = distributions.map((distribution) => fitRegression(data, distribution));
  const estimates = fits.filter((fit) => fit.kind === 'estimate');
  const best = estimates.length === 0 ? null : bestDistribution(estimates);
  const fit = estimates.find(({ distribution }) => distribution === best);
  if (fit === undefined) {
    const refusal = fits.find((one) => one.kind === 'no-estimate');
    return refusal ?? { kind: 'no-estimate', reason: 'nothing observed', terms: [] };
  }
  return {
    kind: 'estimate',
    fit,
    compared: estimates.map(({ distribution, aic }) => ({ distribution, aic })),
  };
}
