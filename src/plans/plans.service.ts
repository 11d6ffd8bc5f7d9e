import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { PlanDrafts, type PlanDraft } from './plan-drafts.service';
import { planOf, planRows, toPlanResponse, type PlanRow } from './plan-rows';
import type { PlanRequest } from './plans.requests';
import type { PlanResponse } from './plans.responses';

/** So long an offer may be booked; meanwhile it holds no places. */
const offerMs = 30 * 60_000;

@Injectable()
export class PlansService {
  constructor(
    private readonly database: Database,
    private readonly drafts: PlanDrafts,
    private readonly clock: Clock,
  ) {}

  /** The caller's own plans; a steward sees all. */
  async list(caller: ClubCaller, query: PageQuery): Promise<Page<PlanResponse>> {
    const list = JSON.stringify(['plans', caller.clubId]);
    const [after] = startOf(query, list) ?? [];
    const conditions = [
      caller.role === 'steward'
        ? Prisma.sql`true`
        : Prisma.sql`n.member_id = ${caller.memberId}::uuid`,
    ];
    if (after !== undefined) conditions.push(Prisma.sql`n.id < ${after}::uuid`);
    const rows = await this.database.rows<PlanRow>(
      planRows(caller.clubId, Prisma.join(conditions, ' and '), query.limit + 1),
    );
    const now = this.clock.now();
    return pageOf(
      rows,
      query,
      list,
      (row) => [row.id],
      (row) => toPlanResponse(row, now),
    );
  }

  async one(caller: ClubCaller, id: string): Promise<PlanResponse> {
    const [row] = await this.database.rows<PlanRow>(
      planRows(caller.clubId, Prisma.sql`n.id = ${id}::uuid`, 1),
    );
    if (row === undefined) throw new Refusal('not-found');
    refuseOthers(caller, row);
    return toPlanResponse(row, this.clock.now());
  }

  /**
   * Looks for ways through the room, and files what it found as an offer. The search goes before the transaction, so that no connection
   * waits for it.
   */
  async plan(caller: ClubCaller, request: PlanRequest): Promise<PlanResponse> {
    const drafted = await this.drafts.draft(caller, request).catch((error: unknown) => {
      if (error instanceof Refusal) return error;
      throw error;
    });
    return this.database.write(caller, async (tx) => {
      // Only now: a repeat gets the answer that was kept.
      if (drafted instanceof Refusal) throw drafted;
      return this.file(tx, caller, request, drafted);
    });
  }

  /** Files an offer; nobody's places change. */
  async file(
    tx: Transaction,
    caller: ClubCaller,
    request: PlanRequest,
    { memberId, stored }: PlanDraft,
  ): Promise<PlanResponse> {
    const now = this.clock.now();
    const { id } = await tx.plan.create({
      data: {
        clubId: caller.clubId,
        memberId,
        createdAt: now,
        expiresAt: new Date(now.getTime() + offerMs),
        request: JSON.parse(JSON.stringify(request)) as Prisma.InputJsonObject,
        alternatives: stored as unknown as Prisma.InputJsonObject,
      },
      select: { id: true },
    });
    await audit(tx, caller, 'plan.made', id, { memberId });
    const row = await planOf(tx, caller.clubId, id);
    if (row === undefined) throw new Refusal('not-found');
    return toPlanResponse(row, now);
  }
}

/** Refuses whoever is neither the plan's member nor a steward. */
export function refuseOthers(caller: ClubCaller, { memberId }: Pick<PlanRow, 'memberId'>): void {
  if (caller.memberId === memberId || caller.role === 'steward') return;
  throw new Refusal('not-yours', 'Only whose plan it is, or a steward, sees and books it.');
}
