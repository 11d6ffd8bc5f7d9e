import { toCsv } from '../platform/csv';
import type { AdjustedTimes } from './adjusted-times.responses';
import type { Table } from './setting-times.requests';
import type {
  SettingGroup,
  SettingInterval,
  SettingTimesResponse,
} from './setting-times.responses';

/** One table of an answer, as a file. Groups come in the answer's order, all batches together last. */
export function settingTimesCsv(answer: SettingTimesResponse, table: Table): string {
  const groups = [...answer.groups, answer.all];
  switch (table) {
    case 'groups':
      return toCsv(groups.map(groupRow), [...groupColumns]);
    case 'curve':
      return toCsv(
        groups.flatMap(({ name, curve }) => curve.map((point) => curveRow(name, point))),
        [...curveColumns],
      );
    case 'adjustedGroups':
      return toCsv(adjustedGroupRows(answer.adjusted), [...adjustedGroupColumns]);
    case 'adjustedCurve':
      return toCsv(adjustedCurveRows(answer.adjusted), [...adjustedCurveColumns]);
  }
}

const groupColumns = [
  'group',
  'batchCount',
  'setCount',
  'stillSettingCount',
  'abandonedCount',
  'observedCount',
  'lowerQuartileDays',
  'medianDays',
  'medianLowerDays',
  'medianUpperDays',
  'upperQuartileDays',
  'percentile80Days',
  'percentile80LowerDays',
  'percentile80UpperDays',
  'tooFew',
  'pooledMedianDays',
  'pooledLowerDays',
  'pooledUpperDays',
] as const;

function groupRow(group: SettingGroup): Record<(typeof groupColumns)[number], unknown> {
  const { name, median, percentile80, pooled } = group;
  return {
    group: name,
    batchCount: group.batchCount,
    setCount: group.setCount,
    stillSettingCount: group.stillSettingCount,
    abandonedCount: group.abandonedCount,
    observedCount: group.observedCount,
    lowerQuartileDays: group.lowerQuartile?.quotedDays,
    medianDays: median?.quotedDays,
    medianLowerDays: median?.lowerDays,
    medianUpperDays: median?.upperDays,
    upperQuartileDays: group.upperQuartile?.quotedDays,
    percentile80Days: percentile80?.quotedDays,
    percentile80LowerDays: percentile80?.lowerDays,
    percentile80UpperDays: percentile80?.upperDays,
    tooFew: group.tooFew,
    pooledMedianDays: pooled?.medianDays,
    pooledLowerDays: pooled?.lowerDays,
    pooledUpperDays: pooled?.upperDays,
  };
}

const curveColumns = [
  'group',
  'leftDays',
  'rightDays',
  'mass',
  'stillSetting',
  'stillSettingLower',
  'stillSettingUpper',
] as const;

function curveRow(
  group: string,
  point: SettingInterval,
): Record<(typeof curveColumns)[number], unknown> {
  const { leftDays, rightDays, mass, stillSetting, stillSettingLower, stillSettingUpper } = point;
  return { group, leftDays, rightDays, mass, stillSetting, stillSettingLower, stillSettingUpper };
}

const adjustedGroupColumns = [
  'group',
  'batchCount',
  'setCount',
  'medianDays',
  'lowerDays',
  'upperDays',
  'against',
  'timesAsFast',
  'timesAsFastLower',
  'timesAsFastUpper',
  'inWords',
] as const;

function adjustedGroupRows(
  adjusted: AdjustedTimes | null,
): Record<(typeof adjustedGroupColumns)[number], unknown>[] {
  return (adjusted?.groups ?? []).map((group) => ({
    group: group.name,
    batchCount: group.batchCount,
    setCount: group.setCount,
    medianDays: group.medianDays,
    lowerDays: group.lowerDays,
    upperDays: group.upperDays,
    against: group.against,
    timesAsFast: group.timesAsFast,
    timesAsFastLower: group.timesAsFastLower,
    timesAsFastUpper: group.timesAsFastUpper,
    inWords: group.inWords,
  }));
}

const adjustedCurveColumns = ['group', 'stillSetting', 'days', 'lowerDays', 'upperDays'] as const;

function adjustedCurveRows(
  adjusted: AdjustedTimes | null,
): Record<(typeof adjustedCurveColumns)[number], unknown>[] {
  return (adjusted?.groups ?? []).flatMap(({ name, curve }) =>
    curve.map(({ stillSetting, days, lowerDays, upperDays }) => ({
      group: name,
      stillSetting,
      days,
      lowerDays,
      upperDays,
    })),
  );
}
