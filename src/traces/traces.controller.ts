import { Controller, Get, Param } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { AnswersSvg } from '../platform/file-answers';
import { Allow, AnswersCsv } from '../platform/routes';
import { TracesService } from './traces.service';

/** What is in a lot and where it went, on paper and for outsiders. */
@ApiTags('lots')
@Controller('clubs/:clubId/lots/:id')
export class TracesController {
  constructor(private readonly traces: TracesService) {}

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
}
