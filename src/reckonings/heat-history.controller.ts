import { Controller, Get, Param } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { Allow, Answers } from '../platform/routes';
import { HeatHistoryResponse } from './heat-history.responses';
import { HeatHistoryService } from './heat-history.service';

/** What the honey in a lot went through. */
@ApiTags('lots')
@Controller('clubs/:clubId/lots/:lotId/heat-history')
export class HeatHistoryController {
  constructor(private readonly heatHistory: HeatHistoryService) {}

  @Get()
  @Allow('member', 'read')
  @Answers(HeatHistoryResponse, 'What warming cost the honey in the lot')
  ofLot(@Caller() caller: ClubCaller, @Param('lotId') lotId: string): Promise<HeatHistoryResponse> {
    return this.heatHistory.ofLot(caller, lotId);
  }
}
