import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { tellNewHolders } from '../holds/tell-holders';
import { readLoan } from '../loans/held-loan';
import { tellOfLoan } from '../loans/tell-of-loan';
import { LotLedger, type HeldLot } from '../lots/lot-ledger.service';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { gramsOf } from '../platform/fields';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import {
  refuseImpossible,
  refuseOthers,
  refuseUnfit,
  refuseUnrecorded,
  type Mistake,
} from './correction-checks';
import { correctionRows, type CorrectionRow } from './correction-rows';
import type { CorrectionRequest } from './corrections.requests';
import { toCorrectionResponse, type CorrectionResponse } from './corrections.responses';
import {
  lockHandedOver,
  refuseOtherThanLendersLot,
  refuseOthersThanLender,
  refuseTooMuchLess,
  type HandedOver,
} from './loan-correction-checks';

/**
 * Mends what went into what. Nothing on record is changed: a correction puts the mass back into the wrong lot, takes it from the right
 * one, and traces, holds and recalls follow what is known now.
 */
@Injectable()
export class CorrectionsService {
  constructor(
    private readonly database: Database,
    private readonly ledger: LotLedger,
    private readonly clock: Clock,
  ) {}

  async list(
    { clubId }: ClubCaller,
    lotId: string,
    query: PageQuery,
  ): Promise<Page<CorrectionResponse>> {
    const list = JSON.stringify(['corrections', clubId, lotId]);
    const [after] = startOf(query, list) ?? [];
    const conditions = [Prisma.sql`c.child_id = ${lotId}::uuid`];
    if (after !== undefined) conditions.push(Prisma.sql`c.id < ${after}::uuid`);
    const rows = await this.database.rows<CorrectionRow>(
      correctionRows(clubId, Prisma.join(conditions, ' and '), query.limit + 1),
    );
    if (rows.length === 0) await this.refuseUnknown(clubId, lotId);
    return pageOf(rows, query, list, (row) => [row.id], toCorrectionResponse);
  }

  async correct(
    caller: ClubCaller,
    lotId: string,
    request: CorrectionRequest,
  ): Promise<CorrectionResponse> {
    const { clubId, memberId } = caller;
    return this.database.write(caller, async (tx) => {
      const [loan] = await tx.$queryRaw<HandedOver[]>(lockHandedOver(clubId, lotId));
      // Alone among all that moves mass in the club, and before any lot is locked.
      await tx.$executeRaw(Prisma.sql`select take_lots_lock(${clubId}::uuid)`);
      const mistake = await this.mistake(tx, clubId, lotId, request);
      if (loan === undefined) {
        refuseOthers(caller, mistake);
        refuseImpossible(mistake);
      } else {
        refuseOthersThanLender(caller, mistake, loan);
        refuseUnrecorded(mistake);
        if (mistake.right !== null) refuseUnfit(mistake.right, mistake.wrong, mistake.child);
        refuseOtherThanLendersLot(mistake, loan);
        refuseTooMuchLess(mistake, loan);
      }
      const { child, wrong, right, massG } = mistake;
      if (right !== null) {
        const pointers = { lotPointer: '#/rightLotId', massPointer: '#/massKg' };
        this.ledger.refuseUnlessEnough({ lot: right, massG, ...pointers });
      }

      const { because } = request;
      const { id } = await tx.lotCorrection.create({
        data: {
          clubId,
          childId: child.id,
          wrongParentId: wrong.id,
          rightParentId: right?.id ?? null,
          massG,
          because,
          recordedById: memberId,
        },
        select: { id: true },
      });
      if (loan !== undefined && right !== null) await nameAsLent(tx, clubId, mistake, right);
      await tellNewHolders(tx, clubId, child.id);
      await audit(tx, caller, 'lot.corrected', child.id, {
        correctionId: id,
        wrongLotId: wrong.id,
        rightLotId: right?.id ?? null,
        massG,
        because,
        ...(loan !== undefined && { loanId: loan.id }),
      });
      if (loan !== undefined) {
        const row = await readLoan(tx, caller, loan.id, this.clock.now());
        const sides = [loan.lenderId, loan.borrowerId];
        const told = sides.map((memberId) => ({ memberId, kind: 'loan.corrected' }));
        await tellOfLoan(tx, caller, row, told, { event: id, details: { because } });
      }
      const [row] = await tx.$queryRaw<CorrectionRow[]>(
        correctionRows(clubId, Prisma.sql`c.id = ${id}::uuid`, 1),
      );
      if (row === undefined) throw new Refusal('not-found');
      return toCorrectionResponse(row);
    });
  }

  private async mistake(
    tx: Transaction,
    clubId: string,
    lotId: string,
    { wrongLotId, rightLotId, massKg }: CorrectionRequest,
  ): Promise<Mistake> {
    const ids = [lotId, wrongLotId, ...(rightLotId === null ? [] : [rightLotId])];
    const held = await this.ledger.hold(tx, clubId, ids);
    const known = (id: string, pointer: string) => {
      const lot = held.get(id.toLowerCase());
      if (lot === undefined) throw invalidField(pointer, 'The club has no lot of this id.');
      return lot;
    };
    const child = held.get(lotId.toLowerCase());
    if (child === undefined) throw new Refusal('not-found');
    const wrong = known(wrongLotId, '#/wrongLotId');
    const right = rightLotId === null ? null : known(rightLotId, '#/rightLotId');
    const [record] = await tx.$queryRaw<
      {
        initialMassG: number;
        inputMassG: number;
        recordedG: number;
        isGivenBack: boolean;
        isOnHold: boolean;
      }[]
    >(Prisma.sql`
      select l.initial_mass_g as "initialMassG", l.input_mass_g as "inputMassG",
        coalesce((
          select i.mass_g from lot_input i
          where i.club_id = l.club_id and i.child_id = l.id and i.parent_id = ${wrong.id}::uuid), 0) as "recordedG",
        exists (select from loan_return b where b.club_id = l.club_id and b.to_lot_id = l.id) as "isGivenBack",
        exists (
          select from unnest(${[child.id, right?.id ?? child.id]}::uuid[]) one, lateral holds_reaching(l.club_id, one)) as "isOnHold"
      from lot l where l.club_id = ${clubId}::uuid and l.id = ${child.id}::uuid`);
    if (record === undefined) throw new Refusal('not-found');
    const { recordedG, isGivenBack, isOnHold, ...masses } = record;
    return {
      child: { ...child, ...masses },
      wrong,
      right,
      massG: gramsOf(massKg),
      recordedG,
      isGivenBack,
      isOnHold,
    };
  }

  private async refuseUnknown(clubId: string, lotId: string): Promise<void> {
    const lot = await this.database.prisma.lot.findFirst({
      where: { clubId, id: lotId },
      select: { id: true },
    });
    if (lot === null) throw new Refusal('not-found');
  }
}

/** Lent seed has the grain of the lot that it is of, and its name unless the borrower gave it another. */
async function nameAsLent(
  tx: Transaction,
  clubId: string,
  { child, wrong }: Mistake,
  right: HeldLot,
): Promise<void> {
  await tx.lot.update({
    where: { clubId_id: { clubId, id: child.id } },
    data: { grain: right.grain, ...(child.name === wrong.name && { name: right.name }) },
  });
}
