/** Lots that somebody waits for, by their refs. */
export class LotsToCome {
  private readonly lots = new Map<string, { promise: Promise<void>; resolve: () => void }>();

  isThere(ref: string): void {
    this.lot(ref).resolve();
  }

  async come(refs: readonly string[]): Promise<void> {
    await Promise.all(refs.map((ref) => this.lot(ref).promise));
  }

  private lot(ref: string) {
    const known = this.lots.get(ref);
    if (known !== undefined) return known;
    let resolve: () => void = () => undefined;
    const promise = new Promise<void>((done) => (resolve = done));
    const made = { promise, resolve };
    this.lots.set(ref, made);
    return made;
  }
}
