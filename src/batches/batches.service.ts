import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { LotLedger, type Part } from '../lots/lot-ledger.service';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Database, type Transaction } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { gramsOf } from '../platform/fields';
import { given } from '../platform/given';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { batchRow, batchSummaryRows, type BatchRow, type BatchSummaryRow } from './batch-rows';
import type {
  BatchChangeRequest,
  BatchesQuery,
  BatchRequest,
  LotMassRequest,
} from './batches.requests';
import {
  toBatchResponse,
  toBatchSummary,
  type BatchResponse,
  type BatchSummary,
} from './batches.responses';
import { holdBatch, outOfOrder, refuseOthers } from './held-batch';
import { replaceHoney, refuseHoneyOfOthers } from './batch-honey';

@Injectable()
export class BatchesService {
  constructor(
    private readonly database: Database,
    private readonly ledger: LotLedger,
  ) {}

  async list(caller: ClubCaller, query: BatchesQuery): Promise<Page<BatchSummary>> {
    const { memberId, stage, floralSourceId } = query;
    const list = JSON.stringify(['batches', caller.clubId, memberId, stage, floralSourceId]);
    const [after] = startOf(query, list) ?? [];
    const conditions = [Prisma.sql`true`];
    if (memberId !== undefined) conditions.push(Prisma.sql`b.member_id = ${memberId}::uuid`);
    if (stage !== undefined) {
      conditions.push(Prisma.sql`coalesce(last.kind::text, 'planned') = ${stage}`);
    }
    if (floralSourceId !== undefined) {
      conditions.push(Prisma.sql`exists (
        select from batch_honey h
        join lot_floral_share s on s.club_id = h.club_id and s.lot_id = h.lot_id
        where h.club_id = b.club_id and h.batch_id = b.id and s.floral_source_id = ${floralSourceId}::uuid)`);
    }
    if (after !== undefined) conditions.push(Prisma.sql`b.id < ${after}::uuid`);
    const rows = await this.database.rows<BatchSummaryRow>(
      batchSummaryRows(caller.clubId, Prisma.join(conditions, ' and '), query.limit + 1),
    );
    return pageOf(rows, query, list, (row) => [row.id], toBatchSummary);
  }

  async one(caller: ClubCaller, id: string): Promise<BatchResponse> {
    const [row] = await this.database.rows<BatchRow>(batchRow(caller.clubId, id));
    if (row === undefined) throw new Refusal('not-found');
    return toBatchResponse(row);
  }

  async plan(caller: ClubCaller, request: BatchRequest): Promise<BatchResponse> {
    const { name, note = '', memberId = caller.memberId } = request;
    if (memberId !== caller.memberId && caller.role !== 'steward') {
      throw new Refusal('not-allowed', 'Only a steward plans a batch for another member.');
    }
    return this.database.write(caller, async (tx) => {
      const member = await tx.member.findFirst({
        where: { clubId: caller.clubId, id: memberId, leftAt: null },
        select: { id: true },
      });
      if (member === null) throw invalidField('#/memberId', 'The club has no such member.');
      const honey = await this.honeyFor(tx, caller, request.honey, new Map());

      const { id } = await tx.batch.create({
        data: { clubId: caller.clubId, memberId, name, note },
        select: { id: true },
      });
      await replaceHoney(tx, caller.clubId, id, honey);
      await audit(tx, caller, 'batch.planned', id, { memberId, honey: massesOf(honey) });
      return readBatch(tx, caller, id);
    });
  }

  async change(
    caller: ClubCaller,
    id: string,
    request: BatchChangeRequest,
  ): Promise<BatchResponse> {
    return this.database.write(caller, async (tx) => {
      const batch = await holdBatch(tx, caller, id);
      refuseOthers(caller, batch);
      refuseIfStale(caller, await readBatch(tx, caller, id));

      const { honey, ...rest } = request;
      if (honey !== undefined) {
        if (batch.done.some(({ kind }) => kind === 'seeded' || kind === 'abandoned')) {
          throw outOfOrder(batch.done, 'The honey of a seeded or abandoned batch is what it is');
        }
        const planned = await tx.batchHoney.findMany({
          where: { clubId: caller.clubId, batchId: id },
        });
        const plannedG = new Map(planned.map(({ lotId, massG }) => [lotId, massG]));
        await replaceHoney(tx, caller.clubId, id, await this.honeyFor(tx, caller, honey, plannedG));
      }
      await tx.batch.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: given(rest),
      });
      await audit(tx, caller, 'batch.changed', id, request);
      return readBatch(tx, caller, id);
    });
  }

  /** The honey that a body means for a batch. Whether it suffices when seed is stirred in, the draw will tell. */
  private async honeyFor(
    tx: Transaction,
    caller: ClubCaller,
    wanted: LotMassRequest[],
    plannedG: ReadonlyMap<string, number>,
  ): Promise<Part[]> {
    const held = await this.ledger.hold(
      tx,
      caller.clubId,
      wanted.map(({ lotId }) => lotId),
    );
    const masses = wanted.map(({ lotId, massKg }) => ({ lotId, massG: gramsOf(massKg) }));
    const parts = this.ledger.partsOf(held, masses, '#/honey');
    for (const part of parts) {
      this.ledger.refuseUnlessKind(part, 'honey');
      refuseHoneyOfOthers(caller, part, plannedG);
      this.ledger.refuseUnlessEnough(part);
    }
    return parts;
  }
}

async function readBatch(tx: Transaction, caller: ClubCaller, id: string): Promise<BatchResponse> {
  const [row] = await tx.$queryRaw<BatchRow[]>(batchRow(caller.clubId, id));
  if (row === undefined) throw new Refusal('not-found');
  return toBatchResponse(row);
}

function massesOf(parts: readonly Part[]): { lotId: string; massG: number }[] {
  return parts.map(({ lot, massG }) => ({ lotId: lot.id, massG }));
}
