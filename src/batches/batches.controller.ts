import { Body, Controller, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Acts, Allow, Answers, Changes, Creates, Lists } from '../platform/routes';
import { CheckResponse, StepResponse } from './batch-events.responses';
import { BatchStepsService } from './batch-steps.service';
import {
  BatchChangeRequest,
  BatchesQuery,
  BatchRequest,
  CheckRequest,
  StepRequest,
  StrikeOutRequest,
} from './batches.requests';
import { BatchResponse, BatchSummary } from './batches.responses';
import { BatchesService } from './batches.service';
import { SettingChecksService } from './setting-checks.service';
import { TakeBacksService } from './take-backs.service';
import { StrikeOutsService } from './strike-outs.service';

/** Honey and seed on their way to one creamed lot. */
@ApiTags('batches')
@Controller('clubs/:clubId/batches')
export class BatchesController {
  constructor(
    private readonly batches: BatchesService,
    private readonly steps: BatchStepsService,
    private readonly checks: SettingChecksService,
    private readonly strikeOuts: StrikeOutsService,
    private readonly takeBacks: TakeBacksService,
  ) {}

  @Get()
  @Allow('member', 'read')
  @Lists(BatchSummary, 'The club’s batches, the newest first')
  list(@Caller() caller: ClubCaller, @Query() query: BatchesQuery): Promise<Page<BatchSummary>> {
    return this.batches.list(caller, query);
  }

  @Post()
  @Allow('member', 'record')
  @Creates(BatchResponse, 'Plan a batch', {
    refuses: ['not-yours', 'lot-unsuitable', 'not-enough-mass', 'seed-reserved'],
  })
  plan(@Caller() caller: ClubCaller, @Body() request: BatchRequest): Promise<BatchResponse> {
    return this.batches.plan(caller, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(BatchResponse, 'One batch, with all that was done to it')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<BatchResponse> {
    return this.batches.one(caller, id);
  }

  @Patch(':id')
  @Allow('member', 'record')
  @Changes(
    BatchResponse,
    'Rename a batch, note something, mean other honey for it, or reserve other seed',
    'not-yours',
    'lot-unsuitable',
    'not-enough-mass',
    'seed-reserved',
    'step-out-of-order',
  )
  change(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: BatchChangeRequest,
  ): Promise<BatchResponse> {
    return this.batches.change(caller, id, request);
  }

  @Get(':id/steps')
  @Allow('member', 'read')
  @Lists(StepResponse, 'What was done to the batch, in order')
  listSteps(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() query: PageQuery,
  ): Promise<Page<StepResponse>> {
    return this.steps.list(caller, id, query);
  }

  @Post(':id/steps')
  @Allow('member', 'record')
  @Creates(StepResponse, 'File a step; seeding makes the creamed lot, potting draws it down', {
    refuses: [
      'not-yours',
      'step-out-of-order',
      'lot-unsuitable',
      'not-enough-mass',
      'on-hold',
      'seed-reserved',
    ],
    location: false,
  })
  recordStep(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: StepRequest,
  ): Promise<StepResponse> {
    return this.steps.record(caller, id, request);
  }

  @Post(':id/steps/:stepId/take-back')
  @Allow('member', 'record')
  @Acts(
    BatchResponse,
    'Take back a step filed by mistake: the last one, within 15 minutes, and only where it moved no masses',
    'not-yours',
    'step-stays',
    'seed-reserved',
  )
  takeBack(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Param('stepId') stepId: string,
  ): Promise<BatchResponse> {
    return this.takeBacks.takeBack(caller, id, stepId);
  }

  @Get(':id/setting-checks')
  @Allow('member', 'read')
  @Lists(CheckResponse, 'What was seen by who looked, as it was recorded')
  listChecks(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() query: PageQuery,
  ): Promise<Page<CheckResponse>> {
    return this.checks.list(caller, id, query);
  }

  @Post(':id/setting-checks')
  @Allow('member', 'record')
  @Creates(CheckResponse, 'File a look; the first that found it set files the step, too', {
    refuses: ['step-out-of-order'],
    location: false,
  })
  recordCheck(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: CheckRequest,
  ): Promise<CheckResponse> {
    return this.checks.record(caller, id, request);
  }

  @Post(':id/setting-checks/:checkId/strike-out')
  @Allow('member', 'record')
  @Acts(
    CheckResponse,
    'Strike a mistaken look out: it stays on record and counts for nothing; where it had filed the step set, the step is taken back',
    'not-yours',
    'check-struck-out',
  )
  strikeOut(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Param('checkId') checkId: string,
    @Body() request: StrikeOutRequest,
  ): Promise<CheckResponse> {
    return this.strikeOuts.strikeOut(caller, id, checkId, request);
  }
}
