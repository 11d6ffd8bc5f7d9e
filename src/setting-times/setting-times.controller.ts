import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { Allow, Answers } from '../platform/routes';
import { SettingTimesQuery } from './setting-times.requests';
import { SettingTimesResponse } from './setting-times.responses';
import { SettingTimesService } from './setting-times.service';

/** How long the club’s honeys take to set. */
@ApiTags('setting times')
@Controller('clubs/:clubId/setting-times')
export class SettingTimesController {
  constructor(private readonly settingTimes: SettingTimesService) {}

  @Get()
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
}
