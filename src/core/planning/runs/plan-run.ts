import { freedByChangeover } from './freed-by-changeover';
import { obstacleAt } from './obstacles';
import type { Alternative, Obstacle, Preference, Room, Run, RunPlan } from './run';
import { runRoom, type RunRoom } from './run-room';
import { searchChains, type FoundRun } from './search-chains';
import { smallestChanges } from './smallest-changes';
import { SlotStarts } from './slot-starts';
import { indexStation } from './station-diary-index';
import { toChain } from './to-chain';
import { WAIVER_GROUPS, type Waiver } from './waivers';
import { neededWaivers, whyNotSooner } from './why-not-sooner';

const PREFERENCES: readonly Preference[] = ['soonest', 'gentlest', 'shortest-hold'];

/**
 * Plans one whole run of a batch through the room: warming, cooling-down, bench, cool room.
 *
 * Up to three distinct alternatives, the preferred one first: 'soonest' is potted earliest, with the least heat among
 * those; 'gentlest' leaves most diastase, and is the soonest of those; 'shortest-hold' holds places for the least time,
 * and is the soonest of those. Each can be booked as it is, and says what keeps it from being sooner. When no run is
 * possible: what stands in its way, and the single changes that would make it possible.
 *
 * Method: every slot's possible starts are computed as whole sets of minutes, and a run is the least solution of the
 * waits between them; see `searchChains` for why nothing sooner is missed.
 *
 * Throws RangeError for a run or a station that makes no sense.
 */
export function planRun(room: Room, run: Run): RunPlan {
  const prepared = runRoom(room, run, room.stations.map(indexStation));
  const starts = new SlotStarts(prepared);
  const soonest = searchChains(prepared, starts, { preference: 'soonest' });
  if (soonest === null) {
    return {
      feasible: false,
      whyNot: whyNotAtAll(prepared, starts),
      changes: smallestChanges(prepared, starts),
    };
  }

  const distinct: { preferences: Preference[]; found: FoundRun }[] = [];
  for (const preference of [run.preference, ...PREFERENCES]) {
    const found =
      preference === 'soonest' ? soonest : searchChains(prepared, starts, { preference });
    const same = found && distinct.find((other) => isSameRun(other.found, found));
    if (same === null || same?.preferences.includes(preference)) continue;
    if (same) same.preferences.push(preference);
    else if (found) distinct.push({ preferences: [preference], found });
  }
  return {
    feasible: true,
    alternatives: distinct.map(({ preferences, found }): Alternative => {
      const [preference = run.preference] = preferences;
      const why = whyNotSooner(prepared, starts, found, preference);
      return { preferences, chain: toChain(run, found), whyNotSooner: why };
    }),
    freedByChangeover: freedByChangeover(prepared, soonest),
  };
}

/** What would have to go for a run to be possible: one constraint if that is enough, else all those needed. */
function whyNotAtAll(prepared: RunRoom, starts: SlotStarts): Obstacle[] {
  const without = (waived: readonly Waiver[]) =>
    searchChains(prepared, starts, { preference: 'soonest', waivers: new Set(waived) });
  for (const group of WAIVER_GROUPS) {
    if (group.length > 1 && without(group) === null) continue;
    for (const waiver of group) {
      const found = without([waiver]);
      if (found) return [obstacleAt(prepared.run, found, waiver)];
    }
  }
  const needed = neededWaivers(WAIVER_GROUPS, without);
  if (needed === null) return [];
  return needed.waivers.map((waiver) => obstacleAt(prepared.run, needed.found, waiver));
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
