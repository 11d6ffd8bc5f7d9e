import type { Server } from 'node:http';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { dress } from './app';
import { Jobs } from './jobs/jobs.service';
import { applyMigrations } from './platform/migrations';
import type { Settings } from './platform/settings';
import { startDatabase } from './platform/start-database';

/** The running service. */
export interface Serving {
  /** Such as http://127.0.0.1:3000 */
  url: string;
  /** Answers what has begun, then lets the database go. Further calls wait for the first. */
  stop(): Promise<void>;
}

/** Starts the database, brings it up to date, and serves. What was started is stopped again when a later part fails. */
export async function serve(settings: Settings): Promise<Serving> {
  const database = await startDatabase(settings);
  try {
    await applyMigrations(database.url);
    const app = await dress(database.url, settings);
    try {
      await app.listen(settings.port, settings.host);
      await app.get(Jobs).start();
    } catch (error) {
      await app.close();
      throw error;
    }
    const url = await app.getUrl();
    let stopped: Promise<void> | undefined;
    return { url, stop: () => (stopped ??= close(app).then(() => database.stop())) };
  } catch (error) {
    await database.stop();
    throw error;
  }
}

/** A connection that is kept open after its last answer would hold the service for more than a minute: such ones are closed, too. */
async function close(app: NestFastifyApplication): Promise<void> {
  const server: Server = app.getHttpServer();
  const sweeping = setInterval(() => {
    server.closeIdleConnections();
  }, 100);
  await app.close().finally(() => {
    clearInterval(sweeping);
  });
}

/** Stops the service when the operator or the system asks this process to end. */
export function stopWhenAsked(serving: Serving): void {
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.on(signal, () => {
      serving.stop().catch(fail);
    });
  }
}

/** Says what went wrong and ends the process. */
export function fail(error: unknown): void {
  console.error(error);
  process.exit(1);
}
