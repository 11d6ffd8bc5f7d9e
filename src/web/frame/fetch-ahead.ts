import { queries } from '../api/queries';

const readingMs = 1500;

interface Connection {
  saveData?: boolean;
}

/**
 * Fetches the screens that nobody has opened yet, one after the other, while the person reads the first: on a slow network a tap then waits
 * for its answer alone. Not where the person asks to save data.
 */
export function fetchAhead(loads: (() => Promise<unknown>)[]): void {
  const { connection } = navigator as { connection?: Connection };
  if (connection?.saveData === true) return;
  const timer = setInterval(() => {
    // What is on the screen comes first.
    if (queries.isFetching() > 0) return;
    clearInterval(timer);
    void inTurns(loads);
  }, readingMs);
}

async function inTurns(loads: (() => Promise<unknown>)[]): Promise<void> {
  for (const load of loads) {
    // Without a network it is fetched when it is needed, and said so then.
    await load().catch(() => undefined);
  }
}
