import type { Alternative, Preference, Room, Run, RunPlan } from './run';
import { runRoom } from './run-room';
import { searchChains, type FoundRun } from './search-chains';
import { SlotStarts } from './slot-starts';
import { indexStation } from './station-diary-index';
import { toChain } from './to-chain';

const PREFERENCES: readonly Preference[] = ['soonest', 'gentlest', 'shortest-hold'];

/**
 * Plans one whole run of a batch through the room: up to three distinct alternatives, the preferred one first.
 * Throws RangeError for a run or a station that makes no sense.
 */
export function planRun(room: Room, run: Run): RunPlan {
  const prepared = runRoom(room, run, room.stations.map(indexStation));
  const starts = new SlotStarts(prepared);
  const preferences = [run.preference, ...PREFERENCES.filter((one) => one !== run.preference)];
  const distinct: { preferences: Preference[]; found: FoundRun }[] = [];
  for (const preference of preferences) {
    const found = searchChains(prepared, starts, { preference });
    if (found === null) return { feasible: false, changes: [] };
    const same = distinct.find((other) => isSameRun(other.found, found));
    if (same) same.preferences.push(preference);
    else distinct.push({ preferences: [preference], found });
  }
  const alternatives: Alternative[] = distinct.map((one) => ({
    preferences: one.preferences,
    chain: toChain(run, one.found),
    whyNotSooner: { obstacles: [], binds: 'each', pottedAt: null },
  }));
  return { feasible: true, alternatives, freedByChangeover: null };
}

function isSameRun(a: FoundRun, b: FoundRun): boolean {
  return (
    a.warming === b.warming &&
    a.warmMinutes === b.warmMinutes &&
    a.bench === b.bench &&
    a.coolRoom === b.coolRoom &&
    a.moments.ready === b.moments.ready &&
    a.moments.bench === b.moments.bench &&
    a.moments.shelf === b.moments.shelf
  );
}
