import { Controller, Get, Param } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { Allow, Answers } from '../platform/routes';
import { ReckoningResponse } from './reckonings.responses';
import { ReckoningsService } from './reckonings.service';

/** What is reckoned from the records of a batch. */
@ApiTags('batches')
@Controller('clubs/:clubId/batches/:batchId/reckoning')
export class ReckoningsController {
  constructor(private readonly reckonings: ReckoningsService) {}

  @Get()
  @Allow('member', 'read')
  @Answers(ReckoningResponse, 'Seed, warming, heat, keeping and setting of the batch, reckoned')
  ofBatch(
    @Caller() caller: ClubCaller,
    @Param('batchId') batchId: string,
  ): Promise<ReckoningResponse> {
    return this.reckonings.ofBatch(caller, batchId);
  }
}
