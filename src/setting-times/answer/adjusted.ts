import type { Profile } from '../../core/setting/regression/covariate';
import type { SettingRegression } from '../../core/setting/regression/fit-regression';
import type { NoEstimate } from '../../core/setting/regression/no-estimate';
import {
  noEstimateInWords,
  setAsideInWords,
} from '../../core/setting/regression/no-estimate-in-words';
import type { AdjustedTimes } from '../adjusted-times.responses';
import { adjustedGroups } from './adjusted-groups';
import { termsOf, testsOf } from './adjusted-terms';
import type { BatchGroup } from './batch-groups';
import type { BestFit } from './best-fit';
import type { Question } from './question';
import { usualProfile, type CompleteBatches } from './regression-data';
import { adjusterNames, batchesInWords, distributionNames, listInWords } from './words';

const method =
  'Accelerated failure time: the logarithm of the days is a sum of what each group, level and number adds, and a spread of the law named as ' +
  'distribution, chosen of Weibull, log-normal and log-logistic by the smallest AIC; maximum likelihood for what the looks tell; standard ' +
  'errors from the observed information. Numbers enter as straight lines on the logarithm: honey sets the fastest at some middle ' +
  'temperature, so over a wide range of temperatures group by temperatureBand instead. Tests are likelihood-ratio tests against the model ' +
  'without that covariate. Curves are of a batch with the profile named: numbers at their mean, levels the most common.';

/** What the groups would be if they were alike in all that is adjusted for. */
export function adjustedTimes(
  groups: readonly BatchGroup[],
  question: Question,
  complete: CompleteBatches,
  best: BestFit | NoEstimate,
): AdjustedTimes {
  const about = {
    method,
    adjustedFor: [...question.adjust],
    leftOut: complete.leftOut,
    leftOutCount: complete.leftOutCount,
  };
  const leftOut = leftOutInWords(complete);
  if (best.kind === 'no-estimate') {
    const inWords = `Nothing can be adjusted. ${noEstimateInWords(best)}${leftOut}`;
    return { ...about, ...nothing, inWords };
  }
  const { fit, compared } = best;
  const profile = usualProfile(complete, fit);
  const own = adjustedGroups(groups, fit, complete, profile);
  return {
    ...about,
    batchCount: fit.n,
    setCount: fit.setCount,
    distribution: fit.distribution,
    distributionsCompared: compared,
    logLik: fit.logLik,
    scale: fit.scale,
    logScaleStandardError: fit.standardErrors.at(-1) ?? null,
    terms: termsOf(fit),
    tests: testsOf(fit, complete),
    profile: profileInAnswer(profile),
    setAside: fit.setAside.map(setAsideInWords),
    groups: own,
    inWords: `${fittedInWords(fit, question)}${leftOut}`,
  };
}

const nothing = {
  batchCount: 0,
  setCount: 0,
  distribution: null,
  distributionsCompared: [],
  logLik: null,
  scale: null,
  logScaleStandardError: null,
  terms: [],
  tests: [],
  profile: [],
  setAside: [],
  groups: [],
};

function fittedInWords(
  { n, setCount, distribution }: SettingRegression,
  { adjust }: Question,
): string {
  const names = listInWords(adjust.map((adjuster) => adjusterNames[adjuster]));
  return (
    `Adjusted for ${names}, on ${batchesInWords(n)}, ${setCount} of them seen set; ` +
    `the ${distributionNames[distribution]} distribution describes them best.`
  );
}

function leftOutInWords({ leftOut, leftOutCount }: CompleteBatches): string {
  if (leftOutCount === 0) return '';
  const lacks = leftOut.map(({ lacking, batchCount }) => `${lacking} of ${batchCount}`);
  return ` Left out: ${batchesInWords(leftOutCount)}; not known is ${listInWords(lacks)}.`;
}

function profileInAnswer(profile: Profile): AdjustedTimes['profile'] {
  return Object.entries(profile).map(([covariate, value]) => ({
    covariate,
    level: typeof value === 'string' ? value : null,
    number: typeof value === 'number' ? value : null,
  }));
}
