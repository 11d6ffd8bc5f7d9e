import { applyDecorators, Header, SetMetadata } from '@nestjs/common';
import { ApiOperation, ApiResponse } from '@nestjs/swagger';
import type { RefusalCode } from '../core/refusal';
import { tagHeader } from './documented-headers';
import { refuses } from './documented-refusals';
import { behaviourKey, notChanged, type RouteBehaviour } from './routes';

/** Answers 200 with comma-separated values (RFC 4180), for scripts and spreadsheets. */
export function AnswersCsv(
  summary: string,
  fileName: string,
  ...more: RefusalCode[]
): MethodDecorator {
  return applyDecorators(
    answersFile(
      'text/csv; charset=utf-8; header=present',
      { type: 'string', maxLength: 10_000_000 },
      { summary, comes: 'With a first line that names the columns.' },
      more,
    ),
    Header('Content-Disposition', `attachment; filename="${fileName}"`),
  );
}

/** Answers 200 with a calendar (RFC 5545), for calendar programs. */
export function AnswersCalendar(
  summary: string,
  fileName: string,
  ...more: RefusalCode[]
): MethodDecorator {
  return applyDecorators(
    answersFile(
      'text/calendar; charset=utf-8',
      { type: 'string', maxLength: 10_000_000 },
      { summary, comes: 'Times are in UTC.' },
      more,
    ),
    Header('Content-Disposition', `inline; filename="${fileName}"`),
  );
}

/** Answers 200 with a page to print (HTML), complete in itself and without scripts. */
export function AnswersHtml(summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    answersFile(
      'text/html; charset=utf-8',
      { type: 'string', maxLength: 100_000_000 },
      { summary, comes: 'A page of its own.' },
      more,
    ),
    Header('Content-Security-Policy', printedPagePolicy),
  );
}

/** Its own style and nothing else. */
const printedPagePolicy =
  "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'self'";

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
  contentType: string,
  schema: object,
  {
    comes = 'As it stands now.',
    ...told
  }: { summary: string; description?: string; comes?: string },
  more: RefusalCode[],
): MethodDecorator {
  const [mediaType = contentType] = contentType.split(';');
  return applyDecorators(
    SetMetadata(behaviourKey, {} satisfies RouteBehaviour),
    ApiOperation(told),
    Header('Content-Type', contentType),
    ApiResponse({
      status: 200,
      description: comes,
      headers: { ETag: tagHeader },
      content: { [mediaType]: { schema } },
    }),
    notChanged,
    ...more.map(refuses),
  );
}
