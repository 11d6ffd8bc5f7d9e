import { normalQuantile } from '../numerics/normal';
import type { SurvivalCurve } from './kaplan-meier';

/** On which scale of survival limits are formed. */
export type LimitScale = 'log' | 'log-log' | 'plain';

export type SurvivalLimits = { lower: (number | null)[]; upper: (number | null)[] };

/**
 * Pointwise confidence limits of a survival curve, one pair for each of its steps.
 *
 * With s the standard error of log survival and z the normal quantile of the level:
 * 'log': survival x exp(-z s) and exp(z s); 'log-log': survival to the power exp(z s / -log survival)
 * and exp(-z s / -log survival), which behaves best in small groups; 'plain': survival less and plus
 * z x survival x s. Cut to 0 to 1. Null where survival is 0, and for 'log-log' where it is 1.
 *
 * Works for levels above 0 and below 1. Throws RangeError for others.
 * Source: J. D. Kalbfleisch and R. L. Prentice, "The Statistical Analysis of Failure Time Data"
 * (2002), section 1.4.
 */
export function survivalLimits(
  { steps }: SurvivalCurve,
  { confidenceLevel, scale }: { confidenceLevel: number; scale: LimitScale },
): SurvivalLimits {
  if (!(confidenceLevel > 0 && confidenceLevel < 1)) {
    throw new RangeError(`confidenceLevel must be above 0 and below 1, got ${confidenceLevel}`);
  }
  const z = normalQuantile((1 + confidenceLevel) / 2);
  const side = (sign: 1 | -1) =>
    steps.map(({ survival, logStandardError }) => {
      if (logStandardError === null || (scale === 'log-log' && survival === 1)) return null;
      return limit(survival, sign * z * logStandardError, scale);
    });
  return { lower: side(-1), upper: side(1) };
}

function limit(survival: number, shift: number, scale: LimitScale): number {
  switch (scale) {
    case 'log':
      return Math.min(1, survival * Math.exp(shift));
    case 'log-log':
      return survival ** Math.exp(shift / Math.log(survival));
    case 'plain':
      return Math.min(1, Math.max(0, survival + survival * shift));
  }
}
