import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import type { NoticesQuery } from './notices.requests';
import {
  toNoticeResponse,
  type NoticeResponse,
  type NoticeRow,
  type NoticesRead,
} from './notices.responses';

/** A member's own notices: nobody else sees them. */
@Injectable()
export class NoticesService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: NoticesQuery): Promise<Page<NoticeResponse>> {
    const isUnreadOnly = query.unread === true;
    const list = JSON.stringify(['notices', caller.clubId, caller.memberId, isUnreadOnly]);
    const [after] = startOf(query, list) ?? [];
    const conditions = [Prisma.sql`true`];
    if (isUnreadOnly) conditions.push(Prisma.sql`n.read_at is null`);
    if (after !== undefined) conditions.push(Prisma.sql`n.id < ${after}::uuid`);
    const rows = await this.database.rows<NoticeRow>(
      notices(caller, Prisma.join(conditions, ' and '), query.limit + 1),
    );
    return pageOf(rows, query, list, (row) => [row.id], toNoticeResponse);
  }

  async one(caller: ClubCaller, id: string): Promise<NoticeResponse> {
    const [row] = await this.database.rows<NoticeRow>(
      notices(caller, Prisma.sql`n.id = ${id}::uuid`, 1),
    );
    if (row === undefined) throw new Refusal('not-found');
    return toNoticeResponse(row);
  }

  read(caller: ClubCaller, id: string): Promise<NoticeResponse> {
    const { clubId, memberId } = caller;
    return this.database.write(caller, async (tx) => {
      await tx.notice.updateMany({
        where: { clubId, memberId, id, readAt: null },
        data: { readAt: this.clock.now() },
      });
      const [row] = await tx.$queryRaw<NoticeRow[]>(
        notices(caller, Prisma.sql`n.id = ${id}::uuid`, 1),
      );
      if (row === undefined) throw new Refusal('not-found');
      return toNoticeResponse(row);
    });
  }

  readAll(caller: ClubCaller): Promise<NoticesRead> {
    const { clubId, memberId } = caller;
    return this.database.write(caller, async (tx) => {
      const { count } = await tx.notice.updateMany({
        where: { clubId, memberId, readAt: null },
        data: { readAt: this.clock.now() },
      });
      return { markedCount: count };
    });
  }
}

/** The caller's notices for which `condition` holds, the newest first; `n` is the notice. */
function notices(
  { clubId, memberId }: ClubCaller,
  condition: Prisma.Sql,
  limit: number,
): Prisma.Sql {
  return Prisma.sql`
    select n.id, n.kind, n.subject_id as "subjectId", n.details, n.created_at as "createdAt", n.read_at as "readAt",
      n.mailed_at as "mailedAt", c.name as "clubName", c.time_zone as "timeZone"
    from notice n join club c on c.id = n.club_id
    where n.club_id = ${clubId}::uuid and n.member_id = ${memberId}::uuid and ${condition}
    order by n.id desc limit ${limit}::int`;
}
