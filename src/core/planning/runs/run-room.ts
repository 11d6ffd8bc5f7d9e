import type { Duty } from '../station-times';
import { firstMinuteFrom, lastMinuteUntil } from './minute-spans';
import type { Room, Run, WarmingOption } from './run';
import type { IndexedStation } from './station-diary-index';

/** One way to warm in one cabinet. */
export type Warming = {
  readonly indexed: IndexedStation;
  readonly option: WarmingOption;
  /** How many other pails can be beside the run's own. */
  readonly mostOthers: number;
};

/** A wish, and the stations that might serve it. */
export type RunRoom = {
  readonly room: Room;
  readonly run: Run;
  /** All stations, each with its diary in order. */
  readonly stations: readonly IndexedStation[];
  readonly warmings: readonly Warming[];
  readonly benches: readonly IndexedStation[];
  readonly coolRooms: readonly IndexedStation[];
  /** Starts of the bench slot that are worth a look, in minutes of the epoch. */
  readonly benchStarts: {
    readonly first: number;
    readonly last: number;
    /** When the days known end: for a search without a latest potting. */
    readonly horizon: number;
  };
};

/** Which stations might serve the run. Throws RangeError for a run that makes no sense. */
export function runRoom(room: Room, run: Run, stations: readonly IndexedStation[]): RunRoom {
  requireRun(run);
  const withDuty = (duty: Duty, places: number) =>
    stations.filter(
      ({ station }) => station.duties.includes(duty) && station.placeIds.length >= places,
    );
  const warmings = withDuty('warm', run.pails).flatMap((indexed) =>
    (run.warming.get(indexed.station.stationId) ?? []).map((option) => {
      const mostOthers = indexed.station.placeIds.length - run.pails;
      requireOption(option, mostOthers);
      return { indexed, option, mostOthers };
    }),
  );
  const shortest = Math.min(
    ...warmings.map(({ option }) => option.minutes(0) + option.coolingMinutes),
  );
  return {
    room,
    run,
    stations,
    warmings,
    benches: withDuty('bench', run.bench.places),
    coolRooms: withDuty('cool', run.cool.crates),
    benchStarts: {
      first: firstMinuteFrom(run.earliestStart) + shortest,
      last: lastMinuteUntil(run.latestPotAt) - run.bench.minutes,
      horizon: lastMinuteUntil(Math.max(...room.days.map(({ endsAt }) => endsAt))),
    },
  };
}

function requireRun(run: Run): void {
  requireWhole('earliestStart', run.earliestStart, -Infinity);
  requireWhole('latestPotAt', run.latestPotAt, -Infinity);
  requireWhole('pails', run.pails, 1);
  requireWhole('maxStandMinutes', run.maxStandMinutes, 0);
  requireWhole('maxShelveMinutes', run.maxShelveMinutes, 0);
  requireWhole('bench.places', run.bench.places, 1);
  requireWhole('bench.minutes', run.bench.minutes, 1);
  requireWhole('cool.crates', run.cool.crates, 1);
  requireWhole('cool.minutes', run.cool.minutes, 1);
}

function requireOption({ minutes, coolingMinutes }: WarmingOption, mostOthers: number): void {
  requireWhole('coolingMinutes', coolingMinutes, 0);
  let least = 1;
  for (let others = 0; others <= mostOthers; others++) {
    least = requireWhole(`minutes(${others})`, minutes(others), least);
  }
}

function requireWhole(name: string, value: number, least: number): number {
  if (!Number.isSafeInteger(value) || value < least) {
    throw new RangeError(`${name} must be a whole number of at least ${least}, got ${value}`);
  }
  return value;
}
