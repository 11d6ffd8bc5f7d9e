import {
  Injectable,
  ValidationPipe,
  type ArgumentMetadata,
  type PipeTransform,
} from '@nestjs/common';
import type { ValidationError } from 'class-validator';
import { Refusal, type Fault } from '../core/refusal';
import { isId } from './fields';

/** The door for bodies and queries: unknown fields are refused, every fault is named. */
@Injectable()
export class RequestPipe implements PipeTransform {
  private readonly body = pipe((errors) => faultsIn(errors, '#'));
  private readonly query = pipe((errors) =>
    errors.map(({ property, constraints }) => ({
      parameter: property,
      detail: `${property} ${wordsOf(constraints)}.`,
    })),
  );

  async transform(value: unknown, metadata: ArgumentMetadata): Promise<unknown> {
    switch (metadata.type) {
      case 'body':
        refuseUnlessObject(value);
        return this.body.transform(value, metadata);
      case 'query':
        return this.query.transform(value, metadata);
      case 'param':
        // An id that cannot be one names nothing.
        if (metadata.data?.toLowerCase().endsWith('id') === true && !isId(value)) {
          throw new Refusal('not-found');
        }
        return value;
      case 'custom':
        return value;
    }
  }
}

function pipe(faultsOf: (errors: ValidationError[]) => Fault[]): ValidationPipe {
  return new ValidationPipe({
    whitelist: true,
    forbidNonWhitelisted: true,
    transform: true,
    stopAtFirstError: true,
    exceptionFactory: (errors) => {
      const faults = faultsOf(errors);
      return new Refusal('invalid', faults.map((fault) => fault.detail).join(' '), {
        errors: faults,
      });
    },
  });
}

function refuseUnlessObject(value: unknown): void {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    const detail = 'The body must be a JSON object.';
    throw new Refusal('invalid', detail, { errors: [{ pointer: '#', detail }] });
  }
}

/** Every fault with its JSON Pointer (RFC 6901); that of a missing member is its parent's. */
function faultsIn(errors: ValidationError[], above: string): Fault[] {
  return errors.flatMap(({ property, value, constraints, children }) => {
    const own = `${above}/${escaped(property)}`;
    const within = faultsIn(children ?? [], own);
    if (constraints === undefined) return within;
    const pointer = value === undefined ? above : own;
    return [{ pointer, detail: `${property} ${wordsOf(constraints)}.` }, ...within];
  });
}

function wordsOf(constraints: Record<string, string> | undefined): string {
  const [kind, words] = Object.entries(constraints ?? {})[0] ?? ['', 'cannot be accepted'];
  return kind === 'whitelistValidation' ? 'is not a known field' : words;
}

function escaped(member: string): string {
  // First for the pointer (RFC 6901, 3), then for the fragment (section 6).
  return encodeURIComponent(member.replaceAll('~', '~0').replaceAll('/', '~1'));
}
