import { Injectable } from '@nestjs/common';
import { refuseFuture } from '../core/refuse-future';
import { invalidField, Refusal } from '../core/refusal';
import { notify } from '../notices/notify';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { deciOf } from '../platform/fields';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { toCheckResponse, type CheckResponse } from './batch-events.responses';
import { checkRows, type CheckRow } from './batch-rows';
import { refuseUnlessThere } from './batch-steps.service';
import type { CheckRequest } from './batches.requests';
import { holdBatch, outOfOrder, refuseOutOfOrder, type HeldBatch } from './held-batch';

/** Files what somebody saw who looked at a batch. Any member may look. */
@Injectable()
export class SettingChecksService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async record(caller: ClubCaller, batchId: string, request: CheckRequest): Promise<CheckResponse> {
    refuseFuture('#/at', request.at, this.clock.now());
    const { at, state, texture = null, firmness = null, temperatureC, note = '' } = request;
    const temperatureDeciC = temperatureC === undefined ? null : deciOf(temperatureC);
    return this.database.write(caller, async (tx) => {
      const batch = await holdBatch(tx, caller, batchId);
      refuseUnlessSetting(batch, request);
      const isFirstSet = state === 'set' && batch.done.every(({ kind }) => kind !== 'set');
      if (isFirstSet) refuseOutOfOrder('set', at, batch);

      const seen = { clubId: caller.clubId, batchId: batch.id, at, temperatureDeciC };
      const { id } = await tx.settingCheck.create({
        data: { ...seen, state, texture, firmness, note, checkedById: caller.memberId },
        select: { id: true },
      });
      if (isFirstSet) {
        await tx.batchStep.create({
          data: { ...seen, kind: 'set', recordedById: caller.memberId },
        });
      }
      await audit(tx, caller, 'batch.checked', batch.id, { checkId: id, at, state });
      if (isFirstSet) await tellOwner(tx, caller, batch, at);
      const [row] = await tx.$queryRaw<CheckRow[]>(
        checkRows(caller.clubId, batch.id, Prisma.sql`and c.id = ${id}::uuid`),
      );
      if (row === undefined) throw new Refusal('not-found');
      return toCheckResponse(row);
    });
  }

  async list(caller: ClubCaller, batchId: string, query: PageQuery): Promise<Page<CheckResponse>> {
    const list = JSON.stringify(['setting-checks', caller.clubId, batchId]);
    const [after] = startOf(query, list) ?? [];
    const later = after === undefined ? Prisma.empty : Prisma.sql`and c.id > ${after}::uuid`;
    const rows = await this.database.rows<CheckRow>(
      checkRows(
        caller.clubId,
        batchId,
        Prisma.sql`${later} order by c.id limit ${query.limit + 1}::int`,
      ),
    );
    if (rows.length === 0) await refuseUnlessThere(this.database, caller, batchId);
    return pageOf(rows, query, list, (row) => [row.id], toCheckResponse);
  }
}

/** Somebody else found it set: its places can be cleared. */
async function tellOwner(
  tx: Transaction,
  caller: ClubCaller,
  { id, name, memberId }: HeldBatch,
  at: Date,
): Promise<void> {
  if (memberId === caller.memberId) return;
  const details = { batchName: name, byName: caller.personName, at: at.toISOString() };
  const kind = 'batch.seen-set';
  await notify(tx, caller.clubId, [
    { memberId, kind, event: `${kind} ${id} ${at.toISOString()}`, subjectId: id, details },
  ]);
}

/** Refuses a look at a batch without seed in it, or given up, or before seed was stirred in. */
function refuseUnlessSetting({ done }: HeldBatch, { at, state }: CheckRequest): void {
  const seeded = done.find(({ kind }) => kind === 'seeded');
  if (seeded === undefined) throw outOfOrder(done, 'No seed has been stirred in yet');
  if (done.some(({ kind }) => kind === 'abandoned')) {
    throw outOfOrder(done, 'The batch was abandoned');
  }
  const seededAt = new Date(seeded.at).toISOString();
  if (at.getTime() < seeded.at) {
    throw invalidField('#/at', `It must not be before seed was stirred in, ${seededAt}.`);
  }
  if (state === 'set' && at.getTime() === seeded.at) {
    throw invalidField('#/at', `Nothing sets at once: it must be after ${seededAt}.`);
  }
}
