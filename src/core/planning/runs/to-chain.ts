import { choosePlaces } from '../choose-places';
import { toInstant } from './minute-spans';
import type { Chain, Run, Slot } from './run';
import type { FoundRun } from './search-chains';
import { slotUses, type SlotUse } from './slot-uses';

/** The run as it can be booked, with the places chosen as `choosePlaces` does. */
export function toChain(run: Run, found: FoundRun): Chain {
  const uses = slotUses(run, found);
  const warmUses = uses.filter(({ slot }) => slot === 'warm');
  const [warm, coolDown] = bookedInOne(warmUses);
  const [bench, cool] = uses
    .filter(({ slot }) => slot !== 'warm')
    .map((use) => bookedInOne([use])[0]);
  if (!warm || !bench || !cool) throw new Error('a run has a slot of each kind');
  return {
    warm,
    coolDown: coolDown ?? null,
    bench,
    cool,
    option: found.warming.option,
    otherPails: found.otherPails,
    coolEnoughAt: toInstant(found.moments.ready),
    placeMinutes: uses.reduce((sum, { wish }) => sum + wish.places * wish.minutes, 0),
  };
}

/** Slots of uses that follow each other in the same places. */
function bookedInOne(uses: readonly SlotUse[]): Slot[] {
  const [first] = uses;
  if (!first) return [];
  const minutes = uses.reduce((sum, { wish }) => sum + wish.minutes, 0);
  const placeIds = choosePlaces(first.station, { ...first.wish, minutes }, first.span.startsAt);
  return uses.map(({ station, wish, span }) => ({
    stationId: station.stationId,
    duty: wish.duty,
    minC: wish.minC,
    maxC: wish.maxC,
    placeIds: placeIds ?? [],
    ...span,
  }));
}
