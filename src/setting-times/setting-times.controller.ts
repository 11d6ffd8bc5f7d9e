import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { AnswersCsv } from '../platform/file-answers';
import { Allow, Answers } from '../platform/routes';
import { SettingTimesQuery, SettingTimesTableQuery } from './setting-times.requests';
import { SettingTimesResponse } from './setting-times.responses';
import { SettingTimesService } from './setting-times.service';

/** How long the club’s honeys take to set. */
@ApiTags('setting times')
@Controller('clubs/:clubId')
export class SettingTimesController {
  constructor(private readonly settingTimes: SettingTimesService) {}

  @Get('setting-times')
  @Allow('member', 'read')
  @Answers(
    SettingTimesResponse,
    'Days until a batch had set, by floral source, season, temperature, seed line or station',
    'invalid',
  )
  times(
    @Caller() caller: ClubCaller,
    @Query() query: SettingTimesQuery,
  ): Promise<SettingTimesResponse> {
    return this.settingTimes.times(caller, query);
  }

  @Get('setting-times.csv')
  @Allow('member', 'read')
  @AnswersCsv('The same as a table, for spreadsheets', 'setting-times.csv', 'invalid')
  table(@Caller() caller: ClubCaller, @Query() query: SettingTimesTableQuery): Promise<string> {
    return this.settingTimes.table(caller, query);
  }
}
