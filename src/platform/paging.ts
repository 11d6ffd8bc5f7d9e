import { createHash } from 'node:crypto';
import { Transform } from 'class-transformer';
import { ApiProperty } from '@nestjs/swagger';
import { IsInt, IsOptional, IsString, MaxLength, Min } from 'class-validator';
import { Refusal } from '../core/refusal';

/** What every list takes. */
export class PageQuery {
  @ApiProperty({
    type: 'integer',
    format: 'int32',
    minimum: 1,
    maximum: 2147483647,
    required: false,
    default: 50,
    description: '200 at most; more is taken as 200.',
  })
  @IsOptional()
  @Transform(({ value }) =>
    /^\d{1,15}$/.test(String(value)) ? Math.min(Number(value), 200) : (value as unknown),
  )
  @IsInt({ message: 'must be a whole number from 1 to 200' })
  @Min(1, { message: 'must be at least 1' })
  limit: number = 50;

  @ApiProperty({
    type: String,
    required: false,
    maxLength: 500,
    description: 'The nextCursor of the page before.',
  })
  @IsOptional()
  @IsString({ message: 'must be text' })
  @MaxLength(500, { message: 'must have at most 500 characters' })
  cursor?: string;
}

export interface Page<Item> {
  items: Item[];
  /** Leads to the next page; none: this was the last. */
  nextCursor: string | null;
}

type Key = (string | number)[];

/**
 * A page of rows that were asked for with a limit one greater than the page's. `list` names the list and its filters: a cursor
 * serves no other. A cursor opens nothing by itself: the list asks for the caller's rights each time.
 */
export function pageOf<Row, Item>(
  rows: Row[],
  query: PageQuery,
  list: string,
  keyOf: (row: Row) => Key,
  itemOf: (row: Row) => Item,
): Page<Item> {
  const shown = rows.slice(0, query.limit);
  const last = shown.at(-1);
  const isMore = rows.length > query.limit && last !== undefined;
  return {
    items: shown.map(itemOf),
    nextCursor: isMore ? cursorOf(list, keyOf(last)) : null,
  };
}

/** The key after which a page starts, or null for the first page. */
export function startOf(query: PageQuery, list: string): Key | null {
  if (query.cursor === undefined) return null;
  const [sum, text] = query.cursor.split('.');
  if (text === undefined || sum !== checksum(list, text)) throw new Refusal('bad-cursor');
  return JSON.parse(Buffer.from(text, 'base64url').toString('utf8')) as Key;
}

function cursorOf(list: string, key: Key): string {
  const text = Buffer.from(JSON.stringify(key)).toString('base64url');
  return `${checksum(list, text)}.${text}`;
}

function checksum(list: string, text: string): string {
  return createHash('sha256').update(`${list}\n${text}`).digest('base64url').slice(0, 12);
}
