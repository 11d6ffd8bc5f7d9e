import { rm } from 'node:fs/promises';

export default async function tearDown() {
  await globalThis.testDatabase.stop();
  await rm(globalThis.testDatabase.folder, { recursive: true, force: true });
}
