import { Injectable } from '@nestjs/common';
import { invalidField, Refusal } from '../core/refusal';
import { LotLedger, type Part } from '../lots/lot-ledger.service';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
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
import { holdBatch, outOfOrder, refuseOthers, type HeldBatch } from './held-batch';
import { replaceHoney, refuseHoneyOfOthers } from './batch-honey';
import { forgetReservedSeed, refuseSeedOfOthers, reserveSeed } from './batch-seed';

@Injectable()
export class BatchesService {
  constructor(
    private readonly database: Database,
    private readonly ledger: LotLedger,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: BatchesQuery): Promise<Page<BatchSummary>> {
    const { memberId, stage, floralSourceId, search } = query;
    const list = JSON.stringify([
      'batches',
      caller.clubId,
      memberId,
      stage,
      floralSourceId,
      search,
    ]);
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
    if (search !== undefined) {
      conditions.push(Prisma.sql`position(lower(${search}::text) in lower(b.name)) > 0`);
    }
    if (after !== undefined) conditions.push(Prisma.sql`b.id < ${after}::uuid`);
    const rows = await this.database.rows<BatchSummaryRow>(
      batchSummaryRows(
        caller.clubId,
        this.clock.now(),
        Prisma.join(conditions, ' and '),
        query.limit + 1,
      ),
    );
    return pageOf(rows, query, list, (row) => [row.id], toBatchSummary);
  }

  async one(caller: ClubCaller, id: string): Promise<BatchResponse> {
    const [row] = await this.database.rows<BatchRow>(batchRow(caller.clubId, this.clock.now(), id));
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
      const { honey, seed } = await this.partsFor(tx, caller, request, member.id, new Map());

      const { id } = await tx.batch.create({
        data: { clubId: caller.clubId, memberId, name, note },
        select: { id: true },
      });
      await replaceHoney(tx, caller.clubId, id, honey);
      await reserveSeed(tx, caller.clubId, id, seed);
      await audit(tx, caller, 'batch.planned', id, {
        memberId,
        honey: massesOf(honey),
        ...(seed.length > 0 && { seed: massesOf(seed) }),
      });
      return readBatch(tx, caller, this.clock.now(), id);
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
      refuseIfStale(caller, await readBatch(tx, caller, this.clock.now(), id));

      const { name, note } = request;
      await this.meanOther(tx, caller, batch, request);
      await tx.batch.update({
        where: { clubId_id: { clubId: caller.clubId, id } },
        data: given({ name, note }),
      });
      await audit(tx, caller, 'batch.changed', id, request);
      return readBatch(tx, caller, this.clock.now(), id);
    });
  }

  /** Other honey, other seed, or both, in place of what was meant and reserved for the batch. */
  private async meanOther(
    tx: Transaction,
    caller: ClubCaller,
    batch: HeldBatch,
    request: BatchChangeRequest,
  ): Promise<void> {
    const { clubId } = caller;
    if (request.honey === undefined && request.seed === undefined) return;
    if (batch.done.some(({ kind }) => kind === 'seeded' || kind === 'abandoned')) {
      throw outOfOrder(
        batch.done,
        'Honey and seed of a seeded or abandoned batch are what they are',
      );
    }
    const planned = await tx.batchHoney.findMany({ where: { clubId, batchId: batch.id } });
    const plannedG = new Map(planned.map(({ lotId, massG }) => [lotId, massG]));
    // Its own reservation does not stand in its way.
    if (request.seed !== undefined) await forgetReservedSeed(tx, clubId, batch.id);
    const { honey, seed } = await this.partsFor(tx, caller, request, batch.memberId, plannedG);
    if (request.honey !== undefined) await replaceHoney(tx, clubId, batch.id, honey);
    await reserveSeed(tx, clubId, batch.id, seed);
  }

  /**
   * The honey that a body means for a batch, and the seed to be reserved for it. Whether the honey suffices when seed is stirred in, the
   * draw will tell; the seed is there from now on.
   */
  private async partsFor(
    tx: Transaction,
    caller: ClubCaller,
    wanted: Pick<BatchChangeRequest, 'honey' | 'seed'>,
    memberId: string,
    plannedG: ReadonlyMap<string, number>,
  ): Promise<{ honey: Part[]; seed: Part[] }> {
    const wantedHoney = gramsOfEach(wanted.honey);
    const wantedSeed = gramsOfEach(wanted.seed);
    const lotIds = [...wantedHoney, ...wantedSeed].map(({ lotId }) => lotId);
    const held = await this.ledger.hold(tx, caller.clubId, lotIds);
    const honey = this.ledger.partsOf(held, wantedHoney, '#/honey');
    for (const part of honey) {
      this.ledger.refuseUnlessKind(part, 'honey');
      refuseHoneyOfOthers(caller, part, plannedG);
      this.ledger.refuseUnlessEnough(part);
    }
    const seed = this.ledger.partsOf(held, wantedSeed, '#/seed');
    for (const part of seed) {
      this.ledger.refuseUnlessKind(part, 'seed');
      refuseSeedOfOthers(memberId, part);
      this.ledger.refuseUnlessEnough(part);
    }
    return { honey, seed };
  }
}

async function readBatch(
  tx: Transaction,
  caller: ClubCaller,
  now: Date,
  id: string,
): Promise<BatchResponse> {
  const [row] = await tx.$queryRaw<BatchRow[]>(batchRow(caller.clubId, now, id));
  if (row === undefined) throw new Refusal('not-found');
  return toBatchResponse(row);
}

function massesOf(parts: readonly Part[]): { lotId: string; massG: number }[] {
  return parts.map(({ lot, massG }) => ({ lotId: lot.id, massG }));
}

function gramsOfEach(wanted: readonly LotMassRequest[] = []): { lotId: string; massG: number }[] {
  return wanted.map(({ lotId, massKg }) => ({ lotId, massG: gramsOf(massKg) }));
}
