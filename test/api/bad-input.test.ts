import Ajv2020 from 'ajv/dist/2020';
import addFormats from 'ajv-formats';
import fc from 'fast-check';
import request from 'supertest';
import { checksumOf } from '../support/checksum';
import {
  atPointer,
  nastyValues,
  operationsOf,
  placesIn,
  resolved,
  valuesOf,
  withValueAt,
  type Operation,
  type Schema,
} from '../support/from-schema';
import { aFullClub, type Things } from '../support/full-club';
import { inTurns } from '../support/in-turns';
import { addressOf } from '../support/routes';
import { useService } from '../support/service';
import { aClub, aSessionCookieOf, nobody } from '../support/world';

// What is sent here comes from the OpenAPI document: a field that is added later is tried with the rest.

const service = useService();

let things: Things;
let operations: Operation[];
let cookie: string;
let ajv: Ajv2020;
let sumsBefore: Record<string, string>;

beforeAll(async () => {
  const club = await aClub(service);
  things = await aFullClub(service, club);
  operations = operationsOf(service.document);
  cookie = await aSessionCookieOf(service, club.steward.personId);
  ajv = new Ajv2020({ strict: false });
  addFormats(ajv);
  ajv.addSchema({ $id: 'api', ...service.document });
});

beforeEach(async () => {
  sumsBefore = await checksumOf(service);
});

afterEach(async () => {
  expect(await checksumOf(service)).toEqual(sumsBefore);
});

interface Answer {
  status: number;
  type: string;
  faults: { pointer?: string; parameter?: string; detail: string }[];
}

interface Sent {
  operation: Operation;
  words: string;
  body: unknown;
  path: (string | number)[];
}

const withBody = () => operations.filter(({ body }) => body !== null);
/** Those, too, that need no body: whatever comes is read. */
const writes = () => operations.filter(({ method }) => ['post', 'patch', 'put'].includes(method));

function aRequest(operation: Operation, query = ''): request.Test {
  const test = nobody(service).send(operation.method, addressOf(operation, things) + query);
  void test.set('Cookie', cookie).set('Origin', service.url);
  return test.set('If-Match', '"of nothing"');
}

async function send({ operation, body }: Sent): Promise<Answer> {
  return answerOf(await aRequest(operation).send(body as object));
}

function answerOf({ status, body }: request.Response): Answer {
  return { status, type: String(body?.type), faults: body?.errors ?? [] };
}

/** A body of which the document says that it is valid, with everything that is optional. */
function aBody({ body }: Operation): unknown {
  const [value] = fc.sample(valuesOf(body!, service.document, things, true), {
    seed: 7,
    numRuns: 1,
  });
  return value;
}

function isDocumentedAsValid(schema: Schema, value: unknown): boolean {
  const text = JSON.stringify(schema).replaceAll('"#/', '"api#/');
  return ajv.validate(JSON.parse(text) as object, value);
}

/** The document cannot say it: such text cannot be stored, or tells nothing. A password is never stored. */
function isUnreadable(schema: Schema, value: unknown): boolean {
  if (typeof value !== 'string' || resolved(schema, service.document).format === 'password') {
    return false;
  }
  return value.includes('\u0000') || !value.isWellFormed();
}

function pointerTo(path: (string | number)[]): string {
  return ['#', ...path].join('/');
}

test('a value that a field does not take is refused, and its place is named', async () => {
  const sent = withBody().flatMap((operation) => {
    const base = aBody(operation);
    return placesIn(operation.body!, service.document).flatMap(({ path, schema }) =>
      nastyValues
        .filter((value) => !isDocumentedAsValid(schema, value) || isUnreadable(schema, value))
        .map((value) => ({
          operation,
          words: `${operation.name} ${pointerTo(path)} = ${JSON.stringify(value).slice(0, 40)}`,
          body: withValueAt(base, path, value),
          path,
        })),
    );
  });
  expect(sent.length).toBeGreaterThan(500);

  const answers = await inTurns(sent, async (one) => ({ ...one, ...(await send(one)) }));

  const wrong = answers.filter(({ status, faults, path, body }) => {
    if (status !== 422) return true;
    // Of a value that is wrong in itself the place is its own, or one within it.
    return !faults.some(
      ({ pointer }) =>
        pointer?.startsWith(pointerTo(path)) === true && atPointer(body, pointer) !== undefined,
    );
  });
  expect(wrong.map(brief)).toEqual([]);
}, 600_000);

test('what is missing is asked for by name, at the place where it is missing', async () => {
  const sent = withBody().flatMap((operation) =>
    placesIn(operation.body!, service.document)
      .filter(({ isRequired }) => isRequired)
      .map(({ path }) => ({
        operation,
        words: `${operation.name} without ${pointerTo(path)}`,
        body: withValueAt(aBody(operation), path, undefined),
        path,
      })),
  );

  const answers = await inTurns(sent, async (one) => ({ ...one, ...(await send(one)) }));

  const wrong = answers.filter(({ status, faults, path }) => {
    const isNamed = faults.some(
      ({ pointer, detail }) =>
        pointer === pointerTo(path.slice(0, -1)) && detail.startsWith(String(path.at(-1))),
    );
    return status !== 422 || !isNamed;
  });
  expect(wrong.map(brief)).toEqual([]);
});

test('an unknown field is refused at every level, whatever its name', async () => {
  const names = ['colour', 'clubId', 'createdAt', 'passwordHash', 'a~b/c', 'ü %"', 'toString'];
  const sent = withBody().flatMap((operation) => {
    const levels = placesIn(operation.body!, service.document).map(({ path }) => path.slice(0, -1));
    const unlike = [...new Map(levels.map((level) => [level.join(), level])).values()];
    return unlike.flatMap((level) =>
      names.map((name) => ({
        operation,
        words: `${operation.name} with ${pointerTo([...level, name])}`,
        body: withValueAt(aBody(operation), [...level, name], 'x'),
        path: [...level, name],
      })),
    );
  });

  const answers = await inTurns(sent, async (one) => ({ ...one, ...(await send(one)) }));

  const wrong = answers.filter(({ status, faults, path, body }) => {
    const isNamed = faults.some(({ pointer = '' }) => {
      const member = decodeURIComponent(pointer.split('/').at(-1) ?? '');
      return (
        member.replaceAll('~1', '/').replaceAll('~0', '~') === path.at(-1) &&
        atPointer(body, pointer) === 'x'
      );
    });
    return status !== 422 || !isNamed;
  });
  expect(wrong.map(brief)).toEqual([]);
}, 600_000);

function brief({ words, status, type, faults }: Sent & Answer): string {
  return `${words}: ${status} ${type} ${JSON.stringify(faults).slice(0, 200)}`;
}

const deep = (levels: number) => `{"note":${'['.repeat(levels)}${']'.repeat(levels)}}`;

test.each([
  ['nothing', '', 400, 'malformed'],
  ['half a body', '{"name": "x"', 400, 'malformed'],
  ['two bodies', '{}{}', 400, 'malformed'],
  ['NaN', '{"massKg": NaN}', 400, 'malformed'],
  ['a trap for prototypes', '{"__proto__": {"role": "steward"}}', 400, 'malformed'],
  ['another one', '{"constructor": {"prototype": {"role": "steward"}}}', 400, 'malformed'],
  ['null', 'null', 422, 'invalid'],
  ['a list', '[]', 422, 'invalid'],
  ['a list of bodies', '[{}]', 422, 'invalid'],
  ['text', '"name"', 422, 'invalid'],
  ['a number', '1', 422, 'invalid'],
  ['lists within lists, deep', deep(30), 400, 'malformed'],
  ['lists within lists, deeper than any stack', deep(100_000), 400, 'malformed'],
  ['a list longer than any', `{"note": [${'0,'.repeat(20_000)}0]}`, 413, 'too-large'],
  ['more than a megabyte', `{"note": "${'x'.repeat(1_048_576)}"}`, 413, 'too-large'],
])('%s is no body for any route', async (_, text, status, code) => {
  const wrong: unknown[] = [];
  for (const operation of status === 422 ? withBody() : writes()) {
    const answer = await aRequest(operation).type('application/json').send(text);
    if (answer.status !== status || answer.body.type !== `/problems/${code}`) {
      wrong.push([operation.name, answer.status, answer.body]);
    }
  }
  expect(wrong).toEqual([]);
});

test('ten megabytes are refused without being read', async () => {
  const agent = fetch(`${service.url}/api/v1${addressOf(withBody()[0]!, things)}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: `{"note": "${'x'.repeat(10_000_000)}"}`,
  });
  // The service hangs up on whoever goes on sending.
  const status = await agent.then(
    (answer) => answer.status,
    () => 413,
  );
  expect(status).toBe(413);
});

test.each([
  ['text/plain', 'name=x'],
  ['application/x-www-form-urlencoded', 'name=x'],
  ['multipart/form-data; boundary=b', '--b\r\n\r\nx\r\n--b--'],
  ['application/xml', '<name>x</name>'],
  ['text/json', '{}'],
])('%s is no media type for any route', async (type, text) => {
  const wrong: unknown[] = [];
  for (const operation of writes()) {
    const answer = await aRequest(operation).type(type).send(text);
    if (answer.status !== 415) wrong.push([operation.name, answer.status, answer.body]);
  }
  expect(wrong).toEqual([]);
});

test('an Idempotency-Key that cannot be one is refused before anything else', async () => {
  const keys = ['unquoted', '""', `"${'x'.repeat(256)}"`, '"ü"', '"tab\tin it"', '"a", "b"'];
  for (const operation of operations.filter(({ method }) => method === 'post')) {
    if (!takesKey(operation)) continue;
    for (const key of keys) {
      const { status, body } = await aRequest(operation)
        .set('Idempotency-Key', Buffer.from(key).toString('latin1'))
        .send({});
      expect([operation.name, key, status, body.type]).toEqual([
        operation.name,
        key,
        400,
        '/problems/bad-idempotency-key',
      ]);
    }
  }
});

function takesKey({ method, path }: Operation): boolean {
  const template = `/api/v1${path.replaceAll(/:(\w+)/g, '{$1}')}`;
  const item = service.document.paths[template] as unknown as Record<
    string,
    { parameters?: { name: string }[] }
  >;
  return item[method]?.parameters?.some(({ name }) => name === 'Idempotency-Key') === true;
}

describe('a query', () => {
  const withQuery = () => operations.filter(({ query }) => query.length > 0);
  const nastyTexts = nastyValues.filter((value) => typeof value === 'string');

  /** Everything that has to be there. */
  function neededBy({ query }: Operation): [string, string][] {
    return query
      .filter(({ required }) => required)
      .map(({ name, schema }) => {
        const [value] = fc.sample(valuesOf(schema, service.document, things, true, name), {
          seed: 7,
          numRuns: 1,
        });
        return [name, String(value)];
      });
  }

  test('with a value that its parameter does not take is refused, and the parameter is named', async () => {
    const wrong: unknown[] = [];
    const sent = withQuery().flatMap((operation) =>
      operation.query.flatMap(({ name, schema }) => {
        const isText = schema.type === 'string' && schema.format === undefined;
        return nastyTexts
          .filter((value) => schema.enum !== undefined || !isText || isUnreadable(schema, value))
          .filter((value) => !isRead(schema, value))
          .map((value) => ({ operation, name, value: value }));
      }),
    );
    await inTurns(sent, async ({ operation, name, value }) => {
      const query = new URLSearchParams(neededBy(operation));
      query.set(name, value);
      const answer = answerOf(await aRequest(operation, `?${query.toString()}`));
      const isNamed = answer.faults.some(({ parameter }) => parameter === name);
      const isCursor = name === 'cursor' && answer.type === '/problems/bad-cursor';
      if (!isCursor && (answer.status !== 422 || !isNamed)) {
        wrong.push([operation.name, name, value.slice(0, 40), answer]);
      }
    });
    expect(wrong).toEqual([]);
  });

  test('with a parameter twice, or with an unknown one, is refused', async () => {
    for (const operation of withQuery()) {
      const needed = neededBy(operation);
      const { name } = operation.query[0]!;
      for (const more of [
        [['colour', 'x']],
        [
          [name, '1'],
          [name, '2'],
        ],
      ]) {
        const text = new URLSearchParams([...needed, ...more] as [string, string][]).toString();
        const { status, faults } = answerOf(await aRequest(operation, `?${text}`));
        expect([operation.name, text, status]).toEqual([operation.name, text, 422]);
        expect(faults.map(({ parameter }) => parameter)).toContain(more[0]![0]);
      }
    }
  });

  /** In a query numbers and yes or no come as text. */
  function isRead(schema: Schema, text: string): boolean {
    const plain = resolved(schema, service.document);
    const isNumber = plain.type === 'integer' || plain.type === 'number';
    const value = isNumber && /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text;
    return isDocumentedAsValid(plain, value);
  }
});

test('an id that cannot be one names nothing', async () => {
  for (const operation of operations) {
    for (const id of ['1', 'null', '..%2f..', '%00', 'a'.repeat(10_000), 'ü']) {
      const parts = operation.path.split('/:');
      if (parts.length < 2 || operation.path.includes(':code')) continue;
      const address = addressOf(operation, things).split('/');
      const place = operation.path.split('/').findLastIndex((part) => part.startsWith(':'));
      address[place] = id;
      const { status, body } = await nobody(service)
        .send(operation.method, address.join('/'))
        .set('Cookie', cookie)
        .set('Origin', service.url)
        .set('If-Match', '"of nothing"');
      const isBody = status === 422 && operation.body !== null;
      expect([operation.name, id, isBody ? 404 : status]).toEqual([operation.name, id, 404]);
      expect(String(body.type)).toMatch(/^\/problems\/(not-found|invalid)$/);
    }
  }
});
