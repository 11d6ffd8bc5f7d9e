import { applyDecorators, Header, SetMetadata } from '@nestjs/common';
import { ApiOperation, ApiResponse } from '@nestjs/swagger';
import type { RefusalCode } from '../core/refusal';
import { refuses } from './documented-refusals';
import { behaviourKey, tagHeader, type RouteBehaviour } from './routes';

/** Answers 200 with a drawing (SVG), whose words are text and which runs nothing. */
export function AnswersSvg(summary: string, ...more: RefusalCode[]): MethodDecorator {
  return answersFile('image/svg+xml', { type: 'string', maxLength: 5_000_000 }, { summary }, more);
}

/** Answers 200 with pages to print. */
export function AnswersPdf(
  summary: string,
  { fileName, description }: { fileName: string; description: string },
  ...more: RefusalCode[]
): MethodDecorator {
  const schema = { type: 'string', format: 'binary', maxLength: 20_000_000 };
  return applyDecorators(
    answersFile('application/pdf', schema, { summary, description }, more),
    Header('Content-Disposition', `inline; filename="${fileName}"`),
  );
}

/** Answers 200 with linked data of that schema. */
export function AnswersLinkedData(
  schema: object,
  summary: string,
  ...more: RefusalCode[]
): MethodDecorator {
  return answersFile('application/ld+json', schema, { summary }, more);
}

function answersFile(
  mediaType: string,
  schema: object,
  told: { summary: string; description?: string },
  more: RefusalCode[],
): MethodDecorator {
  return applyDecorators(
    SetMetadata(behaviourKey, {} satisfies RouteBehaviour),
    ApiOperation(told),
    Header('Content-Type', mediaType),
    ApiResponse({
      status: 200,
      description: 'As it stands now.',
      headers: { ETag: tagHeader },
      content: { [mediaType]: { schema } },
    }),
    ApiResponse({ status: 304, description: 'Not changed since If-None-Match.' }),
    ...more.map(refuses),
  );
}
