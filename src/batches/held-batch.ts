import { nextSteps, timeLimits, type DoneStep } from '../core/batches/next-steps';
import { invalidField, Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import type { StepKind } from '../platform/prisma-client/enums';

/** A batch as it stands while the transaction holds it. */
export interface HeldBatch {
  id: string;
  name: string;
  memberId: string;
  done: DoneStep[];
}

/** Locks a batch of the caller's club: what happens to one batch happens one after the other. */
export async function holdBatch(
  tx: Transaction,
  caller: ClubCaller,
  id: string,
): Promise<HeldBatch> {
  const [batch] = await tx.$queryRaw<Omit<HeldBatch, 'done'>[]>(Prisma.sql`
    select id, name, member_id as "memberId" from batch
    where club_id = ${caller.clubId}::uuid and id = ${id}::uuid for no key update`);
  if (batch === undefined) throw new Refusal('not-found');
  const steps = await tx.batchStep.findMany({
    where: { clubId: caller.clubId, batchId: batch.id },
    select: { kind: true, at: true },
  });
  return { ...batch, done: steps.map(({ kind, at }) => ({ kind, at: at.getTime() })) };
}

/** Refuses whoever is neither the batch's member nor a steward. */
export function refuseOthers(caller: ClubCaller, { memberId }: HeldBatch): void {
  if (caller.memberId === memberId || caller.role === 'steward') return;
  throw new Refusal('not-yours', 'Only the batch’s member or a steward may do this.');
}

/** Refuses a step that may not come next, or not at that time. */
export function refuseOutOfOrder(kind: StepKind, at: Date, { done }: HeldBatch): void {
  const next = nextSteps(done.map((step) => step.kind));
  if (!next.includes(kind)) throw outOfOrder(done, `“${kind}” does not come next`);
  const { notBefore, notAfter } = timeLimits(kind, done);
  if (notBefore !== null && at.getTime() < notBefore.at) {
    throw invalidField('#/at', `It must not be before “${notBefore.kind}”, ${iso(notBefore)}.`);
  }
  if (notAfter !== null && at.getTime() > notAfter.at) {
    throw invalidField('#/at', `It must not be after “${notAfter.kind}”, ${iso(notAfter)}.`);
  }
}

/** The refusal that says which steps may come next. */
export function outOfOrder(done: readonly DoneStep[], what: string): Refusal {
  const next = nextSteps(done.map((step) => step.kind));
  const words = next.length === 0 ? 'nothing more is to be done' : next.join(' or ');
  return new Refusal('step-out-of-order', `${what}; next may come: ${words}.`, {
    offers: { nextSteps: next },
  });
}

function iso({ at }: DoneStep): string {
  return new Date(at).toISOString();
}
