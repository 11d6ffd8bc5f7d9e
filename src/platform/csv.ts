import {
  applyDecorators,
  UseInterceptors,
  type CallHandler,
  type ExecutionContext,
  type NestInterceptor,
} from '@nestjs/common';
import { RouteConfig } from '@nestjs/platform-fastify';
import { ApiConsumes } from '@nestjs/swagger';
import { CsvError, parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { Observable } from 'rxjs';
import { invalidField, Refusal, type Fault } from '../core/refusal';

// A file of comma-separated values (RFC 4180) as the body of a request: it is read into the object that the same request has as JSON, so
// that one class checks both. Faults name the line beside the pointer.

/** How a file becomes a body: its rows are the entries of one list. */
export interface CsvForm {
  list: string;
  /** The names in the first line, in any order. Those of numbers are told apart. */
  columns: Record<string, 'text' | 'number'>;
  /** Rows beyond this are not read. */
  maxRows: number;
}

/** A body of text/csv, not read yet: whoever may not use the route is told so first. */
class CsvBody {
  constructor(readonly text: string) {}
}

const linesOfRows = new WeakMap<FastifyRequest, number[]>();

/** Lets the service take text/csv, on the routes that ask for it alone. */
export function takeCsv(fastify: FastifyInstance): void {
  fastify.addContentTypeParser('text/csv', { parseAs: 'string' }, (request, text, done) => {
    if (!takesCsv(request)) done(new Refusal('wrong-media-type'));
    else done(null, new CsvBody(text as string));
  });
}

export function takesCsv(request: FastifyRequest): boolean {
  return (request.routeOptions.config as { takesCsv?: true }).takesCsv === true;
}

/** Takes text/csv beside application/json. */
export function TakesCsv(form: CsvForm): MethodDecorator {
  return applyDecorators(
    RouteConfig({ takesCsv: true }),
    UseInterceptors(new CsvReader(form)),
    ApiConsumes('application/json', 'text/csv'),
  );
}

/** Reads the file after the guard has let the request pass and before the pipe checks it. */
class CsvReader implements NestInterceptor {
  constructor(private readonly form: CsvForm) {}

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const request = context.switchToHttp().getRequest<FastifyRequest>();
    if (request.body instanceof CsvBody) {
      const { rows, lines } = readCsv(request.body.text, this.form);
      linesOfRows.set(request, lines);
      request.body = { [this.form.list]: rows };
    }
    return next.handle();
  }
}

interface CsvRows {
  rows: Record<string, unknown>[];
  /** Of each row, counted from 1. */
  lines: number[];
}

/** Commas or semicolons: the first line shows which. With semicolons a decimal comma is one. */
export function readCsv(text: string, form: CsvForm): CsvRows {
  const isSemicolons = /^[^\r\n,]*;/.test(text);
  const [head, ...records] = recordsIn(text, isSemicolons ? ';' : ',', form.maxRows + 2);
  const names = head?.record ?? [];
  const wanted = Object.keys(form.columns);
  if (names.length !== wanted.length || !wanted.every((name) => names.includes(name))) {
    throw invalidField('#', `The first line must be ${wanted.join(',')}.`);
  }
  const rows = records.map(({ record, line }, index) => {
    if (record.length !== names.length) {
      throw invalidField(
        `#/${form.list}/${index}`,
        `Line ${line} has ${record.length} values; it must have ${names.length}.`,
      );
    }
    const cells = names.map((name, at) => {
      const cell = record[at] ?? '';
      const isNumber = form.columns[name] === 'number';
      return [name, isNumber ? numberIn(isSemicolons ? cell.replace(',', '.') : cell) : cell];
    });
    return Object.fromEntries(cells) as Record<string, unknown>;
  });
  return { rows, lines: records.map(({ line }) => line) };
}

function recordsIn(
  text: string,
  delimiter: string,
  most: number,
): { record: string[]; line: number }[] {
  try {
    const found = parse(text, {
      bom: true,
      delimiter,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      to: most,
      trim: true,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    return found.map(({ record, info }) => ({ record, line: info.lines }));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = (error as { lines?: number }).lines;
    throw new Refusal(
      'malformed',
      `The file could not be read as CSV (RFC 4180)${line === undefined ? '' : `: look at line ${line}`}.`,
    );
  }
}

/** What is no number stays text, for the check to name. */
function numberIn(cell: string): unknown {
  return /^[+-]?\d+(\.\d+)?$/.test(cell) ? Number(cell) : cell;
}

/** The same faults, with the line of the file that each is about. */
export function withLines(faults: Fault[], request: FastifyRequest): Fault[] {
  const lines = linesOfRows.get(request);
  if (lines === undefined) return faults;
  return faults.map((fault) => {
    const row = /^#\/[^/]+\/(\d+)/.exec(fault.pointer ?? '')?.[1];
    const line = row === undefined ? undefined : lines[Number(row)];
    return line === undefined ? fault : { ...fault, detail: `Line ${line}: ${fault.detail}` };
  });
}

/** Rows as a file of RFC 4180 that also opens safely in a spreadsheet. */
export function toCsv<Row extends object>(rows: readonly Row[], columns: (keyof Row)[]): string {
  return stringify(rows as Row[], {
    header: true,
    columns: columns as string[],
    record_delimiter: 'windows',
    quoted_match: /[\r\n]/,
    escape_formulas: true,
  });
}
