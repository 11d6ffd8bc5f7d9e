import { at } from '../at';
import { observationKind, type ObservationKind } from '../observation';
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

type Column = { term: Term; valueAt: (row: number) => number };

const KIND_ORDER: ObservationKind[] = ['exact', 'interval', 'right-censored', 'left-censored'];
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
  const kept = used.map((row) => ({ row, seen: observationAt(data, row) }));
  const telling = kept.filter(({ seen }) => seen.lower > 0 || seen.upper !== null);
  const byKind = KIND_ORDER.map((kind) =>
    telling.filter(({ seen }) => observationKind(seen) === kind),
  );
  const sorted = byKind.flat();
  const columns = columnsOf(data.covariates, used, pooled);

  const rows: DesignRows = {
    columns: new Float64Array(sorted.length * columns.length),
    width: columns.length,
    place: new Float64Array(sorted.length),
    span: new Float64Array(sorted.length),
    weight: new Float64Array(sorted.length),
    ends: { exact: 0, interval: 0, 'right-censored': 0, 'left-censored': 0 },
  };
  let end = 0;
  byKind.forEach((own, k) => {
    end += own.length;
    rows.ends[KIND_ORDER[k] ?? 'exact'] = end;
  });
  sorted.forEach(({ seen: { lower, upper, weight = 1 } }, i) => {
    const interval = lower > 0 && upper !== null && upper > lower;
    rows.place[i] = Math.log(lower > 0 ? lower : (upper ?? 0));
    rows.span[i] = interval ? Math.log1p((upper - lower) / lower) : 0;
    rows.weight[i] = weight;
  });
  const centre = weightedMean(rows.place, rows.weight);
  for (let i = 0; i < sorted.length; i += 1) rows.place[i] = at(rows.place, i) - centre;

  const location = new Float64Array(columns.length);
  const spread = new Float64Array(columns.length).fill(1);
  columns.forEach(({ term, valueAt }, j) => {
    const values = Float64Array.from(sorted, ({ row }) => valueAt(row));
    if (term.kind === 'numeric') {
      const mean = weightedMean(values, rows.weight);
      location[j] = mean;
      const squares = values.map((value) => (value - mean) ** 2);
      const deviation = Math.sqrt(weightedMean(squares, rows.weight));
      const varies = deviation > ROUNDING_SHARE * Math.abs(mean);
      spread[j] = varies ? deviation : Infinity;
    }
    for (let i = 0; i < values.length; i += 1) {
      rows.columns[i * columns.length + j] = (at(values, i) - at(location, j)) / at(spread, j);
    }
  });
  return { terms: columns.map(({ term }) => term), rows, location, spread, centre };
}

function observationAt(data: RegressionData, row: number) {
  const observation = data.observations[row];
  if (observation === undefined) throw new RangeError(`row must be an observation, got ${row}`);
  return observation;
}

function columnsOf(
  covariates: readonly Covariate[],
  used: readonly number[],
  pooled: string | undefined,
): Column[] {
  const columns: Column[] = [{ term: { kind: 'intercept' }, valueAt: () => 1 }];
  for (const covariate of covariates) {
    const { name } = covariate;
    if (covariate.kind === 'numeric') {
      const { values } = covariate;
      columns.push({
        term: { kind: 'numeric', covariate: name },
        valueAt: (row) => values[row] ?? NaN,
      });
      continue;
    }
    const occurring = new Set(used.map((row) => covariate.values[row]));
    const levels = covariate.levels.filter((level) => name === pooled || occurring.has(level));
    const reference = levels[0] ?? '';
    for (const level of name === pooled ? levels : levels.slice(1)) {
      columns.push({
        term: { kind: 'level', covariate: name, level, reference },
        valueAt: (row) => (covariate.values[row] === level ? 1 : 0),
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
