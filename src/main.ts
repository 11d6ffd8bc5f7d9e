import { dress } from './app';
import { applyMigrations } from './platform/migrations';
import { readSettings } from './platform/settings';
import { startDatabase } from './platform/start-database';

async function main(): Promise<void> {
  const settings = readSettings(process.env);
  const database = await startDatabase(settings);
  await applyMigrations(database.url);
  const app = await dress(database.url, settings);
  await app.listen(settings.port, settings.host);
  console.log(`The Creaming Room serves at ${await app.getUrl()} (its API: /api/docs).`);

  let isStopping = false;
  const stop = async (): Promise<void> => {
    if (isStopping) return;
    isStopping = true;
    // What has begun is answered before the database goes.
    await app.close();
    await database.stop();
  };
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.on(signal, () => {
      stop().catch(fail);
    });
  }
}

function fail(error: unknown): void {
  console.error(error);
  process.exit(1);
}

main().catch(fail);
