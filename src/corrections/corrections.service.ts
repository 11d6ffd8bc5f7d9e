import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { tellNewHolders } from '../holds/tell-holders';
import { LotLedger } from '../lots/lot-ledger.service';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Database, type Transaction } from '../platform/database';
import { gramsOf } from '../platform/fields';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { refuseImpossible, refuseOthers, type Mistake } from './correction-checks';
import { correctionRows, type CorrectionRow } from './correction-rows';
import type { CorrectionRequest } from './corrections.requests';
import { toCorrectionResponse, type CorrectionResponse } from './corrections.responses';

/**
 * Mends what went into what. Nothing on record is changed: a correction puts the mass back into the wrong lot, takes it from the right
 * one, and traces, holds and recalls follow what is known now.
 */
@Injectable()
export class CorrectionsService {
  constructor(
    private readonly database: Database,
    private readonly ledger: LotLedger,
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
      // Alone among all that moves mass in the club, and before any lot is locked.
      await tx.$executeRaw(Prisma.sql`select take_lots_lock(${clubId}::uuid)`);
      const mistake = await this.mistake(tx, clubId, lotId, request);
      refuseOthers(caller, mistake);
      refuseImpossible(mistake);
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
      await tellNewHolders(tx, clubId, child.id);
      await audit(tx, caller, 'lot.corrected', child.id, {
        correctionId: id,
        wrongLotId: wrong.id,
        rightLotId: right?.id ?? null,
        massG,
        because,
      });
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
      { initialMassG: number; inputMassG: number; recordedG: number; isOnHold: boolean }[]
    >(Prisma.sql`
      select l.initial_mass_g as "initialMassG", l.input_mass_g as "inputMassG",
        coalesce((
          select i.mass_g from lot_input i
          where i.club_id = l.club_id and i.child_id = l.id and i.parent_id = ${wrong.id}::uuid and i.kind = 'used'), 0) as "recordedG",
        exists (
          select from unnest(${[child.id, right?.id ?? child.id]}::uuid[]) one, lateral holds_reaching(l.club_id, one)) as "isOnHold"
      from lot l where l.club_id = ${clubId}::uuid and l.id = ${child.id}::uuid`);
    if (record === undefined) throw new Refusal('not-found');
    const { recordedG, isOnHold, ...masses } = record;
    return {
      child: { ...child, ...masses },
      wrong,
      right,
      massG: gramsOf(massKg),
      recordedG,
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
