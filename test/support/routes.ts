import { RequestMethod } from '@nestjs/common';
import { DiscoveryService, MetadataScanner } from '@nestjs/core';
import {
  allowKey,
  behaviourKey,
  type AllowRule,
  type RouteBehaviour,
} from '../../src/platform/routes';
import { servedRoutes, type ServedRoute } from '../../src/platform/route-table';
import type { Things } from './full-club';
import type { Service } from './service';

/** A route of the API, with what its controller declares about it. */
export interface DeclaredRoute {
  method: 'get' | 'post' | 'patch' | 'put' | 'delete';
  /** Below /api/v1, such as /clubs/:clubId. */
  path: string;
  /** Such as GET /clubs/:clubId */
  name: string;
  rule: AllowRule;
  behaviour: RouteBehaviour;
}

const prefix = '/api/v1';

/** All routes below /api/v1 that controllers declare. */
export function declaredRoutes({ app }: Service): DeclaredRoute[] {
  const scanner = new MetadataScanner();
  const routes: DeclaredRoute[] = [];
  for (const { instance, metatype } of app.get(DiscoveryService).getControllers()) {
    const prototype = Object.getPrototypeOf(instance) as Record<string, object>;
    for (const name of scanner.getAllMethodNames(prototype)) {
      const handler = prototype[name]!;
      const ownPath = Reflect.getMetadata('path', handler) as string | undefined;
      if (ownPath === undefined) continue;
      const path = `/${[Reflect.getMetadata('path', metatype as object) as string, ownPath].flatMap(partsOf).join('/')}`;
      const method = RequestMethod[Reflect.getMetadata('method', handler) as RequestMethod];
      routes.push({
        method: method.toLowerCase() as DeclaredRoute['method'],
        path,
        name: `${method} ${path}`,
        rule: Reflect.getMetadata(allowKey, handler) as AllowRule,
        behaviour: Reflect.getMetadata(behaviourKey, handler) as RouteBehaviour,
      });
    }
  }
  return routes.filter(({ path }) => !isForOperators(path));
}

/** The same as the router knows them; without HEAD, which comes with every GET. */
export function servedApiRoutes(): ServedRoute[] {
  return servedRoutes().filter(({ method, path }) => method !== 'HEAD' && path.startsWith(prefix));
}

/** All that is served beside the API: for whoever runs it, and for its readers. */
export function otherServedPaths(): string[] {
  return servedRoutes()
    .filter(({ path }) => !path.startsWith(prefix))
    .map(({ path }) => path);
}

function isForOperators(path: string): boolean {
  return /^\/(health|metrics|problems)\b/.test(path);
}

function partsOf(path: string | undefined): string[] {
  return (path ?? '').split('/').filter((part) => part !== '');
}

/** The address of a route with real things in it; throws when there is none of a kind. */
export function addressOf({ path }: { path: string }, things: Things): string {
  return path.replace(/([\w-]+)\/:(\w+)/g, (_, word: string, parameter: string) => {
    const thing = parameter === 'code' ? things['code'] : things[word];
    if (thing === undefined) throw new Error(`aFullClub makes nothing for ${word}/:${parameter}.`);
    return `${word}/${thing}`;
  });
}
