import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
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
import type { LoanRow } from './loan-rows';
import type { LoanAskRequest, LoanEndRequest, LoanOfferRequest } from './loans.requests';
import { toLoanResponse, type LoanResponse } from './loans.responses';
import { tellOfLoan } from './tell-of-loan';

/**
 * Asks and offers of seed, until they are accepted or come to nothing. They hold no seed back: only what is handed over, or reserved for a
 * batch, leaves what the lender may use.
 */
@Injectable()
export class LoanWishesService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  /** Asks one member, or anybody. */
  ask(caller: ClubCaller, request: LoanAskRequest): Promise<LoanResponse> {
    const { clubId, memberId } = caller;
    const { lenderId, lotId, dueOn, note = '' } = request;
    const now = this.clock.now();
    return this.database.write(caller, async (tx) => {
      await refuseDueBefore(tx, clubId, dueOn, now);
      const lot = lotId === undefined ? null : await seedOf(tx, clubId, lotId);
      if (lot !== null && lenderId !== undefined && lot.holderId !== lenderId.toLowerCase()) {
        throw invalidField('#/lotId', 'Another member holds that lot: ask them.');
      }
      const askedId = lenderId ?? lot?.holderId ?? null;
      if (askedId !== null) {
        const pointer = lenderId === undefined ? '#/lotId' : '#/lenderId';
        const otherId = memberId;
        await refuseUnfitMember(tx, clubId, { pointer, memberId: askedId, otherId });
      }
      const { id } = await tx.loan.create({
        data: {
          clubId,
          state: 'asked',
          beganAs: 'asked',
          lenderId: askedId,
          borrowerId: memberId,
          fromLotId: lot?.id ?? null,
          massG: gramsOf(request.massKg),
          begunAt: now,
          dueOn: dayOf(dueOn),
          note,
        },
        select: { id: true },
      });
      await audit(tx, caller, 'loan.asked', id, { lenderId: askedId, lotId });
      const row = await readLoan(tx, caller, id, now);
      const asked = askedId === null ? await others(tx, caller) : [askedId];
      const told = asked.map((one) => ({ memberId: one, kind: 'loan.asked' }));
      await tellOfLoan(tx, caller, row, told);
      return toLoanResponse(row);
    });
  }

  offer(caller: ClubCaller, request: LoanOfferRequest): Promise<LoanResponse> {
    const { clubId } = caller;
    const { borrowerId, dueOn, note = '' } = request;
    const now = this.clock.now();
    return this.database.write(caller, async (tx) => {
      await refuseDueBefore(tx, clubId, dueOn, now);
      const lot = await seedOf(tx, clubId, request.lotId);
      refuseOthers(caller, lot.holderId, 'the seed’s holder');
      const otherId = lot.holderId;
      await refuseUnfitMember(tx, clubId, {
        pointer: '#/borrowerId',
        memberId: borrowerId,
        otherId,
      });
      const { id } = await tx.loan.create({
        data: {
          clubId,
          state: 'offered',
          beganAs: 'offered',
          lenderId: lot.holderId,
          borrowerId,
          fromLotId: lot.id,
          massG: gramsOf(request.massKg),
          begunAt: now,
          dueOn: dayOf(dueOn),
          note,
        },
        select: { id: true },
      });
      await audit(tx, caller, 'loan.offered', id, { borrowerId, lotId: lot.id });
      const row = await readLoan(tx, caller, id, now);
      await tellOfLoan(tx, caller, row, [{ memberId: borrowerId, kind: 'loan.offered' }]);
      return toLoanResponse(row);
    });
  }

  /** Says yes: the one who was asked, whoever has some where anybody was, or the one to whom it was offered. */
  accept(caller: ClubCaller, id: string): Promise<LoanResponse> {
    const { clubId, memberId } = caller;
    const now = this.clock.now();
    return this.database.write(caller, async (tx) => {
      const loan = await holdLoan(tx, caller, id, now);
      refuseOutOfOrder(loan, 'accept');
      const isForAnybody = loan.lenderId === null && loan.borrowerId !== memberId;
      if (!isForAnybody) refuseUnlessAddressed(caller, loan);
      await tx.loan.update({
        where: { clubId_id: { clubId, id } },
        data: { state: 'accepted', acceptedAt: now, ...(isForAnybody && { lenderId: memberId }) },
      });
      await audit(tx, caller, 'loan.accepted', id);
      const row = await readLoan(tx, caller, id, now);
      await tellOfLoan(tx, caller, row, [{ memberId: beginnerOf(row), kind: 'loan.accepted' }]);
      return toLoanResponse(row);
    });
  }

  decline(caller: ClubCaller, id: string, { note = '' }: LoanEndRequest): Promise<LoanResponse> {
    const now = this.clock.now();
    return this.database.write(caller, async (tx) => {
      const loan = await holdLoan(tx, caller, id, now);
      refuseOutOfOrder(loan, 'decline');
      refuseUnlessAddressed(caller, loan);
      await end(tx, caller, id, { state: 'declined', because: note, now });
      const row = await readLoan(tx, caller, id, now);
      const more = { details: { because: note } };
      await tellOfLoan(
        tx,
        caller,
        row,
        [{ memberId: beginnerOf(row), kind: 'loan.declined' }],
        more,
      );
      return toLoanResponse(row);
    });
  }

  /** Takes an ask or an offer back; once it is accepted, either side may. */
  withdraw(caller: ClubCaller, id: string): Promise<void> {
    const now = this.clock.now();
    return this.database.write(caller, async (tx) => {
      const loan = await holdLoan(tx, caller, id, now);
      const sides = [loan.lenderId, loan.borrowerId];
      const mayEither = loan.state === 'accepted' && sides.includes(caller.memberId);
      if (!mayEither) refuseOthers(caller, beginnerOf(loan), 'whoever asked or offered');
      refuseIfStale(caller, toLoanResponse(loan));
      refuseOutOfOrder(loan, 'withdraw');
      await end(tx, caller, id, { state: 'withdrawn', because: '', now });
      const told = sides.map((memberId) => ({ memberId, kind: 'loan.withdrawn' }));
      await tellOfLoan(tx, caller, loan, told);
    });
  }
}

function beginnerOf({ beganAs, lenderId, borrowerId }: LoanRow): string | null {
  return beganAs === 'asked' ? borrowerId : lenderId;
}

function refuseUnlessAddressed(caller: ClubCaller, { beganAs, ...loan }: LoanRow): void {
  const addressee = beganAs === 'asked' ? loan.lenderId : loan.borrowerId;
  if (addressee !== null) {
    refuseOthers(caller, addressee, 'the one who was asked');
    return;
  }
  throw new Refusal(
    'not-yours',
    caller.memberId === loan.borrowerId
      ? 'It is your own wish: somebody else says yes to it.'
      : 'Anybody was asked: whoever has none to lend need not answer.',
  );
}

async function end(
  tx: Transaction,
  caller: ClubCaller,
  id: string,
  { state, because, now }: { state: 'declined' | 'withdrawn'; because: string; now: Date },
): Promise<void> {
  await tx.loan.update({
    where: { clubId_id: { clubId: caller.clubId, id } },
    data: { state, endedAt: now, endedById: caller.memberId, endedBecause: because },
  });
  await audit(tx, caller, `loan.${state}`, id, { because });
}

async function seedOf(
  tx: Transaction,
  clubId: string,
  lotId: string,
): Promise<{ id: string; holderId: string }> {
  const lot = await tx.lot.findFirst({
    where: { clubId, id: lotId },
    select: { id: true, holderId: true, kind: true, name: true },
  });
  if (lot === null) throw invalidField('#/lotId', 'The club has no lot of this id.');
  if (lot.kind === 'seed') return lot;
  const detail = `“${lot.name}” is not seed; only seed is lent.`;
  throw new Refusal('lot-unsuitable', detail, { errors: [{ pointer: '#/lotId', detail }] });
}

async function others(tx: Transaction, { clubId, memberId }: ClubCaller): Promise<string[]> {
  const members = await tx.member.findMany({
    where: { clubId, leftAt: null, id: { not: memberId } },
    select: { id: true },
  });
  return members.map(({ id }) => id);
}
