import { Controller, Get, Param } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { Allow, Answers } from '../platform/routes';
import { WarmingFitResponse } from './warming-fit.responses';
import { WarmingFitService } from './warming-fit.service';

/** How fast the pails of a batch really warmed. */
@ApiTags('batches')
@Controller('clubs/:clubId/batches/:batchId/warming-fit')
export class WarmingFitController {
  constructor(private readonly warmingFit: WarmingFitService) {}

  @Get()
  @Allow('member', 'read')
  @Answers(
    WarmingFitResponse,
    'How fast a pail of the batch warmed by its probe, and how long the same pail will take',
  )
  ofBatch(
    @Caller() caller: ClubCaller,
    @Param('batchId') batchId: string,
  ): Promise<WarmingFitResponse> {
    return this.warmingFit.ofBatch(caller, batchId);
  }
}
