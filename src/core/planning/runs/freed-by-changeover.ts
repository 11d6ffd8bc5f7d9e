import type { FreedByChangeover } from './run';
import type { RunRoom } from './run-room';
import { runsWithoutWindows } from './runs-without-windows';
import type { FoundRun } from './search-chains';
import { toChain } from './to-chain';

/**
 * The duty window that would let a station of two duties change over to this run, when the honey could then be potted
 * sooner than by the soonest run as things are; the soonest of them. Bookings stay, and the changeover to them is kept.
 */
export function freedByChangeover(prepared: RunRoom, soonest: FoundRun): FreedByChangeover | null {
  const [best] = runsWithoutWindows(prepared, soonest.moments.bench).sort(
    (a, b) => a.found.moments.bench - b.found.moments.bench,
  );
  if (!best) return null;
  const { stationId, found, use, instead } = best;
  const chain = toChain(prepared.run, found);
  const slots = [chain.warm, chain.coolDown, chain.bench, chain.cool].filter(
    (slot) => slot?.stationId === stationId && slot.duty === use.wish.duty,
  );
  const endsAt = Math.max(...slots.map((slot) => slot?.endsAt ?? 0));
  const window = { duty: use.wish.duty, startsAt: slots[0]?.startsAt ?? endsAt, endsAt };
  return { stationId, window, instead, chain };
}
