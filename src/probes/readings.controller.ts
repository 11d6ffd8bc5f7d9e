import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { TakesCsv } from '../platform/csv';
import { AnswersCsv } from '../platform/file-answers';
import type { Page } from '../platform/paging';
import { Allow, Lists, Records } from '../platform/routes';
import {
  ReadingsFileQuery,
  readingsFile,
  ReadingsQuery,
  ReadingsRequest,
} from './readings.requests';
import { ReadingResponse, RecordedReadings } from './readings.responses';
import { ReadingsService } from './readings.service';

/** What a probe read. */
@ApiTags('probes')
@Controller('clubs/:clubId/probes/:probeId')
export class ReadingsController {
  constructor(private readonly readings: ReadingsService) {}

  @Get('readings')
  @Allow('member', 'read')
  @Lists(ReadingResponse, 'What a probe read, in the order of time')
  list(
    @Caller() caller: ClubCaller,
    @Param('probeId') probeId: string,
    @Query() query: ReadingsQuery,
  ): Promise<Page<ReadingResponse>> {
    return this.readings.ofProbe(caller, probeId, query);
  }

  @Post('readings')
  @Allow('member', 'record')
  @TakesCsv(readingsFile)
  @Records(RecordedReadings, 'Record what a probe read, as JSON or as a file', 'reading-differs')
  record(
    @Caller() caller: ClubCaller,
    @Param('probeId') probeId: string,
    @Body() request: ReadingsRequest,
  ): Promise<RecordedReadings> {
    return this.readings.record(caller, probeId, request);
  }

  @Get('readings.csv')
  @Allow('member', 'read')
  @AnswersCsv('What a probe read, as a file', 'readings.csv', 'invalid')
  file(
    @Caller() caller: ClubCaller,
    @Param('probeId') probeId: string,
    @Query() query: ReadingsFileQuery,
  ): Promise<string> {
    return this.readings.file(caller, probeId, query);
  }
}
