import {
  Injectable,
  type CallHandler,
  type ExecutionContext,
  type NestInterceptor,
} from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import type { FastifyReply } from 'fastify';
import { map, type Observable } from 'rxjs';
import type { CallerRequest } from './caller';
import type { Page } from './paging';
import { behaviourKey, type RouteBehaviour } from './routes';

/** Adds to an answer the headers that its route's behaviour asks for. */
@Injectable()
export class AnswerInterceptor implements NestInterceptor {
  constructor(private readonly reflector: Reflector) {}

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const behaviour = this.reflector.get<RouteBehaviour>(behaviourKey, context.getHandler());
    const request = context.switchToHttp().getRequest<CallerRequest>();
    const reply = context.switchToHttp().getResponse<FastifyReply>();
    return next.handle().pipe(
      map((answer: unknown) => {
        if (behaviour.showsSecret === true) reply.header('cache-control', 'no-store');
        if (request.caller?.idempotency?.replayed === true) {
          reply.header('idempotent-replayed', 'true');
        }
        if (behaviour.creates === true) {
          reply.header('location', `${path(request)}/${(answer as { id: string }).id}`);
        }
        if (behaviour.lists === true) {
          reply.header('x-list', '1');
          const { nextCursor } = answer as Page<unknown>;
          if (nextCursor !== null)
            reply.header('link', `<${nextPage(request, nextCursor)}>; rel="next"`);
        }
        return answer;
      }),
    );
  }
}

function path(request: CallerRequest): string {
  return request.url.split('?')[0] ?? '';
}

function nextPage(request: CallerRequest, cursor: string): string {
  const query = new URLSearchParams(request.url.split('?')[1]);
  query.set('cursor', cursor);
  return `${path(request)}?${query.toString()}`;
}
