import type { SettingObservation } from '../../../src/core/setting/observation';

/**
 * The likelihood over every cell of the time line, cut at each end into points and open gaps: no
 * candidate intervals, no Newton steps, so it shares nothing with the code under test.
 */
export function cellsOf(observations: readonly SettingObservation[]) {
  const ends = [...new Set(observations.flatMap(({ lower, upper }) => [lower, upper ?? lower]))];
  ends.sort((a, b) => a - b);
  const cells = ends.flatMap((end, i) => [
    { from: end, to: end },
    { from: end, to: ends[i + 1] ?? Infinity },
  ]);
  const covered = observations.map(({ lower, upper }) =>
    cells.map(({ from, to }) =>
      lower === upper
        ? from === lower && to === lower
        : from >= lower && to <= (upper ?? Infinity) && !(from === to && from === lower),
    ),
  );
  const weights = observations.map(({ weight }) => weight ?? 1);
  return { cells, covered, weights, n: weights.reduce((a, b) => a + b, 0) };
}

type Cells = ReturnType<typeof cellsOf>;

export function probabilitiesOf({ covered }: Cells, masses: readonly number[]): number[] {
  return covered.map((row) => masses.reduce((sum, mass, j) => (row[j] ? sum + mass : sum), 0));
}

/** For each cell, the sum over the observations that cover it of weight / probability. */
export function gradientOf(table: Cells, masses: readonly number[]): number[] {
  const probabilities = probabilitiesOf(table, masses);
  return table.cells.map((_, j) =>
    table.covered.reduce(
      (sum, row, i) => (row[j] ? sum + table.weights[i]! / probabilities[i]! : sum),
      0,
    ),
  );
}

/** Expectation-maximization (Dempster, Laird and Rubin 1977): slow, but each step climbs. */
export function massesByExpectation(table: Cells, steps: number): number[] {
  let masses = table.cells.map(() => 1 / table.cells.length);
  for (let step = 0; step < steps; step += 1) {
    const gradient = gradientOf(table, masses);
    masses = masses.map((mass, j) => (mass * gradient[j]!) / table.n);
  }
  return masses;
}
