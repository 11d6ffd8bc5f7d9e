import { mkdtemp, chmod } from 'node:fs/promises';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';

// One PostgreSQL for the run, with one migrated database that every test file copies. Durability is off: nothing here outlives the run.

const require = createRequire(import.meta.url);

export default async function setUp({ testPathPatterns, shard }) {
  const { startEmbeddedPostgres } = require('../../dist/src/platform/embedded-postgres.js');
  const { applyMigrations } = require('../../dist/src/platform/migrations.js');
  const folder = await mkdtemp(path.join(os.tmpdir(), 'creaming-room-test-'));
  await chmod(folder, 0o755);
  const database = await startEmbeddedPostgres(folder, 'test_template', [
    '-c fsync=off',
    '-c synchronous_commit=off',
    '-c full_page_writes=off',
    '-c max_connections=200',
  ]);
  await applyMigrations(database.url);
  process.env.TEST_TEMPLATE_URL = database.url;
  // A whole run counts which documented answers were seen: see global-teardown.mjs.
  const isWhole = testPathPatterns.patterns.length === 0 && shard === undefined;
  if (isWhole) process.env.SEEN_ANSWERS_FILE = path.join(folder, 'seen-answers');
  globalThis.testDatabase = { ...database, folder };
}
