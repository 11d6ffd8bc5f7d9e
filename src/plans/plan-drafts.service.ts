import { Injectable } from '@nestjs/common';
import type { Change, RunPlan } from '../core/planning/runs/run';
import { invalidField, Refusal } from '../core/refusal';
import type { ClubCaller } from '../platform/caller';
import { Clock } from '../platform/clock';
import { Database } from '../platform/database';
import { kgOf } from '../platform/fields';
import { SEED_PER_HUNDRED_OF_HONEY } from '../reckonings/assumptions';
import { SettingForecastService } from '../setting-forecast/setting-forecast.service';
import { honeyOfPlan } from './honey-of-plan';
import { planAssumptions } from './plan-assumptions';
import { planFacts, type PlanFacts } from './plan-facts';
import { heldFor, holdOf } from './plan-hold';
import { toSlot, type StoredPlan } from './plan-rows';
import { planTimes, type PlanTimes } from './plan-times';
import { planWarnings } from './plan-warnings';
import { planWithHold } from './plan-with-hold';
import {
  changeInWords,
  changeoverInWords,
  iso,
  obstaclesOf,
  planCautions,
  type Telling,
} from './plan-words';
import type { PlanRequest } from './plans.requests';
import { roomRows, type StationRow } from './room-rows';
import { bandsOf, benchMinutes, cratesOf, pailsToWarm, roomAndRun } from './run-of-plan';
import { seedOfPlan } from './seed-of-plan';
import { slotsOf, toStoredAlternative } from './stored-alternative';
import { warmingAssumptions } from './warming-options';

const dayMs = 86_400_000;
/** A lift for two people, or a hoist. */
const heavyG = 20_000;
/** Holds are no longer than bookings may be. */
const longestHoldDays = 119;
const mostChanges = 5;

/** A plan that nobody has filed yet. */
export interface PlanDraft {
  memberId: string;
  stored: StoredPlan;
}

/** Finds the ways through the room for what somebody asks. Reads alone: it may be asked again at any time. */
@Injectable()
export class PlanDrafts {
  constructor(
    private readonly database: Database,
    private readonly forecasts: SettingForecastService,
    private readonly clock: Clock,
  ) {}

  /** Three statements: honey and seed, the batches behind the forecast, the diaries of the room. */
  async draft(caller: ClubCaller, request: PlanRequest): Promise<PlanDraft> {
    const memberId = (request.memberId ?? caller.memberId).toLowerCase();
    if (memberId !== caller.memberId && caller.role !== 'steward') {
      throw new Refusal('not-allowed', 'Only a steward plans a run for another member.');
    }
    const bands = bandsOf(request);
    const facts = await this.factsOf(caller.clubId, memberId, request);
    const times = planTimes(request, this.clock.now(), facts.timeZone);
    const stationsUntil = new Date(times.searchedUntil + (longestHoldDays + 1) * dayMs);
    const stations = await this.database.rows<StationRow>(
      roomRows(caller.clubId, new Date(times.now), stationsUntil),
    );

    const honey = honeyOfPlan(request.honey, facts, {
      memberId,
      bySteward: caller.role === 'steward',
      placeLoadG: loadOf(stations, 'warm', Math.max),
      startsAt: new Date(times.earliestStart),
    });
    const { seedPercent = SEED_PER_HUNDRED_OF_HONEY } = request;
    const seed = seedOfPlan(facts, honey, {
      memberId,
      seedLotId: request.seedLotId,
      perHundred: seedPercent,
    });
    const blendG = honey.massG + seed.massG;
    const foretold = await holdOf(this.forecasts, caller.clubId, request, {
      honey,
      seed,
      coolC: (bands.cool.minC + bands.cool.maxC) / 2,
      longestDays: longestHoldDays,
    });
    const crates = cratesOf(request, blendG, loadOf(stations, 'cool', Math.min));
    const wish = {
      ...bands,
      benchMinutes: benchMinutes(honey, seed.massG),
      pails: pailsToWarm(honey),
    };
    const telling = {
      timeZone: facts.timeZone,
      stations: new Map(stations.map((station) => [station.stationId, station])),
    };
    const { run, found, holdDays } = planWithHold(foretold.days, (days) =>
      roomAndRun(stations, request, { ...wish, holdDays: days }, crates, times),
    );
    if (!found.feasible) throw noPlan(found, telling, times);
    const hold = heldFor(foretold, holdDays);

    return {
      memberId,
      stored: {
        name: request.name,
        inputs: {
          honey: honey.lots.map(({ fact, massG }) => ({
            lotId: fact.lotId,
            name: fact.name,
            massKg: kgOf(massG),
          })),
          pails: honey.pails.map(({ count, massG }) => ({ count, massKg: kgOf(massG) })),
          seedPercent,
          earliestStart: iso(times.earliestStart),
          latestPotDay: request.latestPotDay,
          wish: run.preference,
          crates: crates.count,
          benchMinutes: wish.benchMinutes,
          hottestC: bands.hottestC,
          coolMinC: bands.cool.minC,
          coolMaxC: bands.cool.maxC,
        },
        seed: {
          lotId: seed.lot.lotId,
          name: seed.lot.name,
          massKg: kgOf(seed.massG),
          why: seed.why,
        },
        hold,
        alternatives: found.alternatives.map((one) => toStoredAlternative(one, telling)),
        soonerWithDutyWindow: changeoverInWords(found.freedByChangeover, telling),
        bookedAlternative: null,
        bookings: [],
        warnings: [...seed.warnings, ...planWarnings(honey, facts, hold)],
        cautions: planCautions(honey.pails.some(({ massG }) => massG >= heavyG)),
        assumptions: [...warmingAssumptions(wish.pails), ...planAssumptions],
      },
    };
  }

  private async factsOf(
    clubId: string,
    memberId: string,
    request: PlanRequest,
  ): Promise<PlanFacts> {
    const lotIds = request.honey.map(({ lotId }) => lotId);
    const [facts] = await this.database.rows<PlanFacts>(planFacts(clubId, memberId, lotIds));
    if (facts === undefined) throw new Refusal('not-found');
    if (facts.memberName === null) {
      throw invalidField('#/memberId', 'The club has no such member.');
    }
    return facts;
  }
}

/** What a place of the stations with that duty bears: the most or the least of all; 25 kg where there is none. */
function loadOf(
  stations: readonly StationRow[],
  duty: 'warm' | 'cool',
  choose: (...loads: number[]) => number,
): number {
  const loads = stations
    .filter(({ duties }) => duties.some((served) => served.duty === duty))
    .map(({ placeLoadG }) => placeLoadG);
  return loads.length === 0 ? 25_000 : choose(...loads);
}

/**
 * The refusal that says what stands in the way, and what would make it possible: in words, as a change of the request where that
 * suffices, and as slots.
 */
function noPlan(
  { whyNot, changes }: Extract<RunPlan, { feasible: false }>,
  telling: Telling,
  times: PlanTimes,
): Refusal {
  const offered = changes.slice(0, mostChanges).map((change) => ({
    kind: change.kind,
    inWords: changeInWords(change, telling),
    request: requestOf(change, telling.timeZone),
    pottedAt: iso(change.chain.bench.endsAt),
    slots: slotsOf(change.chain, telling).map(toSlot),
  }));
  const obstacles = obstaclesOf(whyNot, telling);
  const why =
    obstacles.length === 0
      ? `Nothing fits from ${iso(times.earliestStart)} on.`
      : `Nothing fits: ${obstacles
          .slice(0, 4)
          .map(({ inWords }) => inWords)
          .join('; ')}.`;
  const [first] = offered;
  const what =
    first === undefined
      ? 'No single change to the wish helps: try fewer pails, other temperatures and a later day together.'
      : `The smallest change: ${first.inWords}`;
  return new Refusal('no-plan', `${why} ${what}`, {
    offers: { whyNot: obstacles, changes: offered },
  });
}

/** The members of the request to be changed; null where the request alone does not suffice. */
function requestOf(change: Change, timeZone: string): object | null {
  switch (change.kind) {
    case 'pot-later':
      return { latestPotDay: dayOf(change.chain.bench.startsAt, timeZone) };
    case 'start-earlier':
      return { earliestStart: iso(change.earliestStart) };
    case 'other-hours':
      return {
        comes: [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({
          weekday,
          opens: '00:00',
          closes: '24:00',
        })),
      };
    case 'fewer-pails':
    case 'wider-temperature':
    case 'room-open-longer':
    case 'duty-window':
      return null;
  }
}

function dayOf(at: number, timeZone: string): string {
  return new Intl.DateTimeFormat('en-CA', { timeZone, dateStyle: 'short' }).format(at);
}
