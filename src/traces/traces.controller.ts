import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { EpcisDocument } from '../core/epcis/epcis-document';
import { Caller, ReachedAt, type ClubCaller } from '../platform/caller';
import { AnswersCsv, AnswersLinkedData, AnswersSvg } from '../platform/file-answers';
import { Allow, Answers } from '../platform/routes';
import { epcisSchema } from './epcis-schema';
import { HistoryService } from './history.service';
import { NearLineageQuery, NearLineageResponse } from './near-lineage.responses';
import { TracesService } from './traces.service';

/** What is in a lot and where it went, on paper and for outsiders. */
@ApiTags('lots')
@Controller('clubs/:clubId/lots/:id')
export class TracesController {
  constructor(
    private readonly traces: TracesService,
    private readonly histories: HistoryService,
  ) {}

  @Get('lineage')
  @Allow('member', 'read')
  @Answers(
    NearLineageResponse,
    'The lots near this one, what went from one into another, and which are on hold',
    'invalid',
  )
  near(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() { most }: NearLineageQuery,
  ): Promise<NearLineageResponse> {
    return this.traces.near(caller, id, most);
  }

  @Get('lineage.svg')
  @Allow('member', 'read')
  @AnswersSvg('What is in the lot and where it went, drawn')
  drawing(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<string> {
    return this.traces.drawing(caller, id);
  }

  @Get('lineage.csv')
  @Allow('member', 'read')
  @AnswersCsv('The same as a table, for spreadsheets and for whoever cannot see it', 'lineage.csv')
  table(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<string> {
    return this.traces.table(caller, id);
  }

  @Get('epcis.jsonld')
  @Allow('member', 'read')
  @AnswersLinkedData(epcisSchema, 'The lot’s whole history as events of EPCIS 2.0, for outsiders')
  history(
    @Caller() caller: ClubCaller,
    @ReachedAt() reachedAt: string,
    @Param('id') id: string,
  ): Promise<EpcisDocument> {
    return this.histories.document(caller, id, reachedAt);
  }
}
