import { applyDecorators, HttpCode, SetMetadata, type Type } from '@nestjs/common';
import { RouteConfig } from '@nestjs/platform-fastify';
import {
  ApiBearerAuth,
  ApiCookieAuth,
  ApiExtraModels,
  ApiOperation,
  ApiResponse,
  getSchemaPath,
} from '@nestjs/swagger';
import type { RefusalCode } from '../core/refusal';
import {
  idempotencyHeader,
  linkHeader,
  locationHeader,
  matchHeader,
  tagHeader,
} from './documented-headers';
import { refuses } from './documented-refusals';
import type { TokenScope } from './prisma-client/enums';

// Every route carries @Allow (who may) and one of @Answers, @Lists, @Creates, @Acts, @Records, @Reckons, @Changes, @Removes (what comes back;
// files: file-answers.ts). They rule the guard and the interceptors, and write the same into the OpenAPI document.

/** Who may use a route, and which scope a token needs for it; `session`: no token will do. */
export type AllowRule =
  { who: 'anyone' } | { who: 'person' | 'member' | 'steward'; scope: TokenScope | 'session' };

export const allowKey = 'allow';
export const behaviourKey = 'behaviour';

export interface RouteBehaviour {
  creates?: boolean;
  lists?: boolean;
  needsMatch?: boolean;
  takesIdempotencyKey?: boolean;
  showsSecret?: boolean;
}

/** Open to everybody, signed in or not. */
export function AllowAnyone(): MethodDecorator {
  return SetMetadata(allowKey, { who: 'anyone' } satisfies AllowRule);
}

/**
 * `person`: whoever is signed in. `member`: a member of the club in the address. `steward`: a steward of it. Whoever is not in the club
 * gets 404.
 */
export function Allow(
  who: 'person' | 'member' | 'steward',
  scope: TokenScope | 'session',
): MethodDecorator {
  return applyDecorators(
    SetMetadata(allowKey, { who, scope } satisfies AllowRule),
    ApiCookieAuth('session'),
    ...(scope === 'session' ? [] : [ApiBearerAuth('token')]),
    refuses('sign-in-needed'),
    refuses('not-allowed'),
    ...(who === 'person' ? [] : [refuses('not-found')]),
  );
}

/**
 * Lets whoever has the secret of a calendar feed in, too, as the member whose feed it is: calendar programs send no headers, so it stands in
 * the query, as `feed`. It opens no other route.
 */
export function AllowFeed(): MethodDecorator {
  return RouteConfig({ allowsFeed: true });
}

type Model = Type;

function answered(model: Model, description = 'As it stands now.'): MethodDecorator {
  return ApiResponse({ status: 200, type: model, description, headers: { ETag: tagHeader } });
}

export const notChanged = ApiResponse({
  status: 304,
  description: 'Not changed since If-None-Match.',
});

/** Answers 200 with one thing. */
export function Answers(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    SetMetadata(behaviourKey, {} satisfies RouteBehaviour),
    ApiOperation({ summary }),
    answered(model),
    notChanged,
    ...more.map(refuses),
  );
}

/** Answers 200 with a page of things. */
export function Lists(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    SetMetadata(behaviourKey, { lists: true } satisfies RouteBehaviour),
    ApiOperation({ summary }),
    ApiExtraModels(model),
    ApiResponse({
      status: 200,
      description: 'A page; Link rel="next" and nextCursor lead to the next one.',
      headers: { ETag: tagHeader, Link: linkHeader },
      schema: {
        type: 'object',
        required: ['items', 'nextCursor'],
        additionalProperties: false,
        properties: {
          items: { type: 'array', maxItems: 200, items: { $ref: getSchemaPath(model) } },
          nextCursor: { type: 'string', nullable: true, maxLength: 500 },
        },
      },
    }),
    notChanged,
    refuses('bad-cursor'),
    refuses('invalid'),
    ...more.map(refuses),
  );
}

/** Answers 201 with what was made, and its address in Location where it has one. Takes an Idempotency-Key, unless told otherwise. */
export function Creates(
  model: Model,
  summary: string,
  options: {
    refuses?: RefusalCode[];
    location?: boolean;
    showsSecret?: boolean;
    takesIdempotencyKey?: boolean;
  } = {},
): MethodDecorator {
  const { location = true, showsSecret = false, takesIdempotencyKey = true } = options;
  return applyDecorators(
    SetMetadata(behaviourKey, {
      creates: location,
      takesIdempotencyKey,
      showsSecret,
    } satisfies RouteBehaviour),
    ApiOperation({ summary }),
    ...(takesIdempotencyKey ? [idempotencyHeader] : []),
    ApiResponse({
      status: 201,
      type: model,
      description: 'Made.',
      headers: {
        ...(location && { Location: locationHeader }),
        ...(!showsSecret && { ETag: tagHeader }),
        ...(takesIdempotencyKey && {
          'Idempotent-Replayed': {
            schema: { type: 'string', enum: ['true'] },
            description:
              'There when this is the kept answer to an earlier request with the same key.',
          },
        }),
      },
    }),
    ...bodyRefusals,
    ...(takesIdempotencyKey ? keyRefusals : []),
    ...(options.refuses ?? []).map(refuses),
  );
}

/** Answers 200 with the thing after something was done to it. Takes an Idempotency-Key. */
export function Acts(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    HttpCode(200),
    SetMetadata(behaviourKey, { takesIdempotencyKey: true } satisfies RouteBehaviour),
    ApiOperation({ summary }),
    idempotencyHeader,
    answered(model),
    ...bodyRefusals,
    ...keyRefusals,
    ...more.map(refuses),
  );
}

/**
 * Answers 200 with what became of records that were sent. What is on record already is only counted, so sending the same again has no
 * further effect, and no Idempotency-Key is taken.
 */
export function Records(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    HttpCode(200),
    SetMetadata(behaviourKey, {} satisfies RouteBehaviour),
    ApiOperation({
      summary,
      description:
        'What is on record already is only counted: sending the same again is safe, and needs no Idempotency-Key.',
    }),
    answered(model, 'Recorded.'),
    ...bodyRefusals,
    ...more.map(refuses),
  );
}

/** Answers 200 with what was reckoned from the body. It makes and changes nothing, so it takes no Idempotency-Key. */
export function Reckons(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    HttpCode(200),
    SetMetadata(behaviourKey, {} satisfies RouteBehaviour),
    ApiOperation({ summary }),
    answered(model, 'The result, and what it stands on.'),
    ...bodyRefusals,
    ...more.map(refuses),
  );
}

/** Answers 200 with the changed thing. Needs If-Match. */
export function Changes(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    SetMetadata(behaviourKey, { needsMatch: true } satisfies RouteBehaviour),
    ApiOperation({ summary }),
    matchHeader,
    answered(model),
    ...bodyRefusals,
    refuses('stale'),
    refuses('match-needed'),
    ...more.map(refuses),
  );
}

/** Answers 204. Needs If-Match, unless there is nothing to match. */
export function Removes(
  summary: string,
  options: { refuses?: RefusalCode[]; needsMatch?: boolean } = {},
): MethodDecorator {
  const { needsMatch = true } = options;
  return applyDecorators(
    HttpCode(204),
    SetMetadata(behaviourKey, { needsMatch } satisfies RouteBehaviour),
    ApiOperation({ summary }),
    ApiResponse({ status: 204, description: 'Gone.' }),
    refuses('cross-site'),
    ...(needsMatch ? [matchHeader, refuses('stale'), refuses('match-needed')] : []),
    ...(options.refuses ?? []).map(refuses),
  );
}

const bodyRefusals = (
  ['malformed', 'cross-site', 'too-large', 'wrong-media-type', 'invalid'] as const
).map(refuses);

const keyRefusals = (['bad-idempotency-key', 'request-running', 'key-reused'] as const).map(
  refuses,
);
