import type { Profile } from '../../core/setting/regression/covariate';
import type { SettingRegression } from '../../core/setting/regression/fit-regression';
import { setAsideInWords } from '../../core/setting/regression/no-estimate-in-words';
import { predictQuantiles } from '../../core/setting/regression/predict-quantiles';
import { setAsideBound } from '../../core/setting/regression/set-aside-bound';
import type { SetAsideLevel } from '../../core/setting/regression/set-aside';
import { speedInWords } from '../../core/setting/regression/speed-in-words';
import { speedRatio } from '../../core/setting/regression/speed-ratio';
import type { AdjustedGroup } from '../adjusted-times.responses';
import { speedFields } from './adjusted-terms';
import type { BatchGroup } from './batch-groups';
import { knownDays } from './known';
import type { CompleteBatches } from './regression-data';

/** Shares set at which a curve is told. */
const SHARES = [
  0.01, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8,
  0.85, 0.9, 0.95, 0.99,
];
const HALF = SHARES.indexOf(0.5);

/** How each group would set if it were like the others in all that is adjusted for. */
export function adjustedGroups(
  groups: readonly BatchGroup[],
  regression: SettingRegression,
  complete: CompleteBatches,
  profile: Profile,
): AdjustedGroup[] {
  const { groupName, data } = complete;
  const factor = data.covariates.find(({ name }) => name === groupName);
  const levels = factor?.kind === 'factor' ? factor.levels : [];
  const isAside = (level: string) =>
    regression.setAside.some((one) => one.covariate === groupName && one.level === level);
  const against = levels.find((level) => !isAside(level)) ?? null;
  return groups
    .filter(({ key }) => key !== null)
    .map(({ id, name }) => {
      const own = data.observations.filter((_, row) => factor?.values[row] === name);
      const counts = {
        batchCount: own.length,
        setCount: own.filter(({ upper }) => upper !== null).length,
      };
      const group = { id, name, ...counts, against };
      if (own.length === 0) {
        return {
          ...group,
          ...nothing,
          inWords: `${name}: no batch that somebody looked at and of which all is known.`,
        };
      }
      const predicted = predictQuantiles(regression, { ...profile, [groupName]: name }, SHARES);
      if (predicted.kind === 'no-estimate') {
        return {
          ...group,
          ...nothing,
          inWords: asideInWords(regression, complete, predicted.level, against),
        };
      }
      const curve = predicted.quantiles.map(({ setFraction, time, limits }) => ({
        stillSetting: 1 - setFraction,
        days: knownDays(time),
        lowerDays: knownDays(limits.lower),
        upperDays: knownDays(limits.upper),
      }));
      const { days = null, lowerDays = null, upperDays = null } = curve[HALF] ?? {};
      const half = { medianDays: days, lowerDays, upperDays };
      if (against === null || against === name) {
        const inWords = `${name}: the one that the others are compared with.`;
        return { ...group, ...nothing, ...half, curve, inWords };
      }
      const speed = speedRatio(regression, { covariate: groupName, value: name, against });
      if (speed.kind === 'no-estimate') throw new RangeError(`${name} must have an estimate`);
      const inWords = `${speedInWords(name, against, speed)}.`;
      return { ...group, ...half, curve, ...speedFields(speed), inWords };
    });
}

const nothing = {
  medianDays: null,
  lowerDays: null,
  upperDays: null,
  curve: [],
  timesAsFast: null,
  timesAsFastLower: null,
  timesAsFastUpper: null,
};

/** Why a group has no figure of its own, and what can be said all the same. */
function asideInWords(
  regression: SettingRegression,
  { data, groupName }: CompleteBatches,
  level: SetAsideLevel,
  against: string | null,
): string {
  const why = setAsideInWords(level);
  if (level.covariate !== groupName || against === null) return why;
  const bound = setAsideBound(regression, data, level, against);
  if (bound.kind === 'unknown') return why;
  return `${why} It sets ${bound.kind} ${bound.ratio.toPrecision(2)} times as fast as ${against}, 95 %.`;
}
