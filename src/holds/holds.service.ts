import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { pageOf, startOf, type Page } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { holdRows, reachedRows, type HoldRow, type ReachedRow } from './hold-rows';
import type {
  BranchReleaseRequest,
  HoldRequest,
  HoldsQuery,
  HoldReleaseRequest,
} from './holds.requests';
import {
  toHoldResponse,
  toHoldSummary,
  type HoldResponse,
  type HoldSummary,
} from './holds.responses';
import { placedEvent, readHold, tellHolders } from './tell-holders';

/** Stops a suspect lot and all made of it. The database refuses every movement out of what an open hold reaches. */
@Injectable()
export class HoldsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list(caller: ClubCaller, query: HoldsQuery): Promise<Page<HoldSummary>> {
    const { open } = query;
    const list = JSON.stringify(['holds', caller.clubId, open]);
    const [after] = startOf(query, list) ?? [];
    const conditions = [Prisma.sql`true`];
    if (open !== undefined) conditions.push(Prisma.sql`(h.released_at is null) = ${open}`);
    if (after !== undefined) conditions.push(Prisma.sql`h.id < ${after}::uuid`);
    const rows = await this.database.rows<HoldRow>(
      holdRows(caller.clubId, Prisma.join(conditions, ' and '), query.limit + 1),
    );
    return pageOf(rows, query, list, (row) => [row.id], toHoldSummary);
  }

  async one(caller: ClubCaller, id: string): Promise<HoldResponse> {
    const { clubId } = caller;
    const [row] = await this.database.rows<HoldRow>(
      holdRows(clubId, Prisma.sql`h.id = ${id}::uuid`, 1),
    );
    if (row === undefined) throw new Refusal('not-found');
    return toHoldResponse(row, await this.database.rows<ReachedRow>(reachedRows(clubId, id)));
  }

  /** From the commit on nothing leaves the lot or what was made of it; what is under way now is waited for. */
  async place(caller: ClubCaller, lotId: string, request: HoldRequest): Promise<HoldResponse> {
    const { clubId, memberId } = caller;
    const { reason, evidence = '' } = request;
    return this.database.write(caller, async (tx) => {
      const lot = await tx.lot.findFirst({ where: { clubId, id: lotId }, select: { id: true } });
      if (lot === null) throw new Refusal('not-found');
      const { id } = await tx.hold.create({
        data: {
          clubId,
          lotId: lot.id,
          reason,
          evidence,
          placedById: memberId,
          placedAt: this.clock.now(),
        },
        select: { id: true },
      });
      const { row, reached } = await this.read(tx, clubId, id);
      const what = { kind: 'hold.placed' as const, event: placedEvent(id), because: reason };
      await tellHolders(tx, clubId, { ...what, hold: row }, reached);
      await audit(tx, caller, 'hold.placed', id, { lotId: lot.id, reason, lots: reached.length });
      return toHoldResponse(row, reached);
    });
  }

  async release(
    caller: ClubCaller,
    id: string,
    request: HoldReleaseRequest,
  ): Promise<HoldResponse> {
    const { clubId, memberId } = caller;
    const { because, evidence } = request;
    return this.database.write(caller, async (tx) => {
      const { reached } = await this.claim(tx, caller, id);
      await tx.hold.update({
        where: { clubId_id: { clubId, id } },
        data: {
          releasedAt: this.clock.now(),
          releasedById: memberId,
          releasedBecause: because,
          releaseEvidence: evidence,
        },
      });
      const { row } = await this.read(tx, clubId, id);
      const what = { kind: 'hold.released' as const, event: `hold.released ${id}`, because };
      await tellHolders(tx, clubId, { ...what, hold: row }, reached);
      await audit(tx, caller, 'hold.released', id, { because, evidence, lots: reached.length });
      return toHoldResponse(row, []);
    });
  }

  async releaseBranch(
    caller: ClubCaller,
    id: string,
    request: BranchReleaseRequest,
  ): Promise<HoldResponse> {
    const { clubId, memberId } = caller;
    const { because, evidence } = request;
    return this.database.write(caller, async (tx) => {
      const before = await this.claim(tx, caller, id);
      const lotId = request.lotId.toLowerCase();
      refuseUnlessBranch(before.row, before.reached, lotId);
      await tx.branchRelease.create({
        data: {
          clubId,
          holdId: id,
          lotId,
          because,
          evidence,
          releasedById: memberId,
          releasedAt: this.clock.now(),
        },
      });
      const { row, reached } = await this.read(tx, clubId, id);
      const still = new Set(reached.map((lot) => lot.lotId));
      const freed = before.reached.filter((lot) => !still.has(lot.lotId));
      const event = `hold.released ${id} ${lotId}`;
      const what = { kind: 'hold.released' as const, event, because };
      await tellHolders(tx, clubId, { ...what, hold: row }, freed);
      await audit(tx, caller, 'hold.branch-released', id, {
        lotId,
        because,
        evidence,
        lots: freed.length,
      });
      return toHoldResponse(row, reached);
    });
  }

  /** Locks an open hold that the caller may release. */
  private async claim(tx: Transaction, caller: ClubCaller, id: string) {
    await tx.$queryRaw(Prisma.sql`
      select id from hold where club_id = ${caller.clubId}::uuid and id = ${id}::uuid for no key update`);
    const hold = await this.read(tx, caller.clubId, id);
    const { placedById, placedByName, releasedAt } = hold.row;
    if (caller.role !== 'steward' && caller.memberId !== placedById) {
      throw new Refusal('not-yours', `Only a steward or ${placedByName}, who placed it, may.`);
    }
    if (releasedAt !== null) throw new Refusal('hold-over');
    return hold;
  }

  private async read(tx: Transaction, clubId: string, id: string) {
    const hold = await readHold(tx, clubId, id);
    if (hold === null) throw new Refusal('not-found');
    return hold;
  }
}

function refuseUnlessBranch(hold: HoldRow, reached: readonly ReachedRow[], lotId: string): void {
  const isHeld = lotId === hold.lotId;
  if (!isHeld && reached.some((lot) => lot.lotId === lotId)) return;
  const detail = isHeld
    ? 'The hold starts at this lot: release the hold itself.'
    : 'The hold does not reach that lot.';
  throw new Refusal('lot-unsuitable', detail, {
    errors: [{ pointer: '#/lotId', detail }],
  });
}
