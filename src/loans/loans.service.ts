import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import {
  mostOpenLoans,
  toLoanBalances,
  type LoanBalancesResponse,
  type OwedRow,
} from './loan-balances.responses';
import { isAbout, isOverdue, loanRows, type LoanRow } from './loan-rows';
import type { LoansQuery } from './loans.requests';
import { toLoanResponse, type LoanResponse } from './loans.responses';

@Injectable()
export class LoansService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: LoansQuery): Promise<Page<LoanResponse>> {
    const { memberId, lotId, state, overdue } = query;
    const list = JSON.stringify(['loans', caller.clubId, memberId, lotId, state, overdue]);
    const [after] = startOf(query, list) ?? [];
    const now = this.clock.now();
    const conditions = [Prisma.sql`true`];
    if (memberId !== undefined) {
      conditions.push(Prisma.sql`${memberId}::uuid in (n.lender_id, n.borrower_id)`);
    }
    if (lotId !== undefined) conditions.push(isAbout(lotId));
    if (state !== undefined) conditions.push(Prisma.sql`n.state = ${state}::loan_state`);
    if (overdue !== undefined) {
      conditions.push(Prisma.sql`${isOverdue(now)} = ${overdue}`);
    }
    if (after !== undefined) conditions.push(Prisma.sql`n.id < ${after}::uuid`);
    const rows = await this.database.rows<LoanRow>(
      loanRows(caller.clubId, Prisma.join(conditions, ' and '), query.limit + 1, now),
    );
    return pageOf(rows, query, list, (row) => [row.id], toLoanResponse);
  }

  async one(caller: ClubCaller, id: string): Promise<LoanResponse> {
    const [row] = await this.database.rows<LoanRow>(
      loanRows(caller.clubId, Prisma.sql`n.id = ${id}::uuid`, 1, this.clock.now()),
    );
    if (row === undefined) throw new Refusal('not-found');
    return toLoanResponse(row);
  }

  async balances(caller: ClubCaller): Promise<LoanBalancesResponse> {
    const rows = await this.database.rows<OwedRow>(Prisma.sql`
      select * from (${loanRows(caller.clubId, Prisma.sql`n.state = 'lent'`, mostOpenLoans, this.clock.now())}) o order by id`);
    return toLoanBalances(rows);
  }
}
