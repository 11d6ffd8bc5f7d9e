import type { INestApplication } from '@nestjs/common';
import { ApiProperty, DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';
import { sessionCookie } from './sign-in';

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
    format: 'uri-reference',
    maxLength: 100,
    description: 'Stable; /problems tells of each.',
  })
  type!: string;

  @ApiProperty({ type: String, maxLength: 200 })
  title!: string;

  @ApiProperty({ type: 'integer', minimum: 400, maximum: 599 })
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

/** The OpenAPI 3.1 document of what is served. */
export function describeApi(app: INestApplication): OpenAPIObject {
  const document = SwaggerModule.createDocument(
    app,
    new DocumentBuilder()
      .setOpenAPIVersion('3.1.1')
      .setTitle('The Creaming Room')
      .setDescription(
        'Plan, book, warm, seed, pot, set, lend, trace and learn: the work of a club that shares a creaming room. ' +
          'Masses are in kilograms, temperatures in degrees Celsius, times RFC 3339 in UTC. What is refused changes nothing, and says why.',
      )
      .setVersion('1')
      .addServer('/')
      .addCookieAuth(
        sessionCookie,
        { type: 'apiKey', in: 'cookie', name: sessionCookie },
        'session',
      )
      .addBearerAuth({ type: 'http', scheme: 'bearer' }, 'token')
      .build(),
    {
      extraModels: [Problem],
      operationIdFactory: (controller, method) =>
        `${controller.replace(/Controller$/, '').replace(/^./, (letter) => letter.toLowerCase())}_${method}`,
    },
  );
  closeObjects(document);
  return document;
}

/** Objects are what their class says and nothing else; a problem may carry offers. */
function closeObjects(document: OpenAPIObject): void {
  for (const [name, schema] of Object.entries(document.components?.schemas ?? {})) {
    if ('type' in schema && schema.type === 'object') {
      schema.additionalProperties = name === 'Problem';
    }
  }
}
