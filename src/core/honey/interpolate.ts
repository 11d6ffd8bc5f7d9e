/**
 * The value of a straight line drawn from node to node, at `position`.
 * `positions` rise strictly and are as many as `values`, at least two; `position` lies within them
 * (the caller guards its own range and names it in its own error). Exact at every node.
 */
export function interpolate(
  positions: readonly number[],
  values: readonly number[],
  position: number,
): number {
  const lastPiece = positions.length - 1;
  let right = 1;
  while (right < lastPiece && position > nth(positions, right)) right += 1;
  const from = nth(positions, right - 1);
  const fraction = (position - from) / (nth(positions, right) - from);
  return nth(values, right - 1) * (1 - fraction) + nth(values, right) * fraction;
}

function nth(numbers: readonly number[], index: number): number {
  return numbers[index] as number;
}
