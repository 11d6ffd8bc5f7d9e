import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Creates, Lists } from '../platform/routes';
import { CorrectionRequest } from './corrections.requests';
import { CorrectionResponse } from './corrections.responses';
import { CorrectionsService } from './corrections.service';

/** What went into a lot, or was handed over as one, recorded wrongly and put right. */
@ApiTags('lots')
@Controller('clubs/:clubId/lots/:id/corrections')
export class CorrectionsController {
  constructor(private readonly corrections: CorrectionsService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(CorrectionResponse, 'Corrections of what went into the lot, the newest first')
  list(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() query: PageQuery,
  ): Promise<Page<CorrectionResponse>> {
    return this.corrections.list(caller, id, query);
  }

  @Post()
  @Allow('member', 'record')
  @Creates(
    CorrectionResponse,
    'Another lot went in, or was handed over, than was recorded, or less',
    {
      refuses: ['not-yours', 'lot-unsuitable', 'not-enough-mass', 'loan-out-of-order'],
      location: false,
    },
  )
  correct(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: CorrectionRequest,
  ): Promise<CorrectionResponse> {
    return this.corrections.correct(caller, id, request);
  }
}
