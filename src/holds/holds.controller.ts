import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Acts, Allow, Answers, Creates, Lists } from '../platform/routes';
import {
  BranchReleaseRequest,
  HoldRequest,
  HoldsQuery,
  HoldReleaseRequest,
} from './holds.requests';
import { HoldResponse, HoldSummary } from './holds.responses';
import { HoldsService } from './holds.service';

/** Suspect lots: nothing leaves them, or what was made of them, until they are released. */
@ApiTags('holds')
@Controller('clubs/:clubId')
export class HoldsController {
  constructor(private readonly holds: HoldsService) {}

  @Post('lots/:id/holds')
  @Allow('member', 'record')
  @Creates(HoldResponse, 'Put a suspect lot on hold, and with it all that was made of it', {
    location: false,
  })
  place(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: HoldRequest,
  ): Promise<HoldResponse> {
    return this.holds.place(caller, id, request);
  }

  @Get('holds')
  @Allow('member', 'read')
  @Lists(HoldSummary, 'The club’s holds, the newest first')
  list(@Caller() caller: ClubCaller, @Query() query: HoldsQuery): Promise<Page<HoldSummary>> {
    return this.holds.list(caller, query);
  }

  @Get('holds/:id')
  @Allow('member', 'read')
  @Answers(HoldResponse, 'One hold, and the lots that it reaches')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<HoldResponse> {
    return this.holds.one(caller, id);
  }

  @Post('holds/:id/release')
  @Allow('member', 'record')
  @Acts(HoldResponse, 'Release a hold: a steward may, and who placed it', 'not-yours', 'hold-over')
  release(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: HoldReleaseRequest,
  ): Promise<HoldResponse> {
    return this.holds.release(caller, id, request);
  }

  @Post('holds/:id/branch-releases')
  @Allow('member', 'record')
  @Acts(
    HoldResponse,
    'Release one branch: a lot found good, and what was made of it and of nothing else on hold',
    'not-yours',
    'hold-over',
    'lot-unsuitable',
  )
  releaseBranch(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: BranchReleaseRequest,
  ): Promise<HoldResponse> {
    return this.holds.releaseBranch(caller, id, request);
  }
}
