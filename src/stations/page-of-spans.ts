import type { Database } from '../platform/database';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';

interface Spans<Row, Item> {
  /** What they are, as the page's link remembers: a link of another list is refused. */
  name: string;
  /** Their columns and their table. */
  select: Prisma.Sql;
  toItem: (row: Row) => Item;
}

/** A page of what a station has from one time until another, by their beginnings; with `from`, only what ends after it. */
export async function pageOfSpans<Row extends { id: string; startsAt: Date }, Item>(
  database: Database,
  { name, select, toItem }: Spans<Row, Item>,
  clubId: string,
  stationId: string,
  query: PageQuery & { from?: Date },
): Promise<Page<Item>> {
  const list = `${name} ${stationId} ${query.from?.toISOString() ?? ''}`;
  const [startsAt, id] = startOf(query, list) ?? [null, null];
  const rows = await database.rows<Row>(Prisma.sql`
    ${select}
    where club_id = ${clubId}::uuid and station_id = ${stationId}::uuid
      and (${query.from ?? null}::timestamptz is null or ends_at > ${query.from ?? null}::timestamptz)
      and (${id}::uuid is null or (starts_at, id) > (${startsAt}::timestamptz, ${id}::uuid))
    order by starts_at, id limit ${query.limit + 1}`);
  return pageOf(rows, query, list, (row) => [row.startsAt.toISOString(), row.id], toItem);
}
