import type { Batch } from './batch-queries';

/** The service lets a step be taken back for so long. */
const takeBackMs = 15 * 60_000;
/** These moved masses, or rest on a look. */
const staying = ['seeded', 'potted', 'set'];

/** Until when the last step of a batch can be taken back; null: it stays. */
export function takeBackUntil({ kind, recordedAt }: Batch['steps'][number]): Date | null {
  const until = new Date(Date.parse(recordedAt) + takeBackMs);
  return staying.includes(kind) || until.getTime() < Date.now() ? null : until;
}
