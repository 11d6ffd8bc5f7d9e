import { Injectable } from '@nestjs/common';
import { noteInRoom } from '../bookings/note-in-room';
import { refuseFuture } from '../core/refuse-future';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { deciOf } from '../platform/fields';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { toStepResponse, type StepResponse } from './batch-events.responses';
import { BatchMasses } from './batch-masses.service';
import { stepRows, type StepRow } from './batch-rows';
import { letSeedGo } from './batch-seed';
import type { StepRequest } from './batches.requests';
import { holdBatch, refuseOthers, refuseOutOfOrder } from './held-batch';
import { refuseOtherFields } from './step-fields';

/** Files what was done to a batch, and moves the masses that go with it. */
@Injectable()
export class BatchStepsService {
  constructor(
    private readonly database: Database,
    private readonly masses: BatchMasses,
    private readonly clock: Clock,
  ) {}

  async record(caller: ClubCaller, batchId: string, request: StepRequest): Promise<StepResponse> {
    refuseOtherFields(request);
    refuseFuture('#/at', request.at, this.clock.now());
    const { kind, at, temperatureC, note = '' } = request;
    return this.database.write(caller, async (tx) => {
      const batch = await holdBatch(tx, caller, batchId);
      refuseOthers(caller, batch);
      refuseOutOfOrder(kind, at, batch);

      if (kind === 'seeded') await this.masses.stirIn(tx, caller, batch, request);
      if (kind === 'potted') await this.masses.pot(tx, caller, batch, request);
      if (kind === 'abandoned') await letSeedGo(tx, caller.clubId, batch.id);
      await tx.batchStep.create({
        data: {
          clubId: caller.clubId,
          batchId: batch.id,
          kind,
          at,
          temperatureDeciC: temperatureC === undefined ? null : deciOf(temperatureC),
          note,
          recordedById: caller.memberId,
        },
      });
      await audit(tx, caller, 'batch.step-recorded', batch.id, request);
      await noteInRoom(tx, caller, batch.id, kind, at);
      const [row] = await tx.$queryRaw<StepRow[]>(
        stepRows(caller.clubId, batch.id, Prisma.sql`and s.kind = ${kind}::step_kind`),
      );
      if (row === undefined) throw new Refusal('not-found');
      return toStepResponse(row);
    });
  }

  async list(caller: ClubCaller, batchId: string, query: PageQuery): Promise<Page<StepResponse>> {
    const list = JSON.stringify(['steps', caller.clubId, batchId]);
    const [after] = startOf(query, list) ?? [];
    const later = after === undefined ? Prisma.empty : Prisma.sql`and s.kind > ${after}::step_kind`;
    const rows = await this.database.rows<StepRow>(
      stepRows(
        caller.clubId,
        batchId,
        Prisma.sql`${later} order by s.kind limit ${query.limit + 1}::int`,
      ),
    );
    if (rows.length === 0) await refuseUnlessThere(this.database, caller, batchId);
    return pageOf(rows, query, list, (row) => [row.kind], toStepResponse);
  }
}

/** Refuses, as not found, a batch that the caller's club does not have. */
export async function refuseUnlessThere(
  database: Database,
  { clubId }: ClubCaller,
  batchId: string,
): Promise<void> {
  const found = await database.rows(
    Prisma.sql`select from batch where club_id = ${clubId}::uuid and id = ${batchId}::uuid`,
  );
  if (found.length === 0) throw new Refusal('not-found');
}
