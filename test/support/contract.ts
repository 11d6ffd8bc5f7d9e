import { appendFileSync } from 'node:fs';
import type { OpenAPIObject } from '@nestjs/swagger';
import Ajv2020, { type ValidateFunction } from 'ajv/dist/2020';
import addFormats from 'ajv-formats';

interface Operation {
  operationId: string;
  responses: Record<string, { content?: Record<string, { schema: object }> }>;
}

export interface Exchange {
  method: string;
  /** Without the query. */
  path: string;
  status: number;
  contentType: string;
  requestId: string | undefined;
  body: unknown;
}

/** Compares answers with the OpenAPI document: the status is documented and the body is what is documented for it. */
export class Contract {
  private readonly ajv = new Ajv2020({ strict: false, allErrors: true });
  private readonly validators = new Map<string, ValidateFunction>();

  constructor(private readonly document: OpenAPIObject) {
    addFormats(this.ajv);
    this.ajv.addSchema({ $id: 'api', ...document });
  }

  /** Throws, in words, when the answer is not one that the document promises. */
  check(exchange: Exchange): void {
    const { status, contentType, body } = exchange;
    const found = this.operationOf(exchange.method, exchange.path);
    if (found === null) return;
    const [pathTemplate, operation] = found;
    const name = `${operation.operationId} ${status}`;
    // Documented for clients; to a test it is always a fault.
    if (status === 500) throw new Error(`${name}: see the log of ${exchange.requestId ?? '?'}.`);
    const response = operation.responses[String(status)];
    if (response === undefined)
      throw new Error(`${name} is not documented: ${JSON.stringify(body)}`);
    noteSeen(name);
    if (exchange.requestId === undefined) throw new Error(`${name} has no x-request-id.`);
    const [mediaType] = Object.keys(response.content ?? {});
    if (mediaType === undefined) {
      if (status !== 204 && status !== 304) throw new Error(`${name} documents no body.`);
      return;
    }
    if (!contentType.startsWith(mediaType)) throw new Error(`${name} came as ${contentType}.`);
    if (
      mediaType === 'application/problem+json' &&
      (body as { status: number }).status !== status
    ) {
      throw new Error(`${name} says another status in its body.`);
    }
    if (!mediaType.endsWith('json')) return;
    const pointer = [
      'paths',
      pathTemplate,
      exchange.method.toLowerCase(),
      'responses',
      String(status),
      'content',
      mediaType,
      'schema',
    ]
      .map((part) => encodeURIComponent(part.replaceAll('~', '~0').replaceAll('/', '~1')))
      .join('/');
    const validate = this.validatorFor(`api#/${pointer}`);
    if (!validate(body)) {
      throw new Error(
        `${name} is not as documented: ${this.ajv.errorsText(validate.errors)} in ${JSON.stringify(body)}`,
      );
    }
  }

  private operationOf(method: string, path: string): [string, Operation] | null {
    const parts = path.split('/');
    for (const [template, item] of Object.entries(this.document.paths)) {
      const pattern = template.split('/');
      const isMatch =
        pattern.length === parts.length &&
        pattern.every((part, index) => part.startsWith('{') || part === parts[index]);
      const operation = (item as Record<string, unknown>)[method.toLowerCase()];
      if (isMatch && operation !== undefined) return [template, operation as Operation];
    }
    return null;
  }

  private validatorFor(reference: string): ValidateFunction {
    let validate = this.validators.get(reference);
    if (validate === undefined) {
      validate = this.ajv.compile({ $ref: reference });
      this.validators.set(reference, validate);
    }
    return validate;
  }
}

/** Which operations and statuses were seen, for the count at the end of a whole run. */
function noteSeen(name: string): void {
  const file = process.env['SEEN_ANSWERS_FILE'];
  if (file !== undefined) appendFileSync(file, `${name}\n`);
}
