/**
 * The number at an index of a numeric array.
 * Throws RangeError outside the array, so that a slip in an index cannot pass as NaN. Takes one kind
 * of array only, whole numbers included: the hot loops of this folder run on it, and engines make
 * it free of charge only while it sees one kind.
 */
export function at(values: Float64Array, index: number): number {
  const value = values[index];
  if (value === undefined) {
    throw new RangeError(`index must be from 0 to ${values.length - 1}, got ${index}`);
  }
  return value;
}
