import { randomUUID } from 'node:crypto';
import type { OpenAPIObject } from '@nestjs/swagger';
import fc from 'fast-check';
import type { Things } from './full-club';

/** As much of JSON Schema as the OpenAPI document uses. */
export interface Schema {
  $ref?: string;
  allOf?: Schema[];
  anyOf?: Schema[];
  type?: string | string[];
  enum?: unknown[];
  format?: string;
  pattern?: string;
  minLength?: number;
  maxLength?: number;
  minimum?: number;
  maximum?: number;
  items?: Schema;
  minItems?: number;
  maxItems?: number;
  properties?: Record<string, Schema>;
  required?: string[];
  additionalProperties?: boolean;
}

export interface Parameter {
  name: string;
  in: string;
  required: boolean;
  schema: Schema;
}

export interface Operation {
  method: 'get' | 'post' | 'patch' | 'put' | 'delete';
  /** Below /api/v1, such as /clubs/:clubId. */
  path: string;
  name: string;
  body: Schema | null;
  query: Parameter[];
}

interface DocumentedOperation {
  parameters?: Parameter[];
  requestBody?: { content: Record<string, { schema: Schema }> };
}

export function operationsOf(document: OpenAPIObject): Operation[] {
  return Object.entries(document.paths).flatMap(([template, item]) =>
    Object.entries(item as Record<string, DocumentedOperation>).map(([method, operation]) => {
      const path = template.replace('/api/v1', '').replaceAll(/\{(\w+)\}/g, ':$1');
      return {
        method: method as Operation['method'],
        path,
        name: `${method.toUpperCase()} ${path}`,
        body: operation.requestBody?.content['application/json']?.schema ?? null,
        query: (operation.parameters ?? []).filter((parameter) => parameter.in === 'query'),
      };
    }),
  );
}

/** The schema itself, where it only points at one. */
export function resolved(schema: Schema, document: OpenAPIObject): Schema {
  if (schema.$ref !== undefined) {
    const name = schema.$ref.split('/').at(-1) ?? '';
    return resolved(document.components!.schemas![name] as Schema, document);
  }
  const [only] = schema.allOf ?? [];
  if (only !== undefined) return resolved(only, document);
  const some = schema.anyOf?.find(({ type }) => type !== 'null');
  return some === undefined ? schema : resolved(some, document);
}

/** Values that are documented as valid; `whole`: nothing optional is left out. Ids are mostly those of real things. */
export function valuesOf(
  schema: Schema,
  document: OpenAPIObject,
  things: Things,
  whole = false,
  name = '',
): fc.Arbitrary<unknown> {
  const plain = resolved(schema, document);
  if (plain.enum !== undefined) return fc.constantFrom(...plain.enum);
  const kind: string = [plain.type].flat()[0] ?? 'string';
  switch (kind) {
    case 'object': {
      const { properties = {}, required = [] } = plain;
      return fc.record(
        Object.fromEntries(
          Object.entries(properties).map(([member, of]) => [
            member,
            valuesOf(of, document, things, whole, member),
          ]),
        ),
        { requiredKeys: whole ? Object.keys(properties) : required },
      );
    }
    case 'array': {
      const { items = {}, minItems = 0, maxItems = 3 } = plain;
      return fc.array(valuesOf(items, document, things, whole, name), {
        minLength: Math.max(minItems, whole ? 1 : 0),
        maxLength: Math.min(maxItems, Math.max(minItems, 3)),
      });
    }
    case 'boolean':
      return fc.boolean();
    case 'integer':
    case 'number':
      return numbers(plain);
    default:
      return texts(plain, things, name);
  }
}

function numbers({ minimum = -1e6, maximum = 1e6 }: Schema): fc.Arbitrary<number> {
  const low = Math.ceil(minimum);
  const high = Math.floor(maximum);
  if (high < low || low === high) return fc.constantFrom(minimum, maximum);
  return fc.oneof(
    fc.integer({ min: low, max: Math.min(high, low + 20) }),
    fc.integer({ min: low, max: high }),
    fc.constantFrom(minimum, maximum),
  );
}

/** Which kind of thing an id of that name belongs to. */
const kindOf: Record<string, string> = {
  lotId: 'lots',
  stationId: 'stations',
  batchId: 'batches',
  floralSourceId: 'floral-sources',
  memberId: 'members',
  holderId: 'members',
  borrowerId: 'members',
};

function texts(schema: Schema, things: Things, name: string): fc.Arbitrary<string> {
  const { format = '', minLength = 0, maxLength = 20 } = schema;
  if (name === 'email') return fc.uuid().map((local) => `${local}@example.org`);
  if (name === 'timeZone') return fc.constantFrom('Europe/Vienna', 'UTC', 'Pacific/Auckland');
  if (name === 'language') return fc.constantFrom('en', 'de', 'de-AT');
  switch (format) {
    case 'uuid': {
      const real = Object.values(things).filter((thing) => /^[0-9a-f]{8}-/.test(thing));
      const fitting = things[kindOf[name] ?? ''];
      const any = fc.oneof(fc.constantFrom(...real, randomUUID()), fc.uuid());
      return fitting === undefined
        ? any
        : fc.oneof({ weight: 4, arbitrary: fc.constant(fitting) }, any);
    }
    case 'date-time':
      return fc
        .date({ min: new Date('2000-01-02'), max: new Date('2099-12-30'), noInvalidDate: true })
        .map((date) => `${date.toISOString().slice(0, 17)}00Z`);
    case 'date':
      return fc
        .date({ min: new Date('2000-01-02'), max: new Date('2099-12-30'), noInvalidDate: true })
        .map((date) => date.toISOString().slice(0, 10));
    default:
      return (
        fc
          .string({
            unit: 'grapheme',
            minLength: Math.max(minLength, 1),
            maxLength: Math.min(maxLength, Math.max(minLength, 20)),
          })
          .map((text) => (text.trim() === '' ? 'x'.repeat(Math.max(minLength, 1)) : text))
          // Lengths are counted in code points.
          .map((text) => Array.from(text).slice(0, maxLength).join('').replaceAll('\u0000', 'o'))
      );
  }
}

/** Values of every kind that something can go wrong with. */
export const nastyValues: readonly unknown[] = [
  null,
  [],
  {},
  [[]],
  [null],
  [{ a: 1 }],
  true,
  '',
  ' ',
  'NaN',
  '1e3',
  'a\u0000b',
  'half \ud83d of a pair',
  'x'.repeat(6000),
  `1'; drop table club; --`,
  '2026-02-30',
  '2026-02-30T10:00:00Z',
  '+275760-09-13T00:00:00.000Z',
  '1800-01-01T00:00:00Z',
  -1,
  0,
  1.5,
  0.1234567,
  1e21,
  -1e308,
  9007199254740993,
];

/** Every place in a body below which a value of its own stands: its members, and those of its first entries. */
export function placesIn(
  schema: Schema,
  document: OpenAPIObject,
  above: (string | number)[] = [],
): { path: (string | number)[]; schema: Schema; isRequired: boolean }[] {
  const plain = resolved(schema, document);
  return Object.entries(plain.properties ?? {}).flatMap(([member, of]) => {
    const path = [...above, member];
    const own = { path, schema: of, isRequired: plain.required?.includes(member) === true };
    const { items, properties } = resolved(of, document);
    if (items !== undefined) {
      return [own, ...placesIn(items, document, [...path, 0])];
    }
    return properties === undefined ? [own] : [own, ...placesIn(of, document, path)];
  });
}

/** A copy of the body in which another value stands at that place; `undefined` takes it away. */
export function withValueAt(body: unknown, path: (string | number)[], value: unknown): object {
  const copy = structuredClone(body) as Record<string | number, unknown>;
  let place = copy;
  for (const part of path.slice(0, -1)) place = place[part] as typeof place;
  const last = path.at(-1)!;
  if (value === undefined) Reflect.deleteProperty(place, last);
  else place[last] = value;
  return copy;
}

/** What stands at a pointer of RFC 6901, in its form as a URI fragment; throws where it leads nowhere. */
export function atPointer(body: unknown, pointer: string): unknown {
  if (!pointer.startsWith('#')) throw new Error(`${pointer} is no URI fragment.`);
  const parts = decodeURIComponent(pointer.slice(1)).split('/').slice(1);
  return parts.reduce<unknown>((place, part) => {
    const member = part.replaceAll('~1', '/').replaceAll('~0', '~');
    if (typeof place !== 'object' || place === null || !Object.hasOwn(place, member)) {
      throw new Error(`${pointer} leads nowhere in ${JSON.stringify(body)}.`);
    }
    return (place as Record<string, unknown>)[member];
  }, body);
}
