import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { OpenAPIObject } from '@nestjs/swagger';
import { dress } from '../../src/app';
import { Database } from '../../src/platform/database';
import { readSettings } from '../../src/platform/settings';
import { aDatabase, type TestDatabase } from './database';

/** The service as it runs in production, on an empty database of its own and a port of loopback. */
export interface Service {
  app: NestFastifyApplication;
  database: TestDatabase;
  prisma: Database['prisma'];
  /** Such as http://127.0.0.1:40123 */
  url: string;
  document: OpenAPIObject;
}

/** Starts the service before the tests of a file and stops it afterwards. Read its members inside tests only. */
export function useService(environment: Record<string, string> = {}): Service {
  const service = {} as Service;
  beforeAll(async () => {
    const database = await aDatabase();
    const settings = readSettings({ LOG_LEVEL: 'silent', ...environment });
    const app = await dress(database.url, settings);
    await app.listen(0, '127.0.0.1');
    const url = await app.getUrl();
    const answer = await fetch(`${url}/api/openapi.json`);
    const document = (await answer.json()) as OpenAPIObject;
    const { prisma } = app.get(Database);
    Object.assign(service, { app, database, prisma, url, document });
  });
  afterAll(async () => {
    await service.app.close();
    await service.database.drop();
  });
  return service;
}
