import { giveNewPassword } from './people/forgotten-password';
import { Database } from './platform/database';
import { readSettings } from './platform/settings';
import { startDatabase } from './platform/start-database';

/**
 * node dist/src/reset-password.js <email>: for the operator, when somebody has forgotten their password. Prints a new one, once; they
 * sign in with it and choose their own. With the service's own database (no DATABASE_URL) stop the service before.
 */
async function resetPassword(email: string | undefined): Promise<void> {
  if (email === undefined) throw new Error('Say whose: node dist/src/reset-password.js <email>');
  const settings = readSettings(process.env);
  const started = await startDatabase(settings);
  const database = new Database(started.url, settings);
  try {
    const password = await giveNewPassword(database, email);
    if (password === null) throw new Error(`Nobody has the e-mail ${email}.`);
    console.log(`The new password of ${email}: ${password}`);
    console.log('All sessions of this person have ended.');
  } finally {
    await database.onApplicationShutdown();
    await started.stop();
  }
}

resetPassword(process.argv[2]).catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
