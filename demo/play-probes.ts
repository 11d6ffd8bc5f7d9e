import type { EnteredClub } from './entered';
import { coreLogOf } from './probe-log';
import type { Season } from './records';

/** So many batches ago somebody bought a logger. */
const batchesLogged = 6;

/** Puts a probe into the honey of the latest batches, as they were warmed, and sends what it logged. */
export async function logTemperatures(
  club: EnteredClub,
  { batches }: Season,
  now: Date,
): Promise<void> {
  const logged = batches
    .map((batch) => ({ batch, readings: coreLogOf(batch, now) }))
    .filter(({ readings }) => readings.length > 1)
    .sort((a, b) => startOf(a) - startOf(b))
    .slice(-batchesLogged);
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

function startOf({ readings }: { readings: { at: Date }[] }): number {
  return readings[0]?.at.getTime() ?? 0;
}
