import { Body, Controller, Delete, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Acts, Allow, Answers, Changes, Creates, Lists, Removes } from '../platform/routes';
import { DueDaysService } from './due-days.service';
import { LendingService } from './lending.service';
import { LoanBalancesResponse } from './loan-balances.responses';
import { LoanReturnsService } from './loan-returns.service';
import { LoanWishesService } from './loan-wishes.service';
import {
  LoanAskRequest,
  LoanChange,
  LoanEndRequest,
  LoanHandoverRequest,
  LoanOfferRequest,
  LoanRequest,
  LoanReturnRequest,
  LoansQuery,
} from './loans.requests';
import { LoanResponse, LoanReturnResponse } from './loans.responses';
import { LoansService } from './loans.service';

/** Seed lent by one member to another. */
@ApiTags('loans')
@Controller('clubs/:clubId/loans')
export class LoansController {
  constructor(
    private readonly loans: LoansService,
    private readonly wishes: LoanWishesService,
    private readonly lending: LendingService,
    private readonly returns: LoanReturnsService,
    private readonly dueDays: DueDaysService,
  ) {}

  @Get()
  @Allow('member', 'read')
  @Lists(LoanResponse, 'The club’s loans, the newest first')
  list(@Caller() caller: ClubCaller, @Query() query: LoansQuery): Promise<Page<LoanResponse>> {
    return this.loans.list(caller, query);
  }

  @Post()
  @Allow('member', 'record')
  @Creates(LoanResponse, 'Lend seed at once: the borrower gets a lot of it', {
    refuses: ['not-yours', 'lot-unsuitable', 'not-enough-mass', 'on-hold', 'seed-reserved'],
  })
  lend(@Caller() caller: ClubCaller, @Body() request: LoanRequest): Promise<LoanResponse> {
    return this.lending.lend(caller, request);
  }

  @Post('asks')
  @Allow('member', 'record')
  @Creates(LoanResponse, 'Ask a member, or anybody, to lend seed', {
    refuses: ['lot-unsuitable'],
    location: false,
  })
  ask(@Caller() caller: ClubCaller, @Body() request: LoanAskRequest): Promise<LoanResponse> {
    return this.wishes.ask(caller, request);
  }

  @Post('offers')
  @Allow('member', 'record')
  @Creates(LoanResponse, 'Offer a member seed', {
    refuses: ['not-yours', 'lot-unsuitable'],
    location: false,
  })
  offer(@Caller() caller: ClubCaller, @Body() request: LoanOfferRequest): Promise<LoanResponse> {
    return this.wishes.offer(caller, request);
  }

  @Get('balances')
  @Allow('member', 'read')
  @Answers(LoanBalancesResponse, 'Who owes whom how much seed')
  balances(@Caller() caller: ClubCaller): Promise<LoanBalancesResponse> {
    return this.loans.balances(caller);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(LoanResponse, 'One loan')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<LoanResponse> {
    return this.loans.one(caller, id);
  }

  @Patch(':id')
  @Allow('member', 'record')
  @Changes(
    LoanResponse,
    'Move the day by which lent seed is wanted back',
    'not-yours',
    'loan-out-of-order',
  )
  change(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: LoanChange,
  ): Promise<LoanResponse> {
    return this.dueDays.change(caller, id, request);
  }

  @Delete(':id')
  @Allow('member', 'record')
  @Removes('Take back what was asked for or offered; the loan stays on record', {
    refuses: ['not-yours', 'loan-out-of-order'],
  })
  withdraw(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.wishes.withdraw(caller, id);
  }

  @Post(':id/acceptance')
  @Allow('member', 'record')
  @Acts(LoanResponse, 'Say yes to an ask or an offer', 'not-yours', 'loan-out-of-order')
  accept(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<LoanResponse> {
    return this.wishes.accept(caller, id);
  }

  @Post(':id/decline')
  @Allow('member', 'record')
  @Acts(LoanResponse, 'Say no to an ask or an offer', 'not-yours', 'loan-out-of-order')
  decline(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: LoanEndRequest,
  ): Promise<LoanResponse> {
    return this.wishes.decline(caller, id, request);
  }

  @Post(':id/handover')
  @Allow('member', 'record')
  @Acts(
    LoanResponse,
    'Hand the seed over: the borrower gets a lot of it',
    'not-yours',
    'loan-out-of-order',
    'lot-unsuitable',
    'not-enough-mass',
    'on-hold',
    'seed-reserved',
  )
  handOver(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: LoanHandoverRequest,
  ): Promise<LoanResponse> {
    return this.lending.handOver(caller, id, request);
  }

  @Get(':id/returns')
  @Allow('member', 'read')
  @Lists(LoanReturnResponse, 'What was given back, as it was recorded')
  listReturns(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() query: PageQuery,
  ): Promise<Page<LoanReturnResponse>> {
    return this.returns.list(caller, id, query);
  }

  @Post(':id/returns')
  @Allow('member', 'record')
  @Creates(LoanReturnResponse, 'Give seed back: the lender gets a lot of it', {
    refuses: [
      'not-yours',
      'loan-out-of-order',
      'more-than-owed',
      'lot-unsuitable',
      'not-enough-mass',
      'on-hold',
      'seed-reserved',
    ],
    location: false,
  })
  giveBack(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: LoanReturnRequest,
  ): Promise<LoanReturnResponse> {
    return this.returns.giveBack(caller, id, request);
  }

  @Post(':id/forgiveness')
  @Allow('member', 'record')
  @Acts(LoanResponse, 'Waive what is still owed', 'not-yours', 'loan-out-of-order')
  forgive(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: LoanEndRequest,
  ): Promise<LoanResponse> {
    return this.returns.forgive(caller, id, request);
  }
}
