import { choosePlaces } from '../choose-places';
import type { Duty, StationTimes } from '../station-times';
import { toInstant } from './minute-spans';
import type { Band, Chain, RoomStation, Run, Slot } from './run';
import type { FoundRun } from './search-chains';

/** The run as it can be booked, with the places chosen as `choosePlaces` does. */
export function toChain(run: Run, found: FoundRun): Chain {
  const { option, indexed } = found.warming;
  const { ready, bench, shelf } = found.moments;
  const cabinet = indexed.station;
  const cleared = ready - option.coolingMinutes;
  const coolDown = run.coolsInPlace !== null && option.coolingMinutes > 0 ? run.coolsInPlace : null;
  const held = { first: cleared - found.warmMinutes, until: coolDown ? ready : cleared };
  const placeIds = placesFor(cabinet, 'warm', run.pails, held.first, held.until);
  const slots = {
    warm: slot(cabinet, 'warm', option, placeIds, held.first, cleared),
    coolDown: coolDown && slot(cabinet, 'warm', coolDown, placeIds, cleared, ready),
    bench: chosenSlot(
      found.bench.station,
      'bench',
      run.bench,
      run.bench.places,
      bench,
      run.bench.minutes,
    ),
    cool: chosenSlot(
      found.coolRoom.station,
      'cool',
      run.cool,
      run.cool.crates,
      shelf,
      run.cool.minutes,
    ),
  };
  return {
    ...slots,
    option,
    otherPails: found.otherPails,
    coolEnoughAt: toInstant(ready),
    placeMinutes:
      run.pails * (held.until - held.first) +
      run.bench.places * run.bench.minutes +
      run.cool.crates * run.cool.minutes,
  };
}

function chosenSlot(
  station: RoomStation,
  duty: Duty,
  band: Band,
  places: number,
  first: number,
  minutes: number,
): Slot {
  const placeIds = placesFor(station, duty, places, first, first + minutes);
  return slot(station, duty, band, placeIds, first, first + minutes);
}

function placesFor(
  station: StationTimes,
  duty: Duty,
  places: number,
  first: number,
  until: number,
): string[] {
  const wish = { duty, places, minutes: until - first, minC: 0, maxC: 0 };
  return choosePlaces(station, wish, toInstant(first)) ?? [];
}

function slot(
  { stationId }: RoomStation,
  duty: Duty,
  { minC, maxC }: Band,
  placeIds: readonly string[],
  first: number,
  until: number,
): Slot {
  return {
    stationId,
    duty,
    minC,
    maxC,
    placeIds,
    startsAt: toInstant(first),
    endsAt: toInstant(until),
  };
}
