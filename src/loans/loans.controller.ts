import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Allow, Answers, Creates, Lists } from '../platform/routes';
import { LoanRequest, LoansQuery } from './loans.requests';
import { LoanResponse } from './loans.responses';
import { LoansService } from './loans.service';

/** Seed lent by one member to another. */
@ApiTags('loans')
@Controller('clubs/:clubId/loans')
export class LoansController {
  constructor(private readonly loans: LoansService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(LoanResponse, 'The club’s loans, the newest first')
  list(@Caller() caller: ClubCaller, @Query() query: LoansQuery): Promise<Page<LoanResponse>> {
    return this.loans.list(caller, query);
  }

  @Post()
  @Allow('member', 'record')
  @Creates(LoanResponse, 'Lend seed: the borrower gets a lot of it', {
    refuses: ['not-yours', 'lot-unsuitable', 'not-enough-mass', 'on-hold', 'seed-reserved'],
  })
  lend(@Caller() caller: ClubCaller, @Body() request: LoanRequest): Promise<LoanResponse> {
    return this.loans.lend(caller, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(LoanResponse, 'One loan')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<LoanResponse> {
    return this.loans.one(caller, id);
  }
}
