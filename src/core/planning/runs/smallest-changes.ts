import { firstMinuteFrom, toInstant } from './minute-spans';
import type { Band, Change, Run } from './run';
import { runRoom, type RunRoom } from './run-room';
import { searchChains, type FoundRun } from './search-chains';
import { runsWithoutWindows } from './runs-without-windows';
import { SlotStarts } from './slot-starts';
import { toChain } from './to-chain';
import type { Waiver } from './waivers';

/** Degrees by which bands are widened, one try after the other. */
const WIDER_BY_C = [1, 2, 3];

/**
 * Single changes that make an impossible run possible, each really tried, with the soonest run it gives. In the order
 * of what they ask of the club, least first:
 * 1. the member starts earlier, no earlier than needed;
 * 2. the honey is potted later, no later than needed;
 * 3. the member comes at other hours;
 * 4. other temperatures share a station: the bands wider by 1, 2 or 3 °C to both sides, the least that does;
 * 5. fewer pails, with crates in proportion, the most that do;
 * 6. a station's duty windows are given up where the run needs it, for each station that helps;
 * 7. the room is opened at other hours.
 */
export function smallestChanges(prepared: RunRoom, starts: SlotStarts): Change[] {
  const { run } = prepared;
  const waiving = (...waivers: Waiver[]) => soonest(prepared, starts, waivers);
  const changes: Change[] = [];

  const earlier = startedEarlier(prepared);
  if (earlier) changes.push(earlier);
  const later = waiving('latest-pot-day');
  if (later) {
    const chain = toChain(run, later);
    changes.push({ kind: 'pot-later', latestPotAt: chain.bench.endsAt, chain });
  }
  const otherHours = waiving('members-hours');
  if (otherHours) changes.push({ kind: 'other-hours', chain: toChain(run, otherHours) });
  for (const byC of WIDER_BY_C) {
    const chain = soonestChain(prepared, wider(run, byC));
    if (chain === null) continue;
    changes.push({ kind: 'wider-temperature', byC, chain });
    break;
  }
  for (let pails = run.pails - 1; pails >= 1; pails--) {
    const crates = Math.ceil((run.cool.crates * pails) / run.pails);
    const chain = soonestChain(prepared, { ...run, pails, cool: { ...run.cool, crates } });
    if (chain === null) continue;
    changes.push({ kind: 'fewer-pails', pails, crates, chain });
    break;
  }
  for (const { stationId, found, instead } of runsWithoutWindows(prepared)) {
    const chain = toChain(run, found);
    changes.push({ kind: 'duty-window', stationId, windows: instead, chain });
  }
  const opened = waiving('opening-hours');
  if (opened) changes.push({ kind: 'room-open-longer', chain: toChain(run, opened) });
  return changes;
}

function soonest(
  prepared: RunRoom,
  starts: SlotStarts,
  waivers: readonly Waiver[],
): FoundRun | null {
  return searchChains(prepared, starts, { preference: 'soonest', waivers: new Set(waivers) });
}

/** The soonest chain of another run in the same room. */
function soonestChain({ room, stations }: RunRoom, run: Run) {
  const changed = runRoom(room, run, stations);
  const found = soonest(changed, new SlotStarts(changed), []);
  return found && toChain(run, found);
}

/**
 * The latest of the earlier starts that would do, by halving: every run from a later start on is possible from an
 * earlier one, too.
 */
function startedEarlier(prepared: RunRoom): Change | null {
  const { run } = prepared;
  const startingFrom = (minute: number) =>
    soonestChain(prepared, { ...run, earliestStart: toInstant(minute) });
  let possible = firstMinuteFrom(run.notBefore ?? run.earliestStart);
  let impossible = firstMinuteFrom(run.earliestStart);
  let chain = possible < impossible ? startingFrom(possible) : null;
  if (chain === null) return null;
  while (impossible - possible > 1) {
    const middle = Math.floor((possible + impossible) / 2);
    const found = startingFrom(middle);
    if (found) [possible, chain] = [middle, found];
    else impossible = middle;
  }
  return { kind: 'start-earlier', earliestStart: toInstant(possible), chain };
}

function wider(run: Run, byC: number): Run {
  const widen = <T extends Band>(band: T): T => ({
    ...band,
    minC: band.minC - byC,
    maxC: band.maxC + byC,
  });
  return {
    ...run,
    warming: new Map(
      [...run.warming].map(([stationId, options]) => [stationId, options.map(widen)]),
    ),
    coolsInPlace: run.coolsInPlace && widen(run.coolsInPlace),
    bench: widen(run.bench),
    cool: widen(run.cool),
  };
}
