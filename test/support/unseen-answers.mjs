import { readFile } from 'node:fs/promises';

/** Statuses that every operation documents, and that a test provokes on a few for all: test/api/conventions.test.ts. */
const forAll = new Set(['500', '503']);

/** Answers that openapi.json promises and no test can bring about, each with the reason. */
const outOfReach = new Map([
  // 'operation status': why
]);

/** What openapi.json promises and is not among the answers that were seen, as `operation status`. */
export async function unseenAnswers(seen) {
  const document = JSON.parse(
    await readFile(new URL('../../openapi.json', import.meta.url), 'utf8'),
  );
  const known = new Set([...seen, ...outOfReach.keys()]);
  return Object.values(document.paths)
    .flatMap((item) => Object.values(item))
    .flatMap(({ operationId, responses }) =>
      Object.keys(responses)
        .filter((status) => !forAll.has(status))
        .map((status) => `${operationId} ${status}`),
    )
    .filter((answer) => !known.has(answer));
}
