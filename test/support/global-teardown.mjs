import { readFile, rm } from 'node:fs/promises';
import { unseenAnswers } from './unseen-answers.mjs';

export default async function tearDown() {
  const file = process.env.SEEN_ANSWERS_FILE;
  const seen = file && (await readFile(file, 'utf8'));
  await globalThis.testDatabase.stop();
  await rm(globalThis.testDatabase.folder, { recursive: true, force: true });
  if (!seen) return;

  const unseen = await unseenAnswers(seen.split('\n'));
  if (unseen.length > 0) {
    throw new Error(`openapi.json promises answers that no test has seen:\n${unseen.join('\n')}`);
  }
}
