import { Injectable } from '@nestjs/common';
import { refuseFuture } from '../core/refuse-future';
import { invalidField } from '../core/refusal';
import { LotLedger, type HeldLot } from '../lots/lot-ledger.service';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { gramsOf } from '../platform/fields';
import {
  dayOf,
  holdLoan,
  readLoan,
  refuseDueBefore,
  refuseOthers,
  refuseOutOfOrder,
  refuseUnfitMember,
} from './held-loan';
import { passSeed } from './pass-seed';
import type { LoanHandoverRequest, LoanRequest } from './loans.requests';
import { toLoanResponse, type LoanResponse } from './loans.responses';
import { tellOfHandover } from './tell-of-loan';

/** Hands seed over: the lender's lot is drawn down and the borrower gets a lot, in one transaction. */
@Injectable()
export class LendingService {
  constructor(
    private readonly database: Database,
    private readonly ledger: LotLedger,
    private readonly clock: Clock,
  ) {}

  /** Lends at once: the two stand in the room. */
  lend(caller: ClubCaller, request: LoanRequest): Promise<LoanResponse> {
    const { clubId } = caller;
    const { borrowerId, at, dueOn, note = '' } = request;
    const now = this.clock.now();
    refuseFuture('#/at', at, now);
    const massG = gramsOf(request.massKg);
    return this.database.write(caller, async (tx) => {
      await refuseDueBefore(tx, clubId, dueOn, at);
      const lot = await this.holdNamed(tx, clubId, request.lotId);
      refuseOthers(caller, lot.holderId, 'the seed’s holder');
      const otherId = lot.holderId;
      await refuseUnfitMember(tx, clubId, {
        pointer: '#/borrowerId',
        memberId: borrowerId,
        otherId,
      });
      const toLotId = await passSeed(this.ledger, tx, caller, { lot, massG, toId: borrowerId, at });
      const { id } = await tx.loan.create({
        data: {
          clubId,
          lenderId: lot.holderId,
          borrowerId,
          fromLotId: lot.id,
          toLotId,
          massG,
          begunAt: now,
          lentAt: at,
          dueOn: dayOf(dueOn),
          note,
        },
        select: { id: true },
      });
      await audit(tx, caller, 'loan.made', id, { lotId: lot.id, borrowerId, massG });
      const row = await readLoan(tx, caller, id, now);
      await tellOfHandover(tx, caller, row);
      return toLoanResponse(row);
    });
  }

  /** Hands over what was asked for or offered, and accepted. */
  handOver(caller: ClubCaller, id: string, request: LoanHandoverRequest): Promise<LoanResponse> {
    const { clubId } = caller;
    const { at } = request;
    const now = this.clock.now();
    refuseFuture('#/at', at, now);
    return this.database.write(caller, async (tx) => {
      const loan = await holdLoan(tx, caller, id, now);
      refuseOthers(caller, loan.lenderId, 'the lender');
      refuseOutOfOrder(loan, 'hand-over');
      const { borrowerId, lenderId } = loan;
      await refuseUnfitMember(tx, clubId, {
        pointer: '#',
        memberId: borrowerId,
        otherId: lenderId,
      });
      const massG = request.massKg === undefined ? loan.massG : gramsOf(request.massKg);
      const dueOn = request.dueOn ?? loan.dueOn;
      await refuseDueBefore(tx, clubId, dueOn, at);
      const lotId = request.lotId ?? loan.fromLotId;
      if (lotId === null) throw invalidField('#/lotId', 'Say which seed is handed over.');
      const lot = await this.holdNamed(tx, clubId, lotId);
      if (lot.holderId !== lenderId) {
        throw invalidField('#/lotId', 'The lender does not hold that lot: name one of theirs.');
      }
      const toLotId = await passSeed(this.ledger, tx, caller, { lot, massG, toId: borrowerId, at });
      await tx.loan.update({
        where: { clubId_id: { clubId, id } },
        data: {
          state: 'lent',
          fromLotId: lot.id,
          toLotId,
          massG,
          lentAt: at,
          dueOn: dayOf(dueOn),
          ...(request.note !== undefined && { note: request.note }),
        },
      });
      await audit(tx, caller, 'loan.handed-over', id, { lotId: lot.id, borrowerId, massG });
      const row = await readLoan(tx, caller, id, now);
      await tellOfHandover(tx, caller, row);
      return toLoanResponse(row);
    });
  }

  private async holdNamed(tx: Transaction, clubId: string, lotId: string): Promise<HeldLot> {
    const lot = (await this.ledger.hold(tx, clubId, [lotId])).get(lotId.toLowerCase());
    if (lot === undefined) throw invalidField('#/lotId', 'The club has no lot of this id.');
    return lot;
  }
}
