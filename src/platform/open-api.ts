import type { INestApplication } from '@nestjs/common';
import { ApiProperty, DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';
import { refusals, type RefusalCode } from '../core/refusal';
import { refusalResponse } from './documented-refusals';
import { sessionCookie } from './sign-in';
import { statusOf } from './problem';

/** A thing that is wrong, and where. */
class FaultAnswer {
  @ApiProperty({ type: String, maxLength: 1000, description: 'What is wrong and what would work.' })
  detail!: string;

  @ApiProperty({
    type: String,
    required: false,
    maxLength: 500,
    description: 'Where in the body: a JSON Pointer as a URI fragment (RFC 6901, 6).',
  })
  pointer?: string;

  @ApiProperty({ type: String, required: false, maxLength: 100, description: 'Which parameter.' })
  parameter?: string;
}

/** The answer to whatever was refused (RFC 9457). */
class Problem {
  @ApiProperty({
    type: String,
    enum: Object.keys(refusals).map((code) => `/problems/${code}`),
    description: 'Stable, and an address: it tells what the refusal means.',
  })
  type!: string;

  @ApiProperty({ type: String, maxLength: 200 })
  title!: string;

  @ApiProperty({ type: 'integer', format: 'int32', minimum: 400, maximum: 599 })
  status!: number;

  @ApiProperty({
    type: String,
    maxLength: 5000,
    description: 'What is wrong in this case and what would work.',
  })
  detail!: string;

  @ApiProperty({ type: FaultAnswer, isArray: true, required: false, maxItems: 500 })
  errors?: FaultAnswer[];
}

/** The features, in the order in which a member meets them. A controller's @ApiTags names one of these. */
const tags: [name: string, description: string][] = [
  ['people', 'Accounts: signing up, and what a person changes about their own.'],
  ['session', 'Signing in and out, and the browsers in which a person is signed in.'],
  ['tokens', 'Personal access tokens, with which scripts sign in.'],
  ['clubs', 'The groups that share a creaming room.'],
  ['invitations', 'How somebody new comes into a club.'],
  ['members', 'Who is in the club, and who was.'],
  ['floral sources', 'What the bees of the club work, and how such honey sets.'],
  ['opening hours', 'When people may come into the room, and days on which nobody does.'],
  [
    'stations',
    'Warming cabinets, cool rooms and benches, when they are out of use, and when they keep to one duty.',
  ],
  ['bookings', 'Places of a station for a time: the diary on the door.'],
  ['plans', 'Whole runs through the room, planned and booked with one request.'],
  ['waiting list', 'Who waits for places when the room is full.'],
  ['holds', 'Suspect lots: nothing leaves them, or what was made of them, until released.'],
  ['recalls', 'Where all of a suspect lot is, and drills to see that it would be found.'],
  ['lots', 'Honey, seed and creamed honey: whose, how much, what is in it, where it went.'],
  ['labels', 'What is printed on pails, tubs and pots.'],
  ['probes', 'Temperature probes: where they are, where they were, and what they read.'],
  ['batches', 'Honey and seed on their way to one creamed lot, step by step.'],
  ['loans', 'Seed lent by one member to another.'],
  ['seed shelf', 'What seed the club has, and which fits.'],
  ['today', 'What a member has to do now and next, and where their honey is.'],
  ['notices', 'What a member should know.'],
  ['calendar', 'The club’s diary for calendar programs.'],
  ['setting times', 'How long the club’s honeys take to set.'],
  [
    'calculations',
    'What the books say of moisture, heat, seed, keeping and pots; open to everybody.',
  ],
  ['audit', 'The club’s history: who changed what, and when.'],
];

/** The OpenAPI 3.1 document of what is served. */
export function describeApi(app: INestApplication): OpenAPIObject {
  const builder = new DocumentBuilder()
    .setOpenAPIVersion('3.1.1')
    .setTitle('The Creaming Room')
    .setDescription(
      'Plan, book, warm, seed, pot, set, lend, trace and learn: the work of a club that shares a creaming room. ' +
        'Masses are in kilograms, temperatures in degrees Celsius, times RFC 3339 in UTC. What is refused changes nothing, and says why.',
    )
    .setVersion('1')
    .addServer('/', 'The installation that serves this document.')
    .addCookieAuth(
      sessionCookie,
      {
        type: 'apiKey',
        in: 'cookie',
        name: sessionCookie,
        description: 'A signed-in browser; POST /session sets it.',
      },
      'session',
    )
    .addBearerAuth(
      {
        type: 'http',
        scheme: 'bearer',
        bearerFormat: 'opaque',
        description:
          'A personal access token; POST /tokens makes one. It may do what its scopes say.',
      },
      'token',
    );
  for (const [name, description] of tags) builder.addTag(name, description);

  const document = SwaggerModule.createDocument(app, builder.build(), {
    extraModels: [Problem],
    operationIdFactory: (controller, method) =>
      `${controller.replace(/Controller$/, '').replace(/^./, (letter) => letter.toLowerCase())}_${method}`,
  });
  document.info.license = { name: 'All rights reserved' };
  closeObjects(document);
  completeOperations(document);
  const { openapi, info, ...rest } = document;
  return { openapi, info, ...rest };
}

/** Objects are what their class says and nothing else; a problem may carry offers. */
function closeObjects(document: OpenAPIObject): void {
  for (const [name, schema] of Object.entries(document.components?.schemas ?? {})) {
    if ('type' in schema && schema.type === 'object') {
      schema.additionalProperties = name === 'Problem';
    }
  }
}

interface Parameter {
  in: string;
  name: string;
  required: boolean;
  schema: object;
}

interface Operation {
  security?: object[];
  parameters?: Parameter[];
  requestBody?: { content: Record<string, { schema: object }> };
  responses: Record<string, { headers?: object } | undefined>;
}

const requestIdHeader = {
  description: 'Under which the request is found in the log; the caller’s own, where it sent one.',
  schema: { type: 'string', maxLength: 64, pattern: '^[\\w.-]{8,64}$' },
} as const;

const csvSchema = {
  type: 'string',
  maxLength: 1_048_576,
  description:
    'RFC 4180, with a first line that names the columns; semicolons (and with them decimal commas) are taken too.',
};

/** Adds what holds for every operation. */
function completeOperations(document: OpenAPIObject): void {
  const operations = Object.entries(document.paths).flatMap(([path, item]) =>
    (Object.values(item as object) as Operation[]).map((operation) => [path, operation] as const),
  );
  for (const [path, operation] of operations) {
    // Without it a reader would have to guess whether signing in was forgotten.
    operation.security ??= [];
    addRefusal(operation, 'failure');
    addRefusal(operation, 'unavailable');
    const others = (operation.parameters ?? []).filter((parameter) => parameter.in !== 'path');
    operation.parameters = [...pathParameters(path), ...others];
    const csv = operation.requestBody?.content['text/csv'];
    if (csv !== undefined) csv.schema = csvSchema;
    for (const response of Object.values(operation.responses)) {
      if (response === undefined) continue;
      response.headers = {
        ...response.headers,
        'X-Request-Id': { $ref: '#/components/headers/RequestId' },
      };
    }
  }
  document.components = { ...document.components, headers: { RequestId: requestIdHeader } };
}

function addRefusal({ responses }: Operation, code: RefusalCode): void {
  responses[statusOf(code)] ??= refusalResponse([code]);
}

/** Ids are UUIDs; what else stands in an address is a code that somebody was given. */
function pathParameters(path: string): Parameter[] {
  return [...path.matchAll(/\{(\w+)\}/g)].map(([, name = '']) => ({
    in: 'path',
    name,
    required: true,
    schema: /id$/i.test(name)
      ? { type: 'string', format: 'uuid', maxLength: 36 }
      : { type: 'string', minLength: 1, maxLength: 200 },
  }));
}
