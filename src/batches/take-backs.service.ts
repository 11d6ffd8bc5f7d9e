import { Injectable } from '@nestjs/common';
import { takeBackMinutes, whyStepStays, type WhyStepStays } from '../core/batches/take-back';
import { Refusal } from '../core/refusal';
import { audit } from '../platform/audit';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { batchRow, type BatchRow } from './batch-rows';
import { toBatchResponse, type BatchResponse } from './batches.responses';
import { holdBatch, refuseOthers } from './held-batch';

/** Takes back a step that was just filed by mistake. The history keeps that it was filed, and by whom it was taken back. */
@Injectable()
export class TakeBacksService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  takeBack(caller: ClubCaller, batchId: string, stepId: string): Promise<BatchResponse> {
    const { clubId } = caller;
    return this.database.write(caller, async (tx) => {
      const batch = await holdBatch(tx, caller, batchId);
      const step = await tx.batchStep.findFirst({
        where: { clubId, batchId: batch.id, id: stepId },
      });
      if (step === null) throw new Refusal('not-found');
      refuseOthers(caller, batch);
      const done = batch.done.map(({ kind }) => kind);
      const { kind, at, recordedAt } = step;
      const now = this.clock.now();
      const why = whyStepStays(kind, recordedAt.getTime(), done, now.getTime());
      if (why !== null) throw new Refusal('step-stays', words[why]);

      await tx.batchStep.delete({ where: { clubId_id: { clubId, id: step.id } } });
      if (kind === 'abandoned' && !done.includes('seeded')) {
        // Giving up let its seed go. Where that seed has been promised to another batch meanwhile, the database refuses.
        await tx.batchSeed.updateMany({
          where: { clubId, batchId: batch.id },
          data: { active: true },
        });
      }
      await audit(tx, caller, 'batch.step-taken-back', batch.id, { kind, at });
      const [row] = await tx.$queryRaw<BatchRow[]>(batchRow(clubId, now, batch.id));
      if (row === undefined) throw new Refusal('not-found');
      return toBatchResponse(row);
    });
  }
}

const words: Record<WhyStepStays, string> = {
  'moves-mass':
    'It moved masses between lots, and the ledger of masses only ever adds: this cannot be undone. Note what really happened on the batch; a lot that holds less than the ledger says is put right by a withdrawal.',
  'rests-on-a-look':
    'It rests on the look that found the batch set: strike that setting check out, and the step is taken back with it.',
  followed: 'A later step builds on it: take that one back first, if it can be.',
  'too-late': `It was filed more than ${takeBackMinutes} minutes ago: it stays. Note on the batch what really happened.`,
};
