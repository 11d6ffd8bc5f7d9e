import { spansOverlap } from '../station-times';
import { toInstant } from './minute-spans';
import type { RoomDutyWindow } from './run';
import { runRoom, type RunRoom } from './run-room';
import { searchChains, type FoundRun } from './search-chains';
import { SlotStarts } from './slot-starts';
import { slotUses, type SlotUse } from './slot-uses';
import { indexStation } from './station-diary-index';

/** The soonest run that there would be if one station gave up its duty windows where the run needs it. */
export type RunWithoutWindows = {
  readonly stationId: string;
  readonly found: FoundRun;
  /** What the run asks of that station in the windows of other duties, the first of it. */
  readonly use: SlotUse;
  /** Those windows. */
  readonly instead: readonly RoomDutyWindow[];
};

/**
 * Tries every station with duty windows; those that the soonest run then does not need are left out. Only runs whose
 * bench starts before `benchBefore`, in minutes of the epoch.
 */
export function runsWithoutWindows(
  { room, run, stations }: RunRoom,
  benchBefore = Infinity,
): RunWithoutWindows[] {
  const { bench, maxShelveMinutes, cool } = run;
  const over = toInstant(benchBefore + bench.minutes + maxShelveMinutes + cool.minutes);
  return stations.flatMap((indexed) => {
    const { station } = indexed;
    if (indexed.during(run.earliestStart, over).dutyWindows.length === 0) return [];
    const freed = indexStation({ ...station, dutyWindows: [] });
    const changed = runRoom(
      room,
      run,
      stations.map((one) => (one === indexed ? freed : one)),
    );
    const found = searchChains(changed, new SlotStarts(changed), {
      preference: 'soonest',
      benchBefore,
    });
    if (found === null) return [];

    const inTheWay = (use: SlotUse): RoomDutyWindow[] =>
      use.station !== freed.station
        ? []
        : station.dutyWindows.filter(
            (window) => window.duty !== use.wish.duty && spansOverlap(window, use.span),
          );
    const uses = slotUses(run, found).filter((use) => inTheWay(use).length > 0);
    const [use] = uses;
    if (!use) return [];
    return [{ stationId: station.stationId, found, use, instead: uses.flatMap(inTheWay) }];
  });
}
