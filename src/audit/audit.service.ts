import { Injectable } from '@nestjs/common';
import type { ClubCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import type { AuditQuery } from './audit.requests';
import {
  toAuditEntryResponse,
  type AuditEntryResponse,
  type AuditEntryRow,
} from './audit.responses';

@Injectable()
export class Audit {
  constructor(private readonly database: Database) {}

  async list(caller: ClubCaller, query: AuditQuery): Promise<Page<AuditEntryResponse>> {
    const subjectId = query.subjectId ?? null;
    const list = `audit of ${caller.clubId}, ${subjectId ?? 'all'}`;
    const [after = null] = startOf(query, list) ?? [];
    const rows = await this.database.rows<AuditEntryRow>(Prisma.sql`
      select a.id, a.at, p.name as who, a.person_id as "personId", a.token_id as "tokenId",
        a.request_id as "requestId", a.action, a.subject_id as "subjectId", a.details
      from audit_entry a join person p on p.id = a.person_id
      where a.club_id = ${caller.clubId}::uuid
        and (${subjectId}::uuid is null or a.subject_id = ${subjectId}::uuid)
        and (${after}::uuid is null or a.id < ${after}::uuid)
      order by a.id desc limit ${query.limit + 1}`);
    return pageOf(rows, query, list, (row) => [row.id], toAuditEntryResponse);
  }
}
