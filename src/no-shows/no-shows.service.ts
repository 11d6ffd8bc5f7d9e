import { Injectable } from '@nestjs/common';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { noShowRows, type NoShowRow } from './no-show-rows';
import { toNoShowResponse, type NoShowResponse } from './no-shows.responses';

@Injectable()
export class NoShowsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list({ clubId }: ClubCaller, query: PageQuery): Promise<Page<NoShowResponse>> {
    const list = `no-shows ${clubId}`;
    const start = startOf(query, list);
    const later =
      start === null
        ? Prisma.empty
        : Prisma.sql`and (b.starts_at, b.id) > (${start[0]}::timestamptz, ${start[1]}::uuid)`;
    const rows = await this.database.rows<NoShowRow>(
      noShowRows(
        this.clock.now(),
        Prisma.sql`b.club_id = ${clubId}::uuid ${later}`,
        query.limit + 1,
      ),
    );
    return pageOf(
      rows,
      query,
      list,
      (row) => [row.startsAt.toISOString(), row.bookingId],
      toNoShowResponse,
    );
  }
}
