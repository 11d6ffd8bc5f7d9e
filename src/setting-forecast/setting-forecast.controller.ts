import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { Allow, Answers } from '../platform/routes';
import { SettingForecastQuery } from './setting-forecast.requests';
import { SettingForecastResponse } from './setting-forecast.responses';
import { SettingForecastService } from './setting-forecast.service';

/** When a batch will have set, and how long to book the cool room for. */
@ApiTags('setting times')
@Controller('clubs/:clubId/setting-forecast')
export class SettingForecastController {
  constructor(private readonly forecasts: SettingForecastService) {}

  @Get()
  @Allow('member', 'read')
  @Answers(SettingForecastResponse, 'Days until a planned or running batch has set', 'invalid')
  ofBatch(
    @Caller() caller: ClubCaller,
    @Query() query: SettingForecastQuery,
  ): Promise<SettingForecastResponse> {
    return this.forecasts.ofBatch(caller, query);
  }
}
