/** A reckoned number, to the three figures that it is worth. */
export function threeFigures(value: number): string {
  return value.toLocaleString(undefined, { maximumSignificantDigits: 3 });
}
