/** So many questions of each calculator are remembered in this browser, with what the service answered. */
const mostKept = 12;

type Kept = [asked: string, answer: unknown][];

const nameOf = (calculator: string) => `reckoned-${calculator}`;

function read(calculator: string): Kept {
  try {
    return JSON.parse(localStorage.getItem(nameOf(calculator)) ?? '[]') as Kept;
  } catch (error) {
    // Somebody wrote something else there.
    if (error instanceof SyntaxError) return [];
    throw error;
  }
}

/** Remembers an answer for when there is no network. */
export function keepAnswer(calculator: string, asked: unknown, answer: unknown): void {
  const question = JSON.stringify(asked);
  const others = read(calculator).filter(([one]) => one !== question);
  const kept: Kept = [[question, answer], ...others].slice(0, mostKept) as Kept;
  try {
    localStorage.setItem(nameOf(calculator), JSON.stringify(kept));
  } catch (error) {
    // A full store is no reason not to show the answer.
    if (!(error instanceof DOMException)) throw error;
  }
}

/** What was answered when the same was asked before; undefined: it never was. */
export function keptAnswer(calculator: string, asked: unknown): unknown {
  const question = JSON.stringify(asked);
  return read(calculator).find(([one]) => one === question)?.[1];
}
