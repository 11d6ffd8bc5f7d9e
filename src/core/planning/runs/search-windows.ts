import type { MinuteSpan } from './minute-spans';
import type { RunRoom } from './run-room';

/** Bench starts that are looked at together, and when their honey must be ready and their pots on the shelf. */
export type SearchWindow = {
  readonly bench: MinuteSpan;
  readonly ready: MinuteSpan;
  readonly shelf: MinuteSpan;
};

const FIRST_LENGTH_MINUTES = 24 * 60;
const LONGEST_LENGTH_MINUTES = 16 * 24 * 60;

/**
 * One window after the other, from the earliest start of the bench slot on: the first a day long, each twice as long as
 * the one before, up to sixteen days. Always the same objects, so that what was found in one can be remembered by it.
 */
export class SearchWindows {
  private readonly known: SearchWindow[] = [];

  constructor(private readonly runRoom: RunRoom) {}

  at(index: number): SearchWindow {
    const { run, benchStarts } = this.runRoom;
    for (let next = this.known.length; next <= index; next++) {
      const before = this.known[next - 1]?.bench;
      const first = before ? before.last + 1 : benchStarts.first;
      const length = before
        ? Math.min(2 * (first - before.first), LONGEST_LENGTH_MINUTES)
        : FIRST_LENGTH_MINUTES;
      const last = first + length - 1;
      const { minutes } = run.bench;
      this.known.push({
        bench: { first, last },
        ready: { first: first - run.maxStandMinutes, last },
        shelf: { first: first + minutes, last: last + minutes + run.maxShelveMinutes },
      });
    }
    return this.known[index] as SearchWindow;
  }
}
