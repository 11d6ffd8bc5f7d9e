import { toInstant } from './minute-spans';
import { obstacleAt } from './obstacles';
import type { Obstacle, Preference, WhyNotSooner } from './run';
import type { RunRoom } from './run-room';
import { searchChains, type FoundRun } from './search-chains';
import type { SlotStarts } from './slot-starts';
import { WAIVER_GROUPS, type Waiver } from './waivers';

/**
 * What keeps this run from being potted sooner, among all runs that are as good in what it prefers.
 *
 * Exact: each constraint by itself is left out and the whole room searched for a sooner run; those without which there
 * is one bind. When none does so alone, a set of them is sought of which every one is needed (see `neededWaivers`). When
 * not even leaving out all finds a sooner run, only the lengths of the run and its earliest start bind. Constraints of
 * one slot are left out all at once first: leaving out more never makes a run later, so if that is not sooner, no single
 * one is.
 */
export function whyNotSooner(
  runRoom: RunRoom,
  starts: SlotStarts,
  found: FoundRun,
  preference: Preference,
): WhyNotSooner {
  const { run } = runRoom;
  const sooner = (waived: readonly Waiver[]): FoundRun | null =>
    searchChains(runRoom, starts, {
      preference: 'soonest',
      waivers: new Set(waived),
      benchBefore: found.moments.bench,
      asGoodAs: { preference, cost: found.cost },
    });
  const groups = WAIVER_GROUPS.filter(([waiver]) => waiver !== 'latest-pot-day');

  const single: Obstacle[] = groups.flatMap((group) => {
    if (group.length > 1 && sooner(group) === null) return [];
    return group.flatMap((waiver) => {
      const without = sooner([waiver]);
      return without ? [obstacleAt(run, without, waiver)] : [];
    });
  });
  if (single.length > 0) return { binds: 'each', obstacles: single };

  const needed = neededWaivers(groups, sooner);
  const pottedAt = toInstant(found.moments.bench + run.bench.minutes);
  return {
    binds: 'together',
    obstacles: needed
      ? needed.waivers.map((waiver) => obstacleAt(run, needed.found, waiver))
      : [durations(pottedAt)],
  };
}

/**
 * Constraints without which a run is found, and of which none can be kept; null when not even leaving out all finds one.
 *
 * All are left out, then put back as long as a run remains, first those of a slot at once, then one by one. As leaving
 * out fewer never finds more, one that could not be put back earlier cannot be later. Other pails are the exception,
 * for another length of warming is a different run, not an easier one: so they are decided first.
 */
export function neededWaivers(
  groups: readonly (readonly Waiver[])[],
  find: (waived: readonly Waiver[]) => FoundRun | null,
): { waivers: readonly Waiver[]; found: FoundRun } | null {
  const all = groups.flat();
  let waivers: readonly Waiver[] = all.filter((waiver) => waiver !== 'other-pails');
  let found = find(waivers);
  if (found === null) {
    waivers = all;
    found = find(all);
  }
  if (found === null) return null;
  const parts = [...groups.filter(({ length }) => length > 1), ...all.map((waiver) => [waiver])];
  for (const part of parts) {
    const fewer = waivers.filter((waiver) => !part.includes(waiver));
    if (fewer.length === waivers.length || part.includes('other-pails')) continue;
    const without = find(fewer);
    if (without) [waivers, found] = [fewer, without];
  }
  return { waivers, found };
}

function durations(pottedAt: number): Obstacle {
  return { reason: 'durations', slot: null, stationId: null, bookings: [], spans: [], pottedAt };
}
