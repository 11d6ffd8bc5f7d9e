import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Allow, Lists } from '../platform/routes';
import { AuditQuery } from './audit.requests';
import { AuditEntryResponse } from './audit.responses';
import { Audit } from './audit.service';

/** The club's history: who changed what, and when. */
@ApiTags('audit')
@Controller('clubs/:clubId/audit')
export class AuditController {
  constructor(private readonly history: Audit) {}

  @Get()
  @Allow('steward', 'steward')
  @Lists(AuditEntryResponse, 'Everything that was done, the latest first')
  list(
    @Caller() caller: ClubCaller,
    @Query() query: AuditQuery,
  ): Promise<Page<AuditEntryResponse>> {
    return this.history.list(caller, query);
  }
}
