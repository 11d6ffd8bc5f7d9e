import {
  Injectable,
  ValidationPipe,
  type ArgumentMetadata,
  type PipeTransform,
} from '@nestjs/common';
import type { ValidationError } from 'class-validator';
import type { FastifyInstance } from 'fastify';
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
        refuseBorrowedNames(value);
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

/** So many are named: whoever sends ten thousand rows in the wrong form needs no more. */
const mostFaults = 100;
const mostInWords = 20;

/** Faults in one text. */
export function wordsOfFaults(faults: Fault[]): string {
  const told = faults.slice(0, mostInWords).map(({ detail }) => detail);
  const more = faults.length - told.length;
  return [...told, ...(more > 0 ? [`And ${more} more.`] : [])].join(' ');
}

const deepest = 20;
const longestList = 20_000;

/** Refuses bodies nested deeper, or with longer lists, than any request is, before something that looks at each part reads them. */
export function refuseOddBodies(fastify: FastifyInstance): void {
  fastify.addHook('preValidation', (request, _reply, done) => {
    if (isDeeper(request.body, deepest)) {
      done(new Refusal('malformed', `The body is nested deeper than ${deepest} levels.`));
    } else if (hasLongerList(request.body)) {
      done(new Refusal('too-large', `No list may have more than ${longestList} entries.`));
    } else done();
  });
}

function isDeeper(value: unknown, levels: number): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return levels === 0 || Object.values(value).some((within) => isDeeper(within, levels - 1));
}

/** A list that no field takes would be looked through entry by entry all the same: a megabyte of them takes seconds. */
function hasLongerList(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return (
    (Array.isArray(value) && value.length > longestList) || Object.values(value).some(hasLongerList)
  );
}

function pipe(faultsOf: (errors: ValidationError[]) => Fault[]): ValidationPipe {
  return new ValidationPipe({
    whitelist: true,
    forbidNonWhitelisted: true,
    transform: true,
    stopAtFirstError: true,
    exceptionFactory: (errors) => {
      const faults = faultsOf(errors).slice(0, mostFaults);
      return new Refusal('invalid', wordsOfFaults(faults), { errors: faults });
    },
  });
}

function refuseUnlessObject(value: unknown): asserts value is object {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    const detail = 'The body must be a JSON object.';
    throw new Refusal('invalid', detail, { errors: [{ pointer: '#', detail }] });
  }
}

/** class-validator takes a member for known when every object has one of its name, such as toString. */
function refuseBorrowedNames(body: object): void {
  const faults = borrowedNames(body, '#');
  if (faults.length > 0) {
    throw new Refusal('invalid', wordsOfFaults(faults), { errors: faults.slice(0, mostFaults) });
  }
}

function borrowedNames(value: unknown, above: string): Fault[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([member, within]) => {
    const pointer = `${above}/${escaped(member)}`;
    return member in Object.prototype
      ? [{ pointer, detail: `${member} is not a known field.` }]
      : borrowedNames(within, pointer);
  });
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
