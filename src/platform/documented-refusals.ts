import { ApiResponse, type ApiResponseOptions } from '@nestjs/swagger';
import { refusals, type RefusalCode } from '../core/refusal';
import { statusOf } from './problem';

type Headers = NonNullable<ApiResponseOptions['headers']>;

const refusalsKey = 'refusals';

/** Documents one refusal. Several of one status are told together. */
export function refuses(code: RefusalCode): MethodDecorator {
  return (target, name, descriptor) => {
    const method = descriptor.value as object;
    const told = (Reflect.getMetadata(refusalsKey, method) ?? []) as RefusalCode[];
    if (told.includes(code)) return;
    Reflect.defineMetadata(refusalsKey, [...told, code], method);
    const status = statusOf(code);
    const same = [...told, code].filter((one) => statusOf(one) === status);
    ApiResponse({ status, ...refusalResponse(same) })(
      target,
      name,
      descriptor as TypedPropertyDescriptor<unknown>,
    );
  };
}

/** How the OpenAPI document tells of refusals that share a status. */
export function refusalResponse(codes: RefusalCode[]): {
  description: string;
  headers: Headers;
  content: Record<string, { schema: { $ref: string } }>;
} {
  return {
    description: codes.map((one) => `${one}: ${refusals[one]}`).join(' '),
    headers: headersOf(statusOf(codes[0] ?? 'failure')),
    content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
  };
}

function headersOf(status: number): Headers {
  if (status === 401) {
    return {
      'WWW-Authenticate': {
        schema: { type: 'string', maxLength: 100 },
        description: 'Bearer (RFC 6750).',
      },
    };
  }
  if (status === 429 || status === 503) {
    return {
      'Retry-After': {
        schema: { type: 'string', maxLength: 10, pattern: '^\\d+$' },
        description: 'Seconds.',
      },
    };
  }
  return {};
}
