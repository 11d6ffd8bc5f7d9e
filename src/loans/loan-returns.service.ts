import { Injectable } from '@nestjs/common';
import { refuseFuture } from '../core/refuse-future';
import { invalidField, Refusal } from '../core/refusal';
import { LotLedger } from '../lots/lot-ledger.service';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { gramsOf, kgOf } from '../platform/fields';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { holdLoan, readLoan, refuseOthers, refuseOutOfOrder } from './held-loan';
import { loanReturnRows, type LoanReturnRow } from './loan-rows';
import { LoansService } from './loans.service';
import type { LoanEndRequest, LoanReturnRequest } from './loans.requests';
import {
  toLoanResponse,
  toLoanReturnResponse,
  type LoanResponse,
  type LoanReturnResponse,
} from './loans.responses';
import { passSeed } from './pass-seed';
import { tellOfLoan } from './tell-of-loan';

/** Seed comes back in kind, whole or in parts, or the lender waives what is left. */
@Injectable()
export class LoanReturnsService {
  constructor(
    private readonly database: Database,
    private readonly ledger: LotLedger,
    private readonly loans: LoansService,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, id: string, query: PageQuery): Promise<Page<LoanReturnResponse>> {
    const list = JSON.stringify(['loan-returns', caller.clubId, id]);
    const [after] = startOf(query, list) ?? [];
    const condition =
      after === undefined
        ? Prisma.sql`r.loan_id = ${id}::uuid`
        : Prisma.sql`r.loan_id = ${id}::uuid and r.id > ${after}::uuid`;
    const rows = await this.database.rows<LoanReturnRow>(
      loanReturnRows(caller.clubId, condition, query.limit + 1),
    );
    // Nothing given back yet, or no such loan.
    if (rows.length === 0) await this.loans.one(caller, id);
    return pageOf(rows, query, list, (row) => [row.id], toLoanReturnResponse);
  }

  giveBack(
    caller: ClubCaller,
    loanId: string,
    request: LoanReturnRequest,
  ): Promise<LoanReturnResponse> {
    const { clubId } = caller;
    const { at, note = '' } = request;
    const now = this.clock.now();
    refuseFuture('#/at', at, now);
    const massG = gramsOf(request.massKg);
    return this.database.write(caller, async (tx) => {
      const loan = await holdLoan(tx, caller, loanId, now);
      refuseOthers(caller, loan.borrowerId, 'the borrower');
      refuseOutOfOrder(loan, 'return');
      const { lenderId, lentAt } = loan;
      if (lenderId === null || lentAt === null) throw new Refusal('loan-out-of-order');
      if (at < lentAt) {
        throw invalidField('#/at', `It was lent only then: ${lentAt.toISOString()}.`);
      }
      refuseMoreThan(loan.owedMassG, massG);
      const lotId = request.lotId.toLowerCase();
      const lot = (await this.ledger.hold(tx, clubId, [lotId])).get(lotId);
      if (lot === undefined) throw invalidField('#/lotId', 'The club has no lot of this id.');
      if (lot.holderId !== loan.borrowerId) {
        throw invalidField('#/lotId', 'The borrower does not hold that lot: name one of theirs.');
      }

      const toLotId = await passSeed(this.ledger, tx, caller, { lot, massG, toId: lenderId, at });
      const { id } = await tx.loanReturn.create({
        data: {
          clubId,
          loanId,
          fromLotId: lot.id,
          toLotId,
          massG,
          at,
          note,
          recordedById: caller.memberId,
          recordedAt: now,
        },
        select: { id: true },
      });
      await audit(tx, caller, 'loan.returned', loanId, { returnId: id, lotId: lot.id, massG });
      const left = await readLoan(tx, caller, loanId, now);
      await tellOfLoan(
        tx,
        caller,
        left,
        [
          { memberId: left.lenderId, kind: 'loan.returned' },
          { memberId: left.borrowerId, kind: 'loan.returned' },
        ],
        { event: id, details: { returnedMassKg: kgOf(massG), returnedLotName: lot.name } },
      );
      const [row] = await tx.$queryRaw<LoanReturnRow[]>(
        loanReturnRows(clubId, Prisma.sql`r.id = ${id}::uuid`, 1),
      );
      if (row === undefined) throw new Refusal('not-found');
      return toLoanReturnResponse(row);
    });
  }

  /** The lender waives what is still owed. */
  forgive(caller: ClubCaller, id: string, { note = '' }: LoanEndRequest): Promise<LoanResponse> {
    const { clubId } = caller;
    const now = this.clock.now();
    return this.database.write(caller, async (tx) => {
      const loan = await holdLoan(tx, caller, id, now);
      refuseOthers(caller, loan.lenderId, 'the lender');
      refuseOutOfOrder(loan, 'forgive');
      await tx.loan.update({
        where: { clubId_id: { clubId, id } },
        data: {
          state: 'forgiven',
          forgivenMassG: loan.owedMassG,
          endedAt: now,
          endedById: caller.memberId,
          endedBecause: note,
        },
      });
      await audit(tx, caller, 'loan.forgiven', id, { massG: loan.owedMassG, because: note });
      const row = await readLoan(tx, caller, id, now);
      await tellOfLoan(
        tx,
        caller,
        row,
        [
          { memberId: row.borrowerId, kind: 'loan.forgiven' },
          { memberId: row.lenderId, kind: 'loan.forgiven' },
        ],
        { details: { forgivenMassKg: kgOf(loan.owedMassG), because: note } },
      );
      return toLoanResponse(row);
    });
  }
}

function refuseMoreThan(owedMassG: number, massG: number): void {
  if (massG <= owedMassG) return;
  const detail = `${kgOf(owedMassG)} kg are still owed, not ${kgOf(massG)} kg: lend the rest, if you like.`;
  throw new Refusal('more-than-owed', detail, {
    errors: [{ pointer: '#/massKg', detail }],
    offers: { owedMassKg: kgOf(owedMassG) },
  });
}
