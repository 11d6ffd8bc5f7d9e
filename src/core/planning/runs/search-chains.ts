import { areGapsPossible, soonestMoments, type Gaps, type Moments } from './least-chain';
import type { Preference, Run, WarmingOption } from './run';
import type { RunRoom, Warming } from './run-room';
import type { SlotStarts } from './slot-starts';
import type { IndexedStation } from './station-diary-index';
import { NOTHING_WAIVED, type Waivers } from './waivers';

/** A run found, in minutes of the epoch. */
export type FoundRun = {
  readonly warming: Warming;
  readonly otherPails: number;
  readonly warmMinutes: number;
  readonly bench: IndexedStation;
  readonly coolRoom: IndexedStation;
  readonly moments: Moments;
  /** What the preference weighs before the time of potting; smaller is better. */
  readonly cost: number;
};

export type ChainSearch = {
  readonly preference: Preference;
  readonly waivers?: Waivers;
  /** Only runs whose bench starts before this minute; for the preference 'soonest'. */
  readonly benchBefore?: number;
  /** Only runs as good as this one in what is preferred. */
  readonly asGoodAs?: { readonly preference: Preference; readonly cost: number };
};

/** A run that would do if the cabinet were free, and the run there is with the cabinet as it is. */
type Promising = { readonly bound: FoundRun; readonly exactly: () => Moments | null };

/**
 * The best run by the preference: least cost, then earliest potting, then least heat, then earliest on the shelf.
 *
 * Exact: the starts of each slot are whole sets (see `SlotStarts`), and the three moments of a run are the least in
 * them (see `soonestMoments`), for each pair of warming and length, each bench and each cool room. Bench starts are
 * looked at window after window, from the earliest on: what is found in one is sooner than all that later ones hold, so
 * that only what costs less is still looked for there. Within a window each run is first reckoned as if the cabinet
 * were free, which is never worse than what the cabinet allows: so whatever is then no better than a run already found
 * need not be asked of the cabinet.
 */
export function searchChains(
  runRoom: RunRoom,
  starts: SlotStarts,
  { preference, waivers = NOTHING_WAIVED, benchBefore = Infinity, asGoodAs }: ChainSearch,
): FoundRun | null {
  const { run, warmings, benches, coolRooms, benchStarts } = runRoom;
  const lastStart = waivers.has('latest-pot-day') ? benchStarts.horizon : benchStarts.last;
  const last = Math.min(lastStart, benchBefore - 1);
  const isGood = (option: WarmingOption, minutes: number) =>
    !asGoodAs || costOf(asGoodAs.preference, run, option, minutes) <= asGoodAs.cost;
  const finder = starts.without(waivers);
  const good = warmings.filter(({ option }) => isGood(option, option.minutes(0)));
  let best: FoundRun | null = null;
  for (let index = 0; starts.windows.at(index).bench.first <= last; index++) {
    const window = starts.windows.at(index);
    const open = good.filter((warming) => !best || leastCost(preference, run, warming) < best.cost);
    if (open.length === 0) break;
    const promising: Promising[] = [];
    for (const bench of benches) {
      const benchSpans = finder.bench(bench, window);
      if (benchSpans.length === 0) continue;
      for (const coolRoom of coolRooms) {
        const shelfSpans = finder.cool(coolRoom, window);
        if (shelfSpans.length === 0) continue;
        for (const warming of open) {
          const gaps = gapsBetween(runRoom, warming, bench, coolRoom, waivers);
          if (!areGapsPossible(gaps)) continue;
          for (const level of finder.readyWithHands(warming, window)) {
            const { minutes: warmMinutes, otherPails } = level;
            if (!isGood(warming.option, warmMinutes)) continue;
            const moments = soonestMoments(level.ready, benchSpans, shelfSpans, gaps);
            if (moments === null || moments.bench > last) continue;
            const cost = costOf(preference, run, warming.option, warmMinutes);
            const bound = { warming, otherPails, warmMinutes, bench, coolRoom, moments, cost };
            const exactly = () => {
              const ready = finder.readyMinutes(warming, window, level);
              return soonestMoments(ready, benchSpans, shelfSpans, gaps);
            };
            promising.push({ bound, exactly });
          }
        }
      }
    }
    for (const { bound, exactly } of promising.sort((a, b) => compareRuns(a.bound, b.bound))) {
      if (best && compareRuns(bound, best) >= 0) break;
      const moments = exactly();
      if (moments === null || moments.bench > last) continue;
      const found: FoundRun = { ...bound, moments };
      if (!best || compareRuns(found, best) < 0) best = found;
    }
  }
  return best;
}

/** What the preference weighs before the time of potting; smaller is better. */
export function costOf(
  preference: Preference,
  run: Run,
  option: WarmingOption,
  warmMinutes: number,
): number {
  switch (preference) {
    case 'soonest':
      return 0;
    case 'gentlest':
      return -option.diastaseLeftPercent;
    case 'shortest-hold':
      return run.pails * (warmMinutes + (run.coolsInPlace ? option.coolingMinutes : 0));
  }
}

function leastCost(preference: Preference, run: Run, { option }: Warming): number {
  return costOf(preference, run, option, option.minutes(0));
}

/** Negative when `a` is the better run. */
function compareRuns(a: FoundRun, b: FoundRun): number {
  return (
    a.cost - b.cost ||
    a.moments.bench - b.moments.bench ||
    b.warming.option.diastaseLeftPercent - a.warming.option.diastaseLeftPercent ||
    a.warming.option.hmfGainedMgPerKg - b.warming.option.hmfGainedMgPerKg ||
    a.moments.shelf - b.moments.shelf ||
    b.moments.ready - a.moments.ready
  );
}

/** How the moments hang together, with the changeover of a station that serves two slots of the run. */
function gapsBetween(
  { run }: RunRoom,
  { indexed, option }: Warming,
  bench: IndexedStation,
  coolRoom: IndexedStation,
  waivers: Waivers,
): Gaps {
  const afterWarming = run.coolsInPlace ? 0 : option.coolingMinutes;
  const changeover = (station: IndexedStation, slot: 'bench' | 'cool') =>
    waivers.has(`${slot} changeover`) ? 0 : station.station.changeoverMinutes;
  return {
    readyToBench: {
      least: bench === indexed ? Math.max(0, changeover(bench, 'bench') - afterWarming) : 0,
      most: run.maxStandMinutes,
    },
    benchToShelf: {
      least: run.bench.minutes + (coolRoom === bench ? changeover(bench, 'cool') : 0),
      most: run.bench.minutes + run.maxShelveMinutes,
    },
    readyToShelfLeast:
      coolRoom === indexed ? changeover(coolRoom, 'cool') - afterWarming : -Infinity,
  };
}
