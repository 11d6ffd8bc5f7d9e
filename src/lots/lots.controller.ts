import { Body, Controller, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Answers, Changes, Creates, Lists } from '../platform/routes';
import { AncestorsResponse, DescendantsResponse } from './lineage.responses';
import { LineageService } from './lineage.service';
import { BringInRequest, LotChangeRequest, LotsQuery, WithdrawalRequest } from './lots.requests';
import { LotResponse, MovementResponse } from './lots.responses';
import { LotsService } from './lots.service';

/** Honey, seed and creamed honey: whose it is, how much is left, what is in it and where it went. */
@ApiTags('lots')
@Controller('clubs/:clubId/lots')
export class LotsController {
  constructor(
    private readonly lots: LotsService,
    private readonly lineage: LineageService,
  ) {}

  @Get()
  @Allow('member', 'read')
  @Lists(LotResponse, 'The club’s lots, the newest first')
  list(@Caller() caller: ClubCaller, @Query() query: LotsQuery): Promise<Page<LotResponse>> {
    return this.lots.list(caller, query);
  }

  @Post()
  @Allow('member', 'record')
  @Creates(LotResponse, 'Bring in honey, or seed that was bought')
  bringIn(@Caller() caller: ClubCaller, @Body() request: BringInRequest): Promise<LotResponse> {
    return this.lots.bringIn(caller, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(LotResponse, 'One lot')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<LotResponse> {
    return this.lots.one(caller, id);
  }

  @Patch(':id')
  @Allow('member', 'record')
  @Changes(LotResponse, 'Rename a lot, note something, set its grain', 'not-yours')
  change(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: LotChangeRequest,
  ): Promise<LotResponse> {
    return this.lots.change(caller, id, request);
  }

  @Get(':id/withdrawals')
  @Allow('member', 'read')
  @Lists(MovementResponse, 'All that left the lot, as it was recorded')
  movements(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() query: PageQuery,
  ): Promise<Page<MovementResponse>> {
    return this.lots.movements(caller, id, query);
  }

  @Post(':id/withdrawals')
  @Allow('member', 'record')
  @Creates(MovementResponse, 'Take something out that goes into no other lot', {
    refuses: ['not-yours', 'not-enough-mass', 'on-hold', 'seed-reserved', 'lot-unsuitable'],
    location: false,
  })
  withdraw(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: WithdrawalRequest,
  ): Promise<MovementResponse> {
    return this.lots.withdraw(caller, id, request);
  }

  @Get(':id/ancestors')
  @Allow('member', 'read')
  @Answers(AncestorsResponse, 'What is in the lot')
  ancestors(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<AncestorsResponse> {
    return this.lineage.ancestors(caller, id);
  }

  @Get(':id/descendants')
  @Allow('member', 'read')
  @Answers(DescendantsResponse, 'Where the lot went')
  descendants(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<DescendantsResponse> {
    return this.lineage.descendants(caller, id);
  }
}
