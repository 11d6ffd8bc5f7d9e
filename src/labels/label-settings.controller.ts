import { Body, Controller, Get, Patch } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { Allow, Answers, Changes } from '../platform/routes';
import { LabelSettingsChange } from './label-settings.requests';
import { LabelSettingsResponse } from './label-settings.responses';
import { LabelSettingsService } from './label-settings.service';

/** What local law and taste decide about the club's labels. */
@ApiTags('labels')
@Controller('clubs/:clubId/label-settings')
export class LabelSettingsController {
  constructor(private readonly settings: LabelSettingsService) {}

  @Get()
  @Allow('member', 'read')
  @Answers(LabelSettingsResponse, 'How the club’s labels are made')
  one(@Caller() caller: ClubCaller): Promise<LabelSettingsResponse> {
    return this.settings.one(caller);
  }

  @Patch()
  @Allow('steward', 'steward')
  @Changes(LabelSettingsResponse, 'Change how the club’s labels are made')
  change(
    @Caller() caller: ClubCaller,
    @Body() request: LabelSettingsChange,
  ): Promise<LabelSettingsResponse> {
    return this.settings.change(caller, request);
  }
}
