import { stepOrder, type BatchStepKind } from './next-steps';

/** How long a step that was filed by mistake can be taken back. */
export const takeBackMinutes = 15;

export type WhyStepStays = 'moves-mass' | 'rests-on-a-look' | 'followed' | 'too-late';

/**
 * Why a step that was filed at `recordedAt` (epoch milliseconds) cannot be taken back; null: it can. Seeding and potting moved masses, and
 * the ledger only ever adds; the step set rests on a look, which can be struck out; a step that another followed has been built upon.
 */
export function whyStepStays(
  kind: BatchStepKind,
  recordedAt: number,
  done: readonly BatchStepKind[],
  now: number,
): WhyStepStays | null {
  if (kind === 'seeded' || kind === 'potted') return 'moves-mass';
  if (kind === 'set') return 'rests-on-a-look';
  const place = stepOrder.indexOf(kind);
  if (done.some((other) => stepOrder.indexOf(other) > place)) return 'followed';
  return now > recordedAt + takeBackMinutes * 60_000 ? 'too-late' : null;
}
