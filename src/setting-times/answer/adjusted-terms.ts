import {
  fitRegression,
  type SettingRegression,
} from '../../core/setting/regression/fit-regression';
import { freeTerms, likelihoodRatioTest } from '../../core/setting/regression/compare-regressions';
import type { Term } from '../../core/setting/regression/covariate';
import { noEstimateInWords } from '../../core/setting/regression/no-estimate-in-words';
import { speedInWords } from '../../core/setting/regression/speed-in-words';
import { speedRatio, type SpeedRatio } from '../../core/setting/regression/speed-ratio';
import type { AdjustedTerm, AdjustedTest } from '../adjusted-times.responses';
import { adjusterKinds } from './adjuster-values';
import { known } from './known';
import { adjusters } from './question';
import type { CompleteBatches } from './regression-data';
import { adjusterNames, pInWords } from './words';

/** What each coefficient says. */
export function termsOf(regression: SettingRegression): AdjustedTerm[] {
  return regression.terms.map((term, index) => ({
    ...describeTerm(regression, term),
    coefficient: regression.coefficients[index] ?? 0,
    standardError: regression.standardErrors[index] ?? 0,
  }));
}

type Described = Omit<AdjustedTerm, 'coefficient' | 'standardError'>;

const noSpeed = { timesAsFast: null, timesAsFastLower: null, timesAsFastUpper: null };

function describeTerm(regression: SettingRegression, term: Term): Described {
  if (term.kind === 'intercept') {
    const inWords =
      'The logarithm of the days at the first level of everything and at 0 of every number.';
    return {
      covariate: 'intercept',
      level: null,
      reference: null,
      unit: null,
      step: null,
      ...noSpeed,
      inWords,
    };
  }
  const { covariate } = term;
  if (term.kind === 'level') {
    const { level, reference } = term;
    const speed = speedRatio(regression, { covariate, value: level, against: reference });
    return {
      covariate,
      level,
      reference,
      unit: null,
      step: null,
      ...spoken(speed, level, reference),
    };
  }
  const kind = kindOfNumber(covariate);
  const { unit, step, stepInWords } = kind;
  const speed = speedRatio(regression, { covariate, value: step, against: 0 });
  const [subject, other] = stepInWords;
  return { covariate, level: null, reference: null, unit, step, ...spoken(speed, subject, other) };
}

function kindOfNumber(covariate: string) {
  const adjuster = adjusters.find((one) => adjusterNames[one] === covariate);
  const kind = adjuster && adjusterKinds[adjuster];
  if (kind?.kind !== 'numeric')
    throw new RangeError(`covariate must be a number, got ${covariate}`);
  return kind;
}

function spoken(speed: ReturnType<typeof speedRatio>, subject: string, other: string) {
  if (speed.kind === 'no-estimate') return { ...noSpeed, inWords: 'It has no estimate.' };
  return { ...speedFields(speed), inWords: `${speedInWords(subject, other, speed)}.` };
}

/** A speed ratio as answers give it. */
export function speedFields({ ratio, lower, upper }: SpeedRatio) {
  return {
    timesAsFast: known(ratio),
    timesAsFastLower: known(lower),
    timesAsFastUpper: known(upper),
  };
}

/** Whether each covariate matters, all others held equal: likelihood-ratio tests. */
export function testsOf(regression: SettingRegression, { data }: CompleteBatches): AdjustedTest[] {
  return data.covariates.map(({ name }) => {
    const covariates = data.covariates.filter((other) => other.name !== name);
    const reduced = fitRegression({ ...data, covariates }, regression.distribution);
    const untested = { covariate: name, chiSquare: null, degreesOfFreedom: null, p: null };
    if (reduced.kind === 'no-estimate') {
      return {
        ...untested,
        inWords: `${name}: without it, ${lowerFirst(noEstimateInWords(reduced))}`,
      };
    }
    if (freeTerms(regression) <= freeTerms(reduced)) {
      return {
        ...untested,
        inWords: `${name}: all batches that could be compared are alike in it.`,
      };
    }
    const { chiSquare, degreesOfFreedom, p } = likelihoodRatioTest(regression, reduced);
    const finding =
      p < 0.05
        ? 'it matters by more than chance makes likely, all else equal'
        : 'that it matters cannot be shown, all else equal';
    return {
      covariate: name,
      chiSquare,
      degreesOfFreedom,
      p,
      inWords: `${name}: ${finding} (${pInWords(p)}).`,
    };
  });
}

function lowerFirst(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}
