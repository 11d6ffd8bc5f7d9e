import { EmbeddedDatabase, startEmbeddedPostgres } from './embedded-postgres';
import { Settings } from './settings';

/** The database that the settings name, or the service's own, started. */
export async function startDatabase(settings: Settings): Promise<EmbeddedDatabase> {
  if (settings.databaseUrl !== null) {
    return { url: settings.databaseUrl, stop: () => Promise.resolve() };
  }
  return startEmbeddedPostgres(settings.dataFolder, 'creaming_room');
}
