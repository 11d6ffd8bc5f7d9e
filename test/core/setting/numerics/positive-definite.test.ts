import {
  factorPositiveDefinite,
  invertFactored,
  quadraticForm,
  solveFactored,
  type Factor,
} from '../../../../src/core/setting/numerics/positive-definite';

function factor(entries: number[], size: number): Factor {
  const answer = factorPositiveDefinite(Float64Array.from(entries), size);
  if ('dependentColumn' in answer) throw new Error('expected a factor');
  return answer;
}

// By hand: [[4, 2, 2], [2, 5, 3], [2, 3, 6]] has the factor [[2], [1, 2], [1, 1, 2]], determinant 64.
const byHand = () => factor([4, NaN, NaN, 2, 5, NaN, 2, 3, 6], 3);

test('only the lower half is read, and the factor is the one found by hand', () => {
  const { lower, logDeterminant } = byHand();

  expect([...lower]).toEqual([2, 0, 0, 1, 2, 0, 1, 1, 2]);
  expect(logDeterminant).toBeCloseTo(Math.log(64), 14);
});

test('solving and inverting undo the matrix', () => {
  // By hand: the matrix times (1, -1, 2) is (6, 3, 11).
  const right = Float64Array.of(6, 3, 11);

  expect([...solveFactored(byHand(), right)]).toEqual([1, -1, 2]);
  expect([...right]).toEqual([6, 3, 11]);
  // By hand, cofactors over 64.
  const cofactors = [21, -6, -4, -6, 20, -8, -4, -8, 16];
  [...invertFactored(byHand())].forEach((entry, i) => {
    expect(entry).toBeCloseTo(cofactors[i]! / 64, 14);
  });
});

test('the quadratic form is the product of a vector and its solution', () => {
  expect(quadraticForm(byHand(), Float64Array.of(6, 3, 11))).toBeCloseTo(6 - 3 + 22, 12);
});

test('a column that the earlier ones explain is named', () => {
  expect(factorPositiveDefinite(Float64Array.of(1, 0, 0, 0, 0, 0, 0, 0, 1), 3)).toEqual({
    dependentColumn: 1,
  });
  expect(factorPositiveDefinite(Float64Array.of(1, 0, 2, 4), 2)).toEqual({ dependentColumn: 1 });
  expect(factorPositiveDefinite(Float64Array.of(1, 0, 1, 1.05), 2, 0.1)).toEqual({
    dependentColumn: 1,
  });
  expect(factorPositiveDefinite(Float64Array.of(NaN), 1)).toEqual({ dependentColumn: 0 });
  expect(factorPositiveDefinite(Float64Array.of(1, 0, 1, 1 + 1e-10), 2)).toHaveProperty('lower');
});
