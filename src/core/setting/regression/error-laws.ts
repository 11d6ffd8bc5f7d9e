import type { Distribution, ErrorLaw } from './error-law';
import { loglogisticLaw } from './loglogistic-law';
import { lognormalLaw } from './lognormal-law';
import { weibullLaw } from './weibull-law';

const LAWS: Record<Distribution, ErrorLaw> = {
  weibull: weibullLaw,
  lognormal: lognormalLaw,
  loglogistic: loglogisticLaw,
};

/** The law of a distribution. */
export function errorLaw(distribution: Distribution): ErrorLaw {
  return LAWS[distribution];
}
