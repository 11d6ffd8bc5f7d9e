import { at } from './at';

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
  let right = 1;
  while (right < positions.length - 1 && position > at(positions, right)) right += 1;
  const from = at(positions, right - 1);
  const fraction = (position - from) / (at(positions, right) - from);
  return at(values, right - 1) * (1 - fraction) + at(values, right) * fraction;
}
