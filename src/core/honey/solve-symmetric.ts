/**
 * The inverse of a small symmetric positive definite matrix, by Gauss–Jordan elimination; undefined
 * if it is singular as far as rounding can tell.
 */
export function inverse(matrix: readonly (readonly number[])[]): number[][] | undefined {
  const size = matrix.length;
  const rows = matrix.map((row, index) => [
    ...row,
    ...Array.from({ length: size }, (_, column) => (column === index ? 1 : 0)),
  ]);
  for (let pivot = 0; pivot < size; pivot += 1) {
    const own = rows[pivot] as number[];
    const first = (matrix[pivot] as number[])[pivot] as number;
    const value = own[pivot] as number;
    if (!(value > 1e-12 * first)) return undefined;
    own.forEach((entry, column) => (own[column] = entry / value));
    rows.forEach((row, index) => {
      const factor = row[pivot] as number;
      if (index !== pivot) {
        row.forEach((entry, column) => (row[column] = entry - factor * (own[column] as number)));
      }
    });
  }
  return rows.map((row) => row.slice(size));
}
