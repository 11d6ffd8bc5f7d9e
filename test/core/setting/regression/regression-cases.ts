import type { Covariate, RegressionData } from '../../../../src/core/setting/regression/covariate';
import type { Distribution } from '../../../../src/core/setting/regression/error-law';
import {
  fitRegression,
  type SettingRegression,
} from '../../../../src/core/setting/regression/fit-regression';
import type { DesignColumn, ReferenceCase, Result } from '../../../references/survival/types';

type AftResult = Extract<Result, { kind: 'aft' }>;

/** A fit that must be there. */
export function estimateOf(data: RegressionData, distribution: Distribution): SettingRegression {
  const fit = fitRegression(data, distribution);
  if (fit.kind !== 'estimate') throw new Error(`${fit.reason}: ${fit.terms.join()}`);
  return fit;
}

/** The rows of a reference case that a result rests on, and its covariates. */
export function dataOf(
  reference: ReferenceCase,
  design: readonly DesignColumn[],
  rowsUsed?: AftResult['rowsUsed'],
): RegressionData {
  const { columns } = reference.data;
  const rows = columns.lower.map((_, row) => row).filter((row) => isUsed(columns, row, rowsUsed));
  return {
    observations: rows.map((row) => ({
      lower: columns.lower[row]!,
      upper: columns.upper[row] ?? null,
      weight: columns.weight?.[row] ?? 1,
    })),
    covariates: covariatesOf(columns, design, rows),
  };
}

function isUsed(
  columns: ReferenceCase['data']['columns'],
  row: number,
  rowsUsed: AftResult['rowsUsed'],
): boolean {
  if (rowsUsed === undefined) return true;
  if ('completeCasesOf' in rowsUsed) {
    return rowsUsed.completeCasesOf.every((name) => columns[name]![row] !== null);
  }
  const value = String(columns[rowsUsed.column]![row]);
  return 'equals' in rowsUsed ? value === rowsUsed.equals : value !== rowsUsed.notEquals;
}

function covariatesOf(
  columns: ReferenceCase['data']['columns'],
  design: readonly DesignColumn[],
  rows: readonly number[],
): Covariate[] {
  const covariates: Covariate[] = [];
  for (const column of design) {
    if (column.type === 'intercept') continue;
    const values = rows.map((row) => columns[column.column]![row]);
    if (column.type === 'numeric') {
      covariates.push({ kind: 'numeric', name: column.column, values: values.map(Number) });
      continue;
    }
    const known = covariates.find(({ name }) => name === column.column);
    if (known?.kind === 'factor') (known.levels as string[]).push(column.level);
    else {
      covariates.push({
        kind: 'factor',
        name: column.column,
        levels: [column.referenceLevel, column.level],
        values: values.map(String),
      });
    }
  }
  return covariates;
}

/** The covariates that a formula of the references names, with factors as that case's fits have them. */
export function designOfFormula(reference: ReferenceCase, formula: string): DesignColumn[] {
  const all = reference.results.flatMap((result) => (result.kind === 'aft' ? result.design : []));
  const names = formula.split('+').map((name) => name.trim());
  return names.flatMap((name) => {
    if (name === '1') return [];
    const levels = new Map<string, DesignColumn>();
    for (const column of all) {
      if (column.type !== 'intercept' && column.column === name) levels.set(column.name, column);
    }
    if (levels.size === 0) throw new Error(`no design for ${name} in ${reference.id}`);
    return [...levels.values()];
  });
}
