import { Injectable } from '@nestjs/common';
import { refuseFuture } from '../core/refuse-future';
import { invalidField, Refusal } from '../core/refusal';
import { LotLedger } from '../lots/lot-ledger.service';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { gramsOf } from '../platform/fields';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { loanRows, type LoanRow } from './loan-rows';
import { tellOfLoan } from './tell-of-loan';
import type { LoanRequest, LoansQuery } from './loans.requests';
import { toLoanResponse, type LoanResponse } from './loans.responses';

@Injectable()
export class LoansService {
  constructor(
    private readonly database: Database,
    private readonly ledger: LotLedger,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: LoansQuery): Promise<Page<LoanResponse>> {
    const { memberId } = query;
    const list = JSON.stringify(['loans', caller.clubId, memberId]);
    const [after] = startOf(query, list) ?? [];
    const conditions = [Prisma.sql`true`];
    if (memberId !== undefined) {
      conditions.push(Prisma.sql`${memberId}::uuid in (n.lender_id, n.borrower_id)`);
    }
    if (after !== undefined) conditions.push(Prisma.sql`n.id < ${after}::uuid`);
    const rows = await this.database.rows<LoanRow>(
      loanRows(caller.clubId, Prisma.join(conditions, ' and '), query.limit + 1),
    );
    return pageOf(rows, query, list, (row) => [row.id], toLoanResponse);
  }

  async one(caller: ClubCaller, id: string): Promise<LoanResponse> {
    const [row] = await this.database.rows<LoanRow>(
      loanRows(caller.clubId, Prisma.sql`n.id = ${id}::uuid`, 1),
    );
    if (row === undefined) throw new Refusal('not-found');
    return toLoanResponse(row);
  }

  async lend(caller: ClubCaller, request: LoanRequest): Promise<LoanResponse> {
    const { clubId } = caller;
    const { borrowerId, at, dueOn, note = '' } = request;
    refuseFuture('#/at', at, this.clock.now());
    if (dueOn !== undefined && dueOn < at.toISOString().slice(0, 10)) {
      throw invalidField('#/dueOn', 'It must not be due before it is lent.');
    }
    const massG = gramsOf(request.massKg);
    return this.database.write(caller, async (tx) => {
      const held = await this.ledger.hold(tx, clubId, [request.lotId]);
      const lot = held.get(request.lotId.toLowerCase());
      if (lot === undefined) throw invalidField('#/lotId', 'The club has no lot of this id.');
      if (lot.holderId !== caller.memberId && caller.role !== 'steward') {
        throw new Refusal('not-yours');
      }
      await refuseUnfitBorrower(tx, clubId, borrowerId, lot.holderId);
      const part = { lot, massG, lotPointer: '#/lotId', massPointer: '#/massKg' };
      this.ledger.refuseUnlessKind(part, 'seed');
      this.ledger.refuseUnlessEnough(part);

      const lent = {
        kind: 'seed' as const,
        name: lot.name,
        holderId: borrowerId,
        initialMassG: massG,
        grain: lot.grain,
        batchId: null,
        note: '',
      };
      const toLot = await this.ledger.make(tx, caller, lent, { kind: 'lent', parts: [part], at });
      const { id } = await tx.loan.create({
        data: {
          clubId,
          lenderId: lot.holderId,
          borrowerId,
          fromLotId: lot.id,
          toLotId: toLot.id,
          massG,
          lentAt: at,
          dueOn: dueOn === undefined ? null : new Date(`${dueOn}T00:00:00Z`),
          note,
        },
        select: { id: true },
      });
      await audit(tx, caller, 'loan.made', id, { lotId: lot.id, borrowerId, massG });
      const [row] = await tx.$queryRaw<LoanRow[]>(
        loanRows(clubId, Prisma.sql`n.id = ${id}::uuid`, 1),
      );
      if (row === undefined) throw new Refusal('not-found');
      await tellOfLoan(tx, caller, row);
      return toLoanResponse(row);
    });
  }
}

async function refuseUnfitBorrower(
  tx: Transaction,
  clubId: string,
  borrowerId: string,
  lenderId: string,
): Promise<void> {
  if (borrowerId.toLowerCase() === lenderId) {
    throw invalidField('#/borrowerId', 'The lot is this member’s already: name another one.');
  }
  const borrower = await tx.member.findFirst({
    where: { clubId, id: borrowerId, leftAt: null },
    select: { id: true },
  });
  if (borrower === null) throw invalidField('#/borrowerId', 'The club has no such member.');
}
