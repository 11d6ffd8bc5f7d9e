/**
 * Refuses a number that is not finite or lies outside the closed range a source (or sense) covers.
 * Returns the number, so that a guard can stand where the value is used.
 *
 * @throws RangeError naming the argument, the range that works, and what was given.
 */
export function requireRange(name: string, value: number, lowest: number, highest: number): number {
  if (!Number.isFinite(value) || value < lowest || value > highest) {
    throw new RangeError(
      `${name} must be a number from ${rangeWords(lowest, highest)}; got ${String(value)}`,
    );
  }
  return value;
}

/**
 * Refuses a number that is not finite or not above zero.
 *
 * @throws RangeError naming the argument and what was given.
 */
export function requirePositive(name: string, value: number): number {
  if (!Number.isFinite(value) || value <= 0) {
    throw new RangeError(`${name} must be a number above 0; got ${String(value)}`);
  }
  return value;
}

function rangeWords(lowest: number, highest: number): string {
  return highest === Infinity ? `${lowest} upwards` : `${lowest} to ${highest}`;
}
