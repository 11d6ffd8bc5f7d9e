import { Controller, Get, Param } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { Allow, Answers } from '../platform/routes';
import { TemperaturesResponse } from './temperatures.responses';
import { TemperaturesService } from './temperatures.service';

/** The warming and cooling of a batch, planned and logged. */
@ApiTags('batches')
@Controller('clubs/:clubId/batches/:batchId/temperatures')
export class TemperaturesController {
  constructor(private readonly temperatures: TemperaturesService) {}

  @Get()
  @Allow('member', 'read')
  @Answers(
    TemperaturesResponse,
    'How the batch was to warm and to cool, what probes logged of it, and the limits',
  )
  ofBatch(
    @Caller() caller: ClubCaller,
    @Param('batchId') batchId: string,
  ): Promise<TemperaturesResponse> {
    return this.temperatures.ofBatch(caller, batchId);
  }
}
