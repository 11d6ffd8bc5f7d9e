import { takeBackMinutes, whyStepStays } from '../core/batches/take-back';
import { post } from './task-request';
import type { TodayBatch } from './today-rows';
import type { TodayUndo } from './today.responses';

const undoMs = takeBackMinutes * 60_000;

/** What the member filed in the last minutes and may take back, the latest first. */
export function undoOf(
  clubPath: string,
  batches: readonly TodayBatch[],
  memberId: string,
  now: number,
): TodayUndo[] {
  const found = batches.flatMap(({ id, name, memberId: ownerId, steps, newLooks }) => {
    const batch = { id, name };
    const path = `${clubPath}/batches/${id}`;
    const done = steps.map(({ kind }) => kind);
    const own = ownerId === memberId ? steps : [];
    return [
      ...own
        .filter(
          ({ kind, recordedAt, recordedById }) =>
            recordedById === memberId && whyStepStays(kind, recordedAt, done, now) === null,
        )
        .map((step) => ({
          what: 'step' as const,
          sentence: `Take back that “${name}” was ${step.kind}.`,
          batch,
          until: new Date(step.recordedAt + undoMs).toISOString(),
          request: post(`${path}/steps/${step.id}/take-back`, {}),
        })),
      ...newLooks
        .filter(({ checkedById }) => checkedById === memberId)
        .map((look) => ({
          what: 'look' as const,
          sentence: `Strike out your look at “${name}”.`,
          batch,
          until: new Date(look.recordedAt + undoMs).toISOString(),
          request: post(`${path}/setting-checks/${look.id}/strike-out`, {}, ['#/because']),
        })),
    ];
  });
  return found.sort((one, other) => other.until.localeCompare(one.until));
}
