import { Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { AnswersCsv, AnswersHtml } from '../platform/file-answers';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Answers, Creates, Lists } from '../platform/routes';
import { RecallDrillResponse } from './recall-drills.responses';
import { RecallDrillsService } from './recall-drills.service';
import { RecallQuery } from './recalls.requests';
import { RecallResponse } from './recalls.responses';
import { RecallsService } from './recalls.service';

/** Where a suspect lot went, whose it is now and what became of it; and drills, to see that the club would find it. */
@ApiTags('recalls')
@Controller('clubs/:clubId')
export class RecallsController {
  constructor(
    private readonly recalls: RecallsService,
    private readonly drills: RecallDrillsService,
  ) {}

  @Get('lots/:id/recall')
  @Allow('member', 'read')
  @Answers(RecallResponse, 'Every lot that this one is in, and where all of it is', 'invalid')
  report(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() query: RecallQuery,
  ): Promise<RecallResponse> {
    return this.recalls.report(caller, id, query);
  }

  @Get('lots/:id/recall.csv')
  @Allow('member', 'read')
  @AnswersCsv('The same as a table, for spreadsheets', 'recall.csv', 'invalid')
  table(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() query: RecallQuery,
  ): Promise<string> {
    return this.recalls.table(caller, id, query);
  }

  @Get('lots/:id/recall.html')
  @Allow('member', 'read')
  @AnswersHtml('The same as a page to print, by holder', 'invalid')
  page(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() query: RecallQuery,
  ): Promise<string> {
    return this.recalls.page(caller, id, query);
  }

  @Post('lots/:id/recall-drills')
  @Allow('member', 'record')
  @Creates(RecallDrillResponse, 'Try out a recall: measured and kept, nobody is told', {
    location: false,
  })
  drill(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<RecallDrillResponse> {
    return this.drills.run(caller, id);
  }

  @Get('recall-drills')
  @Allow('member', 'read')
  @Lists(RecallDrillResponse, 'Recalls tried out, the newest first')
  listDrills(
    @Caller() caller: ClubCaller,
    @Query() query: PageQuery,
  ): Promise<Page<RecallDrillResponse>> {
    return this.drills.list(caller, query);
  }
}
