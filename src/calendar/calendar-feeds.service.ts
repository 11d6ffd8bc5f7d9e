import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { hashSecret, newSecret } from '../platform/secrets';
import {
  toCalendarFeedResponse,
  type CalendarFeedResponse,
  type CalendarFeedRow,
  type NewCalendarFeed,
} from './calendar-feeds.responses';
import type { CalendarFeedRequest } from './calendar.requests';

/** A member's own feeds: addresses with a secret in them, which open the calendar and nothing else, until they are removed. */
@Injectable()
export class CalendarFeedsService {
  constructor(private readonly database: Database) {}

  make(caller: ClubCaller, { name }: CalendarFeedRequest): Promise<NewCalendarFeed> {
    const { clubId, memberId } = caller;
    const secret = newSecret(32);
    return this.database.write(caller, async (tx) => {
      const row = await tx.calendarFeed.create({
        data: { clubId, memberId, name, secretHash: hashSecret(secret) },
      });
      await audit(tx, caller, 'calendar-feed.made', row.id);
      const path = `/api/v1/clubs/${clubId}/calendar.ics?feed=${secret}`;
      return Object.assign(toCalendarFeedResponse(row), { path });
    });
  }

  async list(caller: ClubCaller, query: PageQuery): Promise<Page<CalendarFeedResponse>> {
    const list = JSON.stringify(['calendar-feeds', caller.clubId, caller.memberId]);
    const [after = null] = startOf(query, list) ?? [];
    const rows = await this.database.rows<CalendarFeedRow>(Prisma.sql`
      ${feeds(caller, null)} and (${after}::uuid is null or id < ${after}::uuid)
      order by id desc limit ${query.limit + 1}::int`);
    return pageOf(rows, query, list, (row) => [row.id], toCalendarFeedResponse);
  }

  async one(caller: ClubCaller, id: string): Promise<CalendarFeedResponse> {
    const [row] = await this.database.rows<CalendarFeedRow>(feeds(caller, id));
    return toCalendarFeedResponse(found(row));
  }

  remove(caller: ClubCaller, id: string): Promise<void> {
    return this.database.write(caller, async (tx) => {
      const [row] = await tx.$queryRaw<CalendarFeedRow[]>(
        Prisma.sql`${feeds(caller, id)} for update`,
      );
      refuseIfStale(caller, toCalendarFeedResponse(found(row)));
      await tx.calendarFeed.delete({ where: { clubId_id: { clubId: caller.clubId, id } } });
      await audit(tx, caller, 'calendar-feed.removed', id);
    });
  }
}

/** The member's feeds, or the one with that id. */
function feeds({ clubId, memberId }: ClubCaller, id: string | null): Prisma.Sql {
  return Prisma.sql`
    select id, name, created_at as "createdAt", last_used_at as "lastUsedAt" from calendar_feed
    where club_id = ${clubId}::uuid and member_id = ${memberId}::uuid and (${id}::uuid is null or id = ${id}::uuid)`;
}

function found(row: CalendarFeedRow | undefined): CalendarFeedRow {
  if (row === undefined) throw new Refusal('not-found');
  return row;
}
