import type { Room, Run } from '../core/planning/runs/run';
import { CLEAR_C } from '../reckonings/assumptions';
import { invalidField, Refusal } from '../core/refusal';
import { gramsOf, kgOf } from '../platform/fields';
import type { HoneyOfPlan } from './honey-of-plan';
import {
  BENCH_BAND,
  benchMinutesOf,
  COOL_BAND,
  grossPotG,
  HOTTEST_C,
  MOST_SHELVE_MINUTES,
  MOST_STAND_MINUTES,
} from './plan-assumptions';
import { localDays, memberSpans, roomSpans, type PlanTimes } from './plan-times';
import type { PlanRequest } from './plans.requests';
import { toRoomStation, type StationRow } from './room-rows';
import { warmingOptions, type PailsToWarm } from './warming-options';

const dayMinutes = 1440;
const minuteMs = 60_000;

/** What of the wish does not depend on the room. */
export interface RunWish {
  hottestC: number;
  bench: { minC: number; maxC: number };
  cool: { minC: number; maxC: number };
  benchMinutes: number;
  holdDays: number;
  pails: PailsToWarm;
}

/** The temperatures of a request, with what was not said filled in; refuses those that make no sense. */
export function bandsOf(request: PlanRequest): Pick<RunWish, 'hottestC' | 'bench' | 'cool'> {
  const { hottestC = HOTTEST_C } = request;
  if (hottestC <= CLEAR_C) {
    throw invalidField(
      '#/hottestC',
      `Honey is clear when all of it has passed ${CLEAR_C} °C: the air must be warmer.`,
    );
  }
  const cool = {
    minC: request.coolMinC ?? Math.min(COOL_BAND.minC, request.coolMaxC ?? COOL_BAND.minC),
    maxC: request.coolMaxC ?? Math.max(COOL_BAND.maxC, request.coolMinC ?? COOL_BAND.maxC),
  };
  if (cool.minC > cool.maxC) {
    throw invalidField('#/coolMaxC', `coolMaxC must be at least coolMinC (${cool.minC}).`);
  }
  return { hottestC, bench: BENCH_BAND, cool };
}

export function pailsToWarm(honey: HoneyOfPlan): PailsToWarm {
  return {
    largestKg: Math.max(...honey.pails.map(({ massG }) => massG)) / 1000,
    count: honey.pails.reduce((sum, { count }) => sum + count, 0),
    massKg: honey.massG / 1000,
    moisturePercent: honey.moisturePercent,
  };
}

/** The blend in crates, of which each stands on one place of any cool room that is asked. */
export interface Crates {
  count: number;
  /** The heaviest, grams. */
  massG: number;
}

/** How many crates the pots, or the blend as it is, make; `placeLoadG` is what a place of the cool room bears. */
export function cratesOf(
  { pots, crates }: Pick<PlanRequest, 'pots' | 'crates'>,
  blendG: number,
  placeLoadG: number,
): Crates {
  refusePotsAbove(blendG, pots);
  if (crates !== undefined) return { count: crates, massG: Math.ceil(blendG / crates) };
  if (pots === undefined) {
    const count = Math.max(1, Math.ceil(grossPotG(blendG) / placeLoadG));
    return { count, massG: Math.ceil(grossPotG(blendG) / count) };
  }
  let count = 0;
  pots.forEach((size, index) => {
    const fits = Math.floor(placeLoadG / grossPotG(gramsOf(size.netMassKg)));
    if (fits === 0) {
      throw invalidField(
        `#/pots/${index}/netMassKg`,
        `A place of the cool room bears ${kgOf(placeLoadG)} kg: take smaller pots.`,
      );
    }
    count += Math.ceil(size.count / fits);
  });
  return { count, massG: placeLoadG };
}

function refusePotsAbove(blendG: number, pots: PlanRequest['pots']): void {
  if (pots === undefined) return;
  const pottedG = pots.reduce((sum, one) => sum + one.count * gramsOf(one.netMassKg), 0);
  if (pottedG <= blendG) return;
  throw invalidField(
    '#/pots',
    `The pots take ${kgOf(pottedG)} kg; honey and seed are ${kgOf(blendG)} kg.`,
  );
}

/** The room and the run as the planner wants them. Refuses, as without a plan, a room in which something of it cannot be done at all. */
export function roomAndRun(
  stations: readonly StationRow[],
  request: PlanRequest,
  wish: RunWish,
  crates: Crates,
  times: PlanTimes,
): { room: Room; run: Run } {
  const holdMinutes = wish.holdDays * dayMinutes;
  const until = times.searchedUntil + (holdMinutes + MOST_SHELVE_MINUTES + 1) * minuteMs;
  const [first] = stations;
  if (first === undefined) throw new Refusal('no-plan', 'The club has no stations yet.');
  const needs = {
    pailG: gramsOf(wish.pails.largestKg),
    crateG: crates.massG,
    bench: wish.bench,
    cool: wish.cool,
  };
  const room: Room = {
    stations: stations.map((row) => toRoomStation(row, needs)),
    openSpans: roomSpans(first.room, times.now, until),
    days: localDays(first.room.timeZone, times.now, times.searchedUntil),
  };
  const warming = new Map(
    stations.flatMap(({ stationId, duties }) => {
      const served = duties.find(({ duty }) => duty === 'warm');
      if (served === undefined) return [];
      return [[stationId, warmingOptions(served, wish.pails, wish.hottestC)] as const];
    }),
  );
  refuseIfNowhere(room, wish, crates, warming);
  return {
    room,
    run: {
      preference: request.wish ?? 'soonest',
      earliestStart: times.earliestStart,
      notBefore: times.now,
      latestPotAt: times.latestPotAt,
      memberSpans: memberSpans(request, first.room.timeZone, {
        from: times.now,
        pottedBy: times.latestPotAt,
        until,
      }),
      pails: wish.pails.count,
      warming,
      coolsInPlace: null,
      maxStandMinutes: MOST_STAND_MINUTES,
      bench: { ...wish.bench, places: 1, minutes: wish.benchMinutes },
      maxShelveMinutes: MOST_SHELVE_MINUTES,
      cool: { ...wish.cool, crates: crates.count, minutes: holdMinutes },
    },
  };
}

function refuseIfNowhere(room: Room, wish: RunWish, crates: Crates, warming: Run['warming']): void {
  const most = (duty: 'warm' | 'bench' | 'cool') =>
    Math.max(
      0,
      ...room.stations
        .filter(({ duties }) => duties.includes(duty))
        .map(({ placeIds }) => placeIds.length),
    );
  const lacks = [
    ![...warming.values()].some((options) => options.length > 0) &&
      `No station warms honey to more than ${CLEAR_C} °C, in air of ${wish.hottestC} °C at most.`,
    most('warm') < wish.pails.count &&
      `The run has ${wish.pails.count} pails; the largest cabinet takes ${most('warm')}. Plan fewer at a time.`,
    most('bench') === 0 &&
      `No station serves as the bench at ${wish.bench.minC} to ${wish.bench.maxC} °C.`,
    most('cool') < crates.count &&
      `The run has ${crates.count} crates of up to ${kgOf(crates.massG)} kg; the largest cool room of ${wish.cool.minC} to ${wish.cool.maxC} °C takes ${most('cool')}.`,
  ].filter((words) => words !== false);
  if (lacks.length > 0) throw new Refusal('no-plan', lacks.join(' '));
}

export function benchMinutes(honey: HoneyOfPlan, seedG: number): number {
  return benchMinutesOf(honey.massG + seedG);
}
