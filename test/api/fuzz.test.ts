import Ajv2020 from 'ajv/dist/2020';
import addFormats from 'ajv-formats';
import fc from 'fast-check';
import { hashPassword } from '../../src/people/passwords';
import { aFullClub, type Things } from '../support/full-club';
import {
  nastyValues,
  operationsOf,
  placesIn,
  valuesOf,
  withValueAt,
  type Operation,
} from '../support/from-schema';
import { addressOf } from '../support/routes';
import { useService } from '../support/service';
import { aClub, aSessionCookieOf, nobody, type ClubWorld } from '../support/world';

// Requests made up from the OpenAPI document: valid ones, and ones with something wrong in them. Whatever comes back has to be what the
// document promises (the actors of the tests see to that), is never a failure of ours, and is no success where the request was wrong.
// FUZZ_RUNS: valid requests for each operation; twice as many wrong ones. FUZZ_SEED: others than last time.

const runs = Number(process.env['FUZZ_RUNS'] ?? 30);
const seed = Number(process.env['FUZZ_SEED'] ?? 1);

const service = useService();

let club: ClubWorld;
let things: Things;
let operations: Operation[];
let ajv: Ajv2020;
let cookies: string[];

beforeAll(async () => {
  club = await aClub(service);
  things = await aFullClub(service, club);
  const passwordHash = await hashPassword('wax moth at the window');
  await service.prisma.person.updateMany({ data: { passwordHash } });
  operations = operationsOf(service.document);
  ajv = new Ajv2020({ strict: false });
  addFormats(ajv);
  ajv.addSchema({ $id: 'api', ...service.document });
  cookies = [
    await aSessionCookieOf(service, club.steward.personId),
    await aSessionCookieOf(service, club.ada.personId),
  ];
});

async function send(operation: Operation, cookie: string, body: unknown, query = '') {
  const address = addressOf(operation, things);
  const test = nobody(service).send(operation.method, address + query);
  void test.set('Cookie', cookie).set('Origin', service.url);
  if (operation.method === 'patch' || operation.method === 'put') {
    const { headers } = await nobody(service).get(address).set('Cookie', cookie);
    void test.set('If-Match', headers['etag'] ?? '"none"');
  }
  return body === undefined ? test : test.send(body as object);
}

const withBody = () => operations.filter(({ body }) => body !== null);
const withQuery = () => operations.filter(({ query }) => query.length > 0);

/** Tries are limited for everybody together; here they are not what is looked at. */
async function forgetTries(): Promise<void> {
  await service.database.query('delete from rate_limit');
}

test('valid bodies are answered as documented', async () => {
  const taken = new Set<string>();
  for (const operation of withBody()) {
    await forgetTries();
    const bodies = valuesOf(operation.body!, service.document, things);
    await fc.assert(
      fc.asyncProperty(bodies, fc.constantFrom(...cookies), async (body, cookie) => {
        const { status } = await send(operation, cookie, body);
        if (status < 300) taken.add(operation.name);
        expect([400, 404, 405, 413, 415, 428]).not.toContain(status);
      }),
      { numRuns: runs, seed },
    );
  }
  // Enough of what the document calls valid gets through to make this worth its while.
  expect(taken.size).toBeGreaterThan(withBody().length / 3);
}, 600_000);

test('bodies with something wrong in them are refused', async () => {
  for (const operation of withBody()) {
    await forgetTries();
    const schema = operation.body!;
    const places = placesIn(schema, service.document);
    const wrong = fc.oneof(
      fc.jsonValue({ maxDepth: 3 }).map((value) => value as unknown),
      fc
        .tuple(
          valuesOf(schema, service.document, things, true),
          fc.constantFrom(...places),
          fc.oneof(
            fc.constantFrom(undefined, ...nastyValues),
            fc.jsonValue({ maxDepth: 2 }) as fc.Arbitrary<unknown>,
          ),
        )
        .map(([body, { path }, value]) => withValueAt(body, path, value)),
    );
    const api = JSON.parse(JSON.stringify(schema).replaceAll('"#/', '"api#/')) as object;
    await fc.assert(
      fc.asyncProperty(wrong, fc.constantFrom(...cookies), async (body, cookie) => {
        const isObject = typeof body === 'object' && body !== null;
        fc.pre(isObject);
        const { status } = await send(operation, cookie, body);
        if (!ajv.validate(api, body)) {
          // Whoever may not do it at all is told that first.
          expect([status === 403, [400, 422].includes(status)]).toContain(true);
        }
      }),
      { numRuns: 2 * runs, seed },
    );
  }
}, 600_000);

test('queries, valid or not, are answered as documented', async () => {
  for (const operation of withQuery()) {
    const queries = fc.record(
      Object.fromEntries(
        operation.query.map(({ name, schema }) => [
          name,
          fc.oneof(
            { weight: 4, arbitrary: valuesOf(schema, service.document, things, true, name) },
            fc.string({ unit: 'binary', maxLength: 20 }),
          ),
        ]),
      ),
      { requiredKeys: operation.query.filter(({ required }) => required).map(({ name }) => name) },
    );
    await fc.assert(
      fc.asyncProperty(queries, fc.constantFrom(...cookies), async (query, cookie) => {
        const text = Object.entries(query)
          .map(([name, value]) => `${name}=${encodeURIComponent(String(value).toWellFormed())}`)
          .join('&');
        const { status } = await send(operation, cookie, undefined, `?${text}`);
        expect([404, 405, 412, 415, 428]).not.toContain(status);
      }),
      { numRuns: runs, seed },
    );
  }
}, 600_000);
