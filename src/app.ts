import type { IncomingMessage } from 'node:http';
import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import { RequestMethod, ConsoleLogger, type INestApplicationContext } from '@nestjs/common';
import { DiscoveryService, MetadataScanner, NestFactory, Reflector } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import { SwaggerModule } from '@nestjs/swagger';
import { LogController } from 'fastify';
import { AppModule } from './app.module';
import { compressAnswers } from './platform/compress';
import { takeCsv } from './platform/csv';
import { tagEntities } from './platform/entity-tag';
import { logRequests, openLog, requestIdOf } from './platform/log';
import { countRequests } from './platform/metrics';
import { describeApi } from './platform/open-api';
import { servePage } from './platform/page';
import { noteRoutes } from './platform/route-table';
import { allowKey, behaviourKey } from './platform/routes';
import type { Settings } from './platform/settings';
import { answerNoRequest, answerUnreadableAddress } from './platform/unreadable';
import { refuseOddBodies } from './platform/validation';

/** The service on that database, dressed and ready to listen: the same in production and in every test. */
export async function dress(
  databaseUrl: string,
  settings: Settings,
): Promise<NestFastifyApplication> {
  const adapter = new FastifyAdapter({
    loggerInstance: openLog(settings.logLevel),
    logController: new LogController({ disableRequestLogging: true }),
    genReqId: (request: Pick<IncomingMessage, 'headers'>) => requestIdOf(request.headers),
    trustProxy: settings.trustProxy && nearestOnly,
    bodyLimit: 1_048_576,
    // An id of any length that the headers have room for names nothing, like any other that cannot be one.
    routerOptions: { maxParamLength: 16_384 },
    frameworkErrors: answerUnreadableAddress,
    clientErrorHandler: answerNoRequest,
    requestTimeout: 30_000,
    // Node looks for requests that drip every 30 s unless told otherwise.
    http: { connectionsCheckingInterval: 1_000, headersTimeout: 10_000 },
  });
  const fastify = adapter.getInstance();
  fastify.removeContentTypeParser('text/plain');
  takeCsv(fastify);
  await servePage(fastify);
  noteRoutes(fastify);
  logRequests(fastify);
  countRequests(fastify);

  const app = await NestFactory.create<NestFastifyApplication>(
    AppModule.on(databaseUrl, settings),
    adapter,
    {
      logger: new ConsoleLogger({ json: true, logLevels: ['warn', 'error', 'fatal'] }),
      // Fastify reads JSON by itself; Nest would add forms, which any page of another site can send.
      bodyParser: false,
    },
  );
  await app.register(cookie);
  await app.register(helmet, {
    hsts: { maxAge: 31_536_000 },
    // A club's own machine may serve plain HTTP: the page's own files must not be looked for behind HTTPS.
    contentSecurityPolicy: { directives: { upgradeInsecureRequests: null } },
  });
  // After helmet, so that its headers stand on a 304 too.
  tagEntities(fastify);
  compressAnswers(fastify);
  refuseOddBodies(fastify);

  app.setGlobalPrefix('api/v1', {
    exclude: [
      { path: 'health/*path', method: RequestMethod.GET },
      { path: 'metrics', method: RequestMethod.GET },
      { path: 'problems', method: RequestMethod.GET },
      { path: 'problems/*path', method: RequestMethod.GET },
    ],
  });
  refuseUndeclaredRoutes(app);
  const document = describeApi(app);
  SwaggerModule.setup('api/docs', app, document, {
    jsonDocumentUrl: 'api/openapi.json',
    customSiteTitle: 'The Creaming Room: REST API',
  });
  await app.init();
  await fastify.ready();
  return app;
}

/** Takes the nearest proxy's word for a caller's address; what stands before it in the header, anybody can write. */
function nearestOnly(_address: string, hop: number): boolean {
  return hop === 0;
}

/** Throws when a route does not say who may use it and what it answers. */
export function refuseUndeclaredRoutes(app: INestApplicationContext): void {
  const reflector = app.get(Reflector);
  const scanner = new MetadataScanner();
  for (const { instance } of app.get(DiscoveryService).getControllers()) {
    const prototype = Object.getPrototypeOf(instance) as Record<string, () => unknown>;
    for (const name of scanner.getAllMethodNames(prototype)) {
      const method = prototype[name];
      if (method === undefined || Reflect.getMetadata('path', method) === undefined) continue;
      for (const key of [allowKey, behaviourKey]) {
        if (reflector.get(key, method) === undefined) {
          throw new Error(`${prototype.constructor.name}.${name} declares no "${key}".`);
        }
      }
    }
  }
}
