import { at } from '../at';
import { observationKind, type ObservationKind, type SettingObservation } from '../observation';
import type { Covariate, RegressionData, Term } from './covariate';

/**
 * Batches as numbers to compute with, sorted by kind: rows before `ends.exact` are exact, those from
 * there and before `ends.interval` intervals, then right-censored, then left-censored ones.
 */
export type DesignRows = {
  /** Columns of the design, row by row, standardised. */
  columns: Float64Array;
  width: number;
  /** Logarithm less `centre` of the time, or the interval's start, or the only end known. */
  place: Float64Array;
  /** Logarithm of an interval's end over its start; 0 for other kinds. */
  span: Float64Array;
  weight: Float64Array;
  ends: Record<ObservationKind, number>;
};

/**
 * What each column stands for, the rows, and how to come back from standardised columns:
 * a column is (value - location) / spread.
 */
export type Design = {
  terms: Term[];
  rows: DesignRows;
  location: Float64Array;
  spread: Float64Array;
  centre: number;
};

type Column = { term: Term; values: Float64Array };

const KIND_ORDER: ObservationKind[] = ['exact', 'interval', 'right-censored', 'left-censored'];
/** Stands for an observation that is not there, which checked data cannot ask for. */
const NOTHING: SettingObservation = { lower: NaN, upper: null };
/** A number that varies by less than this share of itself varies by rounding only. */
const ROUNDING_SHARE = 1e-10;

/**
 * The design of a regression on the given rows: an intercept, then for each covariate in order its
 * number or one indicator for each level that occurs but the first of them. The levels of the
 * covariate named `pooled` get an indicator each, the first and those that do not occur included.
 * Rows that tell nothing (not set at time 0, no more known) are left out. Data must be checked.
 */
export function buildDesign(
  data: RegressionData,
  used: readonly number[],
  pooled?: string,
): Design {
  const { order, ends } = sortedByKind(data.observations, used);
  const place = new Float64Array(order.length);
  const span = new Float64Array(order.length);
  const weight = new Float64Array(order.length);
  order.forEach((row, i) => {
    const { lower, upper, weight: times = 1 } = data.observations[row] ?? NOTHING;
    const interval = lower > 0 && upper !== null && upper > lower;
    place[i] = Math.log(lower > 0 ? lower : (upper ?? 0));
    span[i] = interval ? Math.log1p((upper - lower) / lower) : 0;
    weight[i] = times;
  });
  const centre = weightedMean(place, weight);
  for (let i = 0; i < place.length; i += 1) place[i] = at(place, i) - centre;

  const found = columnsOf(data.covariates, used, order, pooled);
  const width = found.length;
  const columns = new Float64Array(order.length * width);
  const location = new Float64Array(width);
  const spread = new Float64Array(width).fill(1);
  found.forEach(({ term, values }, j) => {
    if (term.kind === 'numeric') {
      const mean = weightedMean(values, weight);
      const squares = values.map((value) => (value - mean) ** 2);
      const deviation = Math.sqrt(weightedMean(squares, weight));
      location[j] = mean;
      // A number that does not vary becomes a column of noughts, which the start then finds.
      spread[j] = deviation > ROUNDING_SHARE * Math.abs(mean) ? deviation : Infinity;
    }
    const [from, unit] = [at(location, j), at(spread, j)];
    for (let i = 0; i < values.length; i += 1) {
      columns[i * width + j] = (at(values, i) - from) / unit;
    }
  });
  const rows = { columns, width, place, span, weight, ends };
  return { terms: found.map(({ term }) => term), rows, location, spread, centre };
}

/** Numbers of the observations that tell something, kind after kind, and where each kind ends. */
function sortedByKind(observations: readonly SettingObservation[], used: readonly number[]) {
  const order: number[] = [];
  const ends = { exact: 0, interval: 0, 'right-censored': 0, 'left-censored': 0 };
  const kinds = observations.map(observationKind);
  for (const kind of KIND_ORDER) {
    for (const row of used) {
      if (kinds[row] === kind && tells(observations[row])) order.push(row);
    }
    ends[kind] = order.length;
  }
  return { order, ends };
}

function tells(observation: SettingObservation | undefined): boolean {
  return observation !== undefined && (observation.lower > 0 || observation.upper !== null);
}

function columnsOf(
  covariates: readonly Covariate[],
  used: readonly number[],
  order: readonly number[],
  pooled: string | undefined,
): Column[] {
  const columns: Column[] = [
    { term: { kind: 'intercept' }, values: new Float64Array(order.length).fill(1) },
  ];
  for (const covariate of covariates) {
    const { name } = covariate;
    const filled = (valueOf: (row: number) => number) => {
      const values = new Float64Array(order.length);
      order.forEach((row, i) => {
        values[i] = valueOf(row);
      });
      return values;
    };
    if (covariate.kind === 'numeric') {
      const { values } = covariate;
      columns.push({
        term: { kind: 'numeric', covariate: name },
        values: filled((row) => values[row] ?? NaN),
      });
      continue;
    }
    const occurring = new Set<string | undefined>();
    for (const row of used) occurring.add(covariate.values[row]);
    const levels = covariate.levels.filter((level) => name === pooled || occurring.has(level));
    const reference = levels[0] ?? '';
    for (const level of name === pooled ? levels : levels.slice(1)) {
      columns.push({
        term: { kind: 'level', covariate: name, level, reference },
        values: filled((row) => (covariate.values[row] === level ? 1 : 0)),
      });
    }
  }
  return columns;
}

function weightedMean(values: Float64Array, weight: Float64Array): number {
  let sum = 0;
  let total = 0;
  for (let i = 0; i < values.length; i += 1) {
    sum += at(weight, i) * at(values, i);
    total += at(weight, i);
  }
  return sum / total;
}
