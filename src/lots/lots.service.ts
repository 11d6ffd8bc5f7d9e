import { Injectable } from '@nestjs/common';
import { readLotCode } from '../core/marks/lot-code';
import { refuseFuture } from '../core/refuse-future';
import { invalidField, invalidParameter, Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { centiOf, gramsOf } from '../platform/fields';
import { given } from '../platform/given';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { refuseStrangers, refuseUnlessStated } from './bring-in-checks';
import { LotLedger } from './lot-ledger.service';
import { lotRows, movementRows, type LotRow, type MovementRow } from './lot-rows';
import type {
  BringInRequest,
  LotChangeRequest,
  LotsQuery,
  WithdrawalRequest,
} from './lots.requests';
import {
  toLotResponse,
  toMovementResponse,
  type LotResponse,
  type MovementResponse,
} from './lots.responses';
import { moistureOf } from './moisture-of';

@Injectable()
export class LotsService {
  constructor(
    private readonly database: Database,
    private readonly ledger: LotLedger,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: LotsQuery): Promise<Page<LotResponse>> {
    const { kind, holderId, withMass } = query;
    const code = query.code === undefined ? undefined : codeIn(query.code);
    const list = JSON.stringify(['lots', caller.clubId, kind, holderId, withMass, code]);
    const [after] = startOf(query, list) ?? [];
    const conditions = [
      kind && Prisma.sql`l.kind = ${kind}::lot_kind`,
      holderId && Prisma.sql`l.holder_id = ${holderId}::uuid`,
      code !== undefined && Prisma.sql`l.code = ${code}`,
      withMass === true && Prisma.sql`l.remaining_mass_g > 0`,
      after !== undefined && Prisma.sql`l.id < ${after}::uuid`,
    ].filter((condition) => typeof condition === 'object');
    const rows = await this.database.rows<LotRow>(
      lotRows(caller.clubId, all(conditions), query.limit + 1),
    );
    return pageOf(rows, query, list, (row) => [row.id], toLotResponse);
  }

  async one(caller: ClubCaller, id: string): Promise<LotResponse> {
    const [row] = await this.database.rows<LotRow>(
      lotRows(caller.clubId, Prisma.sql`l.id = ${id}::uuid`, 1),
    );
    if (row === undefined) throw new Refusal('not-found');
    return toLotResponse(row);
  }

  async bringIn(caller: ClubCaller, request: BringInRequest): Promise<LotResponse> {
    refuseUnlessStated(request);
    const { holderId = caller.memberId, extractedOn } = request;
    if (holderId !== caller.memberId && caller.role !== 'steward') {
      throw new Refusal('not-allowed', 'Only a steward brings in a lot for another member.');
    }
    if (extractedOn !== undefined) {
      // Midnight in the first zone that reaches the day.
      refuseFuture('#/extractedOn', new Date(`${extractedOn}T00:00:00+14:00`), this.clock.now());
    }
    const massG = gramsOf(request.massKg);
    const moisture = moistureOf(request);

    return this.database.write(caller, async (tx) => {
      await refuseStrangers(tx, caller, holderId, request);
      const { id } = await tx.lot.create({
        data: {
          clubId: caller.clubId,
          kind: request.kind,
          name: request.name,
          holderId,
          initialMassG: massG,
          remainingMassG: massG,
          ...moisture,
          extractedOn: extractedOn === undefined ? null : new Date(`${extractedOn}T00:00:00Z`),
          origin: request.origin,
          grain: request.grain ?? null,
          note: request.note ?? '',
        },
        select: { id: true },
      });
      const { clubId } = caller;
      await tx.lotFloralShare.createMany({
        data: request.floralShares.map(({ floralSourceId, percent }) => ({
          clubId,
          lotId: id,
          floralSourceId,
          centiPercent: centiOf(percent),
        })),
      });
      await tx.lotOriginShare.createMany({
        data: request.originShares.map(({ countryCode, percent }) => ({
          clubId,
          lotId: id,
          countryCode,
          centiPercent: centiOf(percent),
        })),
      });
      await audit(tx, caller, 'lot.brought-in', id, { kind: request.kind, massG, holderId });
      return readLot(tx, caller, id);
    });
  }

  async change(caller: ClubCaller, id: string, request: LotChangeRequest): Promise<LotResponse> {
    return this.database.write(caller, async (tx) => {
      const lot = (await this.ledger.hold(tx, caller.clubId, [id])).get(id.toLowerCase());
      if (lot === undefined) throw new Refusal('not-found');
      refuseOthers(caller, lot.holderId);
      refuseIfStale(caller, await readLot(tx, caller, id));
      if (lot.kind !== 'seed' && request.grain !== undefined && request.grain !== null) {
        throw invalidField('#/grain', 'Only seed has a grain to seed with.');
      }

      await tx.lot.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: given(request),
      });
      await audit(tx, caller, 'lot.changed', id, request);
      return readLot(tx, caller, id);
    });
  }

  async withdraw(
    caller: ClubCaller,
    lotId: string,
    request: WithdrawalRequest,
  ): Promise<MovementResponse> {
    refuseFuture('#/at', request.at, this.clock.now());
    const { kind, at, note = '' } = request;
    const massG = gramsOf(request.massKg);
    return this.database.write(caller, async (tx) => {
      const lot = (await this.ledger.hold(tx, caller.clubId, [lotId])).get(lotId.toLowerCase());
      if (lot === undefined) throw new Refusal('not-found');
      refuseOthers(caller, lot.holderId);
      this.ledger.refuseUnlessEnough({ lot, massG, lotPointer: '#', massPointer: '#/massKg' });

      const id = await this.ledger.withdraw(tx, caller, { lotId: lot.id, kind, massG, at, note });
      await audit(tx, caller, 'lot.withdrawn', lot.id, { kind, massG, movementId: id });
      const [row] = await tx.$queryRaw<MovementRow[]>(
        movementRows(caller.clubId, Prisma.sql`v.id = ${id}::uuid`, 1),
      );
      if (row === undefined) throw new Refusal('not-found');
      return toMovementResponse(row);
    });
  }

  async movements(
    caller: ClubCaller,
    lotId: string,
    query: PageQuery,
  ): Promise<Page<MovementResponse>> {
    const list = JSON.stringify(['movements', caller.clubId, lotId]);
    const [after] = startOf(query, list) ?? [];
    const condition = all([
      Prisma.sql`v.lot_id = ${lotId}::uuid`,
      ...(after === undefined ? [] : [Prisma.sql`v.id > ${after}::uuid`]),
    ]);
    const rows = await this.database.rows<MovementRow>(
      movementRows(caller.clubId, condition, query.limit + 1),
    );
    // Nothing moved yet, or no such lot.
    if (rows.length === 0) await this.one(caller, lotId);
    return pageOf(rows, query, list, (row) => [row.id], toMovementResponse);
  }
}

function codeIn(text: string): string {
  const read = readLotCode(text);
  if (read.kind === 'code') return read.code;
  throw invalidParameter('code', `The code was misread: ${read.because}. Look at it again.`);
}

function all(conditions: Prisma.Sql[]): Prisma.Sql {
  return conditions.length === 0 ? Prisma.sql`true` : Prisma.join(conditions, ' and ');
}

async function readLot(tx: Transaction, caller: ClubCaller, id: string): Promise<LotResponse> {
  const [row] = await tx.$queryRaw<LotRow[]>(
    lotRows(caller.clubId, Prisma.sql`l.id = ${id}::uuid`, 1),
  );
  if (row === undefined) throw new Refusal('not-found');
  return toLotResponse(row);
}

function refuseOthers(caller: ClubCaller, holderId: string): void {
  if (caller.memberId !== holderId && caller.role !== 'steward') throw new Refusal('not-yours');
}
