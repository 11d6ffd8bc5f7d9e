import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import '@fastify/cookie';
import type { FastifyRequest } from 'fastify';
import type { IdempotencyClaim } from './idempotency';
import type { Role, TokenScope } from './prisma-client/enums';

/** Who asks, and under which conditions. The guard makes it; every service method takes it first. */
export interface AnyCaller {
  requestId: string;
  /** From If-Match, where the route asks for it. */
  ifMatch: string | null;
  /** From Idempotency-Key, where the route takes it and the caller sent it. */
  idempotency: IdempotencyClaim | null;
}

export interface PersonCaller extends AnyCaller {
  personId: string;
  personName: string;
  sessionId: string | null;
  tokenId: string | null;
  /** A token's; none: a browser session, which may do all that its person may. */
  scopes: TokenScope[] | null;
}

export interface ClubCaller extends PersonCaller {
  clubId: string;
  memberId: string;
  role: Role;
}

export interface CallerRequest extends FastifyRequest {
  caller?: AnyCaller;
  /** passport's name for whom it found. */
  user?: unknown;
}

/** The address under which the caller reached the service, such as https://honey.example.org, as a controller's parameter. */
export const ReachedAt = createParamDecorator((_: unknown, context: ExecutionContext) => {
  const { protocol, host } = context.switchToHttp().getRequest<FastifyRequest>();
  return `${protocol}://${host}`;
});

/** The caller, as a controller's parameter. Its type is the one that the route's @Allow promises. */
export const Caller = createParamDecorator(
  (_: unknown, context: ExecutionContext) =>
    context.switchToHttp().getRequest<CallerRequest>().caller,
);
