/** Stands in place of a part that could not be reckoned. */
export class NotKnown {
  constructor(readonly reason: string) {}
}

/** A value rounded for the reader. */
export function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

/**
 * What the work gives, or why it gives nothing: a value that the club has on record may lie outside what the sources cover, and that
 * is told in place of the part.
 */
export function knownOr<Part>(work: () => Part | NotKnown): Part | NotKnown {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return new NotKnown(`Outside what the sources cover: ${error.message}.`);
  }
}
