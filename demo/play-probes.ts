import type { EnteredClub } from './entered';
import { coreLogOf } from './probe-log';
import type { BatchRecord, Season } from './records';

/** So many batches ago somebody bought a logger. */
const batchesLogged = 6;

/** Puts a probe into the honey of the latest batches, as they were warmed, and sends what it logged. */
export async function logTemperatures(
  club: EnteredClub,
  { batches }: Season,
  now: Date,
): Promise<void> {
  const logged = batches
    .filter((batch) => loadedAt(batch) !== undefined)
    .sort((a, b) => Number(loadedAt(a)) - Number(loadedAt(b)))
    .slice(-batchesLogged)
    .map((batch) => ({ batch, readings: coreLogOf(batch, now) }))
    .filter(({ readings }) => readings.length > 1);
  for (const { batch, readings } of logged) {
    const owner = club.as(batch.member);
    const { id } = await owner.post<{ id: string }>(`${club.path}/probes`, `probe-${batch.ref}`, {
      name: `Core, ${batch.ref}`,
      batchId: club.id(batch.ref),
      placedAt: readings[0]?.at,
    });
    await owner.post(`${club.path}/probes/${id}/readings`, null, { readings });
  }
}

function loadedAt({ steps }: BatchRecord): Date | undefined {
  return steps.find(({ kind }) => kind === 'loaded')?.at;
}
