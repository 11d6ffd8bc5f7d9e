import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { gramsOf } from '../platform/fields';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import {
  toDrillResponse,
  type DrillRow,
  type RecallDrillResponse,
} from './recall-drills.responses';
import { RecallsService } from './recalls.service';

/** Recalls tried out: measured and kept, with nobody told and nothing stopped. */
@Injectable()
export class RecallDrillsService {
  constructor(
    private readonly database: Database,
    private readonly recalls: RecallsService,
    private readonly clock: Clock,
  ) {}

  async list({ clubId }: ClubCaller, query: PageQuery): Promise<Page<RecallDrillResponse>> {
    const list = JSON.stringify(['recall-drills', clubId]);
    const [after] = startOf(query, list) ?? [];
    const condition = after === undefined ? Prisma.sql`true` : Prisma.sql`d.id < ${after}::uuid`;
    const rows = await this.database.rows<DrillRow>(drillRows(clubId, condition, query.limit + 1));
    return pageOf(rows, query, list, (row) => [row.id], toDrillResponse);
  }

  async run(caller: ClubCaller, lotId: string): Promise<RecallDrillResponse> {
    const { clubId, memberId } = caller;
    return this.database.write(caller, async (tx) => {
      const began = performance.now();
      const { initialMassKg, totals } = await this.recalls.reportWithin(tx, caller, lotId);
      const durationMs = Math.ceil(performance.now() - began);
      const { id } = await tx.recallDrill.create({
        data: {
          clubId,
          lotId,
          runById: memberId,
          runAt: this.clock.now(),
          durationMs,
          lots: totals.lots - 1,
          holders: totals.holders,
          soughtG: gramsOf(initialMassKg),
          foundG: gramsOf(totals.foundKg),
          inLotsG: gramsOf(totals.inLotsKg),
          pottedG: gramsOf(totals.pottedKg),
          withdrawnG: gramsOf(totals.withdrawnKg),
          lostG: gramsOf(totals.lostKg),
        },
        select: { id: true },
      });
      await audit(tx, caller, 'recall.tried-out', id, { lotId });
      const [row] = await tx.$queryRaw<DrillRow[]>(
        drillRows(clubId, Prisma.sql`d.id = ${id}::uuid`, 1),
      );
      if (row === undefined) throw new Refusal('not-found');
      return toDrillResponse(row);
    });
  }
}

function drillRows(clubId: string, condition: Prisma.Sql, limit: number): Prisma.Sql {
  return Prisma.sql`
    select d.id, d.lot_id as "lotId", l.name as "lotName", d.run_by_id as "runById", p.name as "runByName", d.run_at as "runAt",
      d.duration_ms as "durationMs", d.lots, d.holders, d.sought_g as "soughtG", d.found_g as "foundG", d.in_lots_g as "inLotsG",
      d.potted_g as "pottedG", d.withdrawn_g as "withdrawnG", d.lost_g as "lostG"
    from recall_drill d
    join lot l on l.club_id = d.club_id and l.id = d.lot_id
    join member m on m.club_id = d.club_id and m.id = d.run_by_id
    join person p on p.id = m.person_id
    where d.club_id = ${clubId}::uuid and ${condition}
    order by d.id desc limit ${limit}::int`;
}
