import type { Span, Wish } from '../station-times';
import { toInstant } from './minute-spans';
import type { RoomStation, Run, SlotName } from './run';
import type { FoundRun } from './search-chains';

/** What a run asks of one station, and for which time. */
export type SlotUse = {
  readonly slot: SlotName;
  readonly station: RoomStation;
  readonly wish: Wish;
  readonly span: Span;
};

/** All that a run found asks for: the warming, the cooling-down if it keeps its places, the bench and the cool room. */
export function slotUses(run: Run, found: FoundRun): SlotUse[] {
  const { option, indexed } = found.warming;
  const { ready, bench, shelf } = found.moments;
  const { pails: places, coolsInPlace } = run;
  const cleared = ready - option.coolingMinutes;
  const use = (slot: SlotName, station: RoomStation, first: number, wish: Wish): SlotUse => ({
    slot,
    station,
    wish,
    span: { startsAt: toInstant(first), endsAt: toInstant(first + wish.minutes) },
  });
  const warm = { duty: 'warm' as const, places };
  const uses = [
    use('warm', indexed.station, cleared - found.warmMinutes, {
      ...warm,
      minutes: found.warmMinutes,
      minC: option.minC,
      maxC: option.maxC,
    }),
  ];
  if (coolsInPlace !== null && option.coolingMinutes > 0) {
    const wish = { ...warm, ...coolsInPlace, minutes: option.coolingMinutes };
    uses.push(use('warm', indexed.station, cleared, wish));
  }
  const { crates, ...cool } = run.cool;
  return [
    ...uses,
    use('bench', found.bench.station, bench, { ...run.bench, duty: 'bench' }),
    use('cool', found.coolRoom.station, shelf, { ...cool, duty: 'cool', places: crates }),
  ];
}
