import { Injectable } from '@nestjs/common';
import { timeLimits } from '../core/batches/next-steps';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database, type Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { toCheckResponse, type CheckResponse } from './batch-events.responses';
import { checkRows, type CheckRow } from './batch-rows';
import type { StrikeOutRequest } from './batches.requests';
import { holdBatch, type HeldBatch } from './held-batch';

/** Strikes out setting checks that were mistaken. Such a check stays on record and counts for nothing. */
@Injectable()
export class StrikeOutsService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async strikeOut(
    caller: ClubCaller,
    batchId: string,
    checkId: string,
    { because }: StrikeOutRequest,
  ): Promise<CheckResponse> {
    const { clubId, memberId } = caller;
    return this.database.write(caller, async (tx) => {
      const batch = await holdBatch(tx, caller, batchId);
      const check = await readCheck(tx, caller, batch, checkId);
      refuseStrangers(caller, batch, check);
      if (check.struckAt !== null) throw new Refusal('check-struck-out');

      await tx.settingCheck.update({
        where: { clubId_id: { clubId, id: check.id } },
        data: { struckAt: this.clock.now(), struckById: memberId, struckBecause: because },
      });
      await audit(tx, caller, 'batch.check-struck-out', batch.id, { checkId: check.id, because });
      if (check.state === 'set') await mendSetStep(tx, caller, batch);
      return toCheckResponse(await readCheck(tx, caller, batch, checkId));
    });
  }
}

/**
 * The step “set” rests on a look that found the batch set. Where that look was struck out, the step is taken back, and filed again as of
 * the earliest other such look that comes after the steps before it; without one the batch has not set, and may be looked at again.
 */
async function mendSetStep(
  tx: Transaction,
  caller: ClubCaller,
  { id: batchId, done }: HeldBatch,
): Promise<void> {
  const { clubId } = caller;
  const step = done.find(({ kind }) => kind === 'set');
  if (step === undefined) return;
  const looks = await tx.settingCheck.findMany({
    where: { clubId, batchId, state: 'set', struckAt: null },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
  });
  if (looks.some(({ at }) => at.getTime() === step.at)) return;

  await tx.batchStep.delete({ where: { clubId_batchId_kind: { clubId, batchId, kind: 'set' } } });
  await audit(tx, caller, 'batch.step-taken-back', batchId, {
    kind: 'set',
    at: new Date(step.at).toISOString(),
  });
  const { notBefore } = timeLimits('set', done);
  const look = looks.find(({ at }) => notBefore === null || at.getTime() >= notBefore.at);
  if (look === undefined) return;
  const { at, temperatureDeciC, checkedById } = look;
  await tx.batchStep.create({
    data: { clubId, batchId, kind: 'set', at, temperatureDeciC, recordedById: checkedById },
  });
  await audit(tx, caller, 'batch.step-recorded', batchId, { kind: 'set', at });
}

async function readCheck(
  tx: Transaction,
  { clubId }: ClubCaller,
  batch: HeldBatch,
  checkId: string,
): Promise<CheckRow> {
  const [row] = await tx.$queryRaw<CheckRow[]>(
    checkRows(clubId, batch.id, Prisma.sql`and c.id = ${checkId}::uuid`),
  );
  if (row === undefined) throw new Refusal('not-found');
  return row;
}

function refuseStrangers(caller: ClubCaller, batch: HeldBatch, check: CheckRow): void {
  const { memberId, role } = caller;
  if (role === 'steward' || memberId === batch.memberId || memberId === check.checkedById) return;
  throw new Refusal(
    'not-yours',
    'Only who recorded the look, the batch’s member or a steward strikes it out.',
  );
}
