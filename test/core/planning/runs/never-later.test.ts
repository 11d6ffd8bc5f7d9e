import fc from 'fast-check';
import { planRun } from '../../../../src/core/planning/runs/plan-run';
import type { Chain, Preference, Room, Run } from '../../../../src/core/planning/runs/run';
import { whyNot } from '../../../../src/core/planning/why-not';
import { MINUTE_MS } from '../small-stations';
import { everyRun, slotFits, warmingMinutes, type OracleRun } from './chain-oracle';
import { smallClub } from './random-rooms';

const rank: Record<Preference, (found: OracleRun) => number[]> = {
  soonest: (one) => [one.pottedAt, -one.diastaseLeftPercent],
  gentlest: (one) => [-one.diastaseLeftPercent, one.pottedAt],
  'shortest-hold': (one) => [one.placeMinutes, one.pottedAt],
};

const seenOf = (chain: Chain): OracleRun => ({
  pottedAt: chain.bench.endsAt,
  diastaseLeftPercent: chain.option.diastaseLeftPercent,
  hmfGainedMgPerKg: chain.option.hmfGainedMgPerKg,
  placeMinutes: chain.placeMinutes,
});

function compare(a: readonly number[], b: readonly number[]): number {
  return a.map((one, index) => one - (b[index] ?? 0)).find((one) => one !== 0) ?? 0;
}

/** The best of every run that exhaustive search finds, by each preference; null when there is none. */
function exhaustive(room: Room, run: Run, stepMs: number) {
  const best = new Map<Preference, OracleRun>();
  everyRun(room, run, stepMs, (found) => {
    for (const [name, ranked] of Object.entries(rank)) {
      const known = best.get(name as Preference);
      if (!known || compare(ranked(found), ranked(known)) < 0) best.set(name as Preference, found);
    }
  });
  return best;
}

/** Can every slot be booked as it is, one after the other, and is somebody there for each? */
function expectBookable(room: Room, run: Run, chain: Chain): void {
  const slots = [chain.warm, ...(chain.coolDown ? [chain.coolDown] : []), chain.bench, chain.cool];
  let stations = room.stations;
  for (const slot of slots) {
    const station = stations.find((one) => one.stationId === slot.stationId)!;
    const others = station.dutyWindows.filter((window) => window.duty !== slot.duty);
    const wish = {
      ...slot,
      places: slot.placeIds.length,
      minutes: (slot.endsAt - slot.startsAt) / MINUTE_MS,
    };
    const times = { ...station, closures: [...station.closures, ...others], open: null };
    expect(whyNot(times, wish, slot.startsAt)).toBeNull();
    expect(slotFits(station, slot)).toBe(true);
    const taken = station.bookings
      .filter((one) => one.startsAt < slot.endsAt && slot.startsAt < one.endsAt)
      .flatMap((one) => one.placeIds);
    expect(slot.placeIds.filter((placeId) => taken.includes(placeId))).toEqual([]);
    const booked = { ...station, bookings: [...station.bookings, { id: 'own', ...slot }] };
    stations = stations.map((one) => (one === station ? booked : one));
  }

  const cabinet = room.stations.find((one) => one.stationId === chain.warm.stationId)!;
  const minutes = warmingMinutes(cabinet, run, chain.option, chain.warm.startsAt);
  expect(chain.warm.endsAt - chain.warm.startsAt).toBe(minutes * MINUTE_MS);
  expect(chain.warm.placeIds).toHaveLength(run.pails);
  expect(chain.coolDown?.placeIds ?? chain.warm.placeIds).toEqual(chain.warm.placeIds);
  expect(chain.coolEnoughAt - chain.warm.endsAt).toBe(chain.option.coolingMinutes * MINUTE_MS);
  expect(chain.warm.startsAt).toBeGreaterThanOrEqual(run.earliestStart);
  expect(chain.bench.startsAt).toBeGreaterThanOrEqual(chain.coolEnoughAt);
  expect(chain.bench.startsAt - chain.coolEnoughAt).toBeLessThanOrEqual(
    run.maxStandMinutes * MINUTE_MS,
  );
  expect(chain.bench.endsAt).toBeLessThanOrEqual(run.latestPotAt);
  expect(chain.cool.startsAt).toBeGreaterThanOrEqual(chain.bench.endsAt);
  expect(chain.cool.startsAt - chain.bench.endsAt).toBeLessThanOrEqual(
    run.maxShelveMinutes * MINUTE_MS,
  );
  for (const slot of [chain.warm, chain.bench, chain.cool]) {
    for (const list of [room.openSpans, run.memberSpans]) {
      expect(list.some((one) => one.startsAt <= slot.startsAt && slot.startsAt < one.endsAt)).toBe(
        true,
      );
      expect(list.some((one) => one.startsAt <= slot.endsAt && slot.endsAt <= one.endsAt)).toBe(
        true,
      );
    }
  }
}

describe.each([
  [1, 1_000],
  [15, 1_000],
])('on random clubs with times of whole %i minutes', (stepMinutes, numRuns) => {
  test('no run is later, harsher or longer than the best of exhaustive search, and each can be booked', () => {
    let feasible = 0;
    let several = 0;
    fc.assert(
      fc.property(smallClub(stepMinutes), ({ room, run }) => {
        const best = exhaustive(room, run, stepMinutes * MINUTE_MS);

        const plan = planRun(room, run);

        if (!plan.feasible) {
          expect(best.size).toBe(0);
          return;
        }
        feasible += 1;
        if (plan.alternatives.length > 1) several += 1;
        for (const { preferences, chain } of plan.alternatives) {
          expectBookable(room, run, chain);
          for (const preference of preferences) {
            const known = best.get(preference);
            if (!known) continue;
            const difference = compare(rank[preference](seenOf(chain)), rank[preference](known));
            // A step of a minute is the planner's own: then it finds neither worse nor better.
            if (stepMinutes === 1) expect(difference).toBe(0);
            else expect(difference).toBeLessThanOrEqual(0);
          }
        }
        if (stepMinutes === 1) expect(best.size).toBe(3);
      }),
      { numRuns },
    );
    expect(feasible).toBeGreaterThan(numRuns / 4);
    expect(several).toBeGreaterThan(numRuns / 20);
  });
});
