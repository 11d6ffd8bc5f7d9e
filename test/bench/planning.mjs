// How fast whole runs are planned: on a small room beside trying every start on a grid of a quarter of an hour, and on a room with
// 2,000 bookings ahead in milliseconds. All times are the processor's.
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { planRun } = require('../../dist/src/core/planning/runs/plan-run.js');
const { whyNot } = require('../../dist/src/core/planning/why-not.js');

const MINUTE_MS = 60_000;
const HOUR = 60;
const DAY = 24 * HOUR;
const midnight = Date.UTC(2026, 2, 2);
const instant = (minute) => midnight + minute * MINUTE_MS;

export function comparePlanning() {
  const chance = repeatable(7);
  const small = roomWith(120, 30, chance);
  const wish = wishFor(chance, 10);
  const planned = middle(timesOf(20, () => planRun(small, wish)));
  const tried = middle(timesOf(3, () => soonestTried(small, wish)));
  const big = roomWith(2_000, 360, chance);
  const wishes = Array.from({ length: 100 }, (_, index) => wishFor(chance, index * 2));
  for (const one of wishes) planRun(big, one);
  const took = wishes.map((one) => timesOf(1, () => planRun(big, one))[0]);
  const possible = wishes.filter((one) => planRun(big, one).feasible).length;
  const [median, p95, worst] = [50, 95, 100].map((percent) => share(took, percent));
  console.log(
    `a run in a month of 120       ratio ${(tried / planned).toFixed(0)} to every quarter of an hour   ${planned.toFixed(1)} ms, tried ${tried.toFixed(0)} ms\n` +
      `100 wishes, 2,000 bookings    median ${median.toFixed(1)} ms (aim: 10), p95 ${p95.toFixed(1)} ms, worst ${worst.toFixed(1)} ms (aim: 25); ${possible} possible`,
  );
}

/** The soonest potting, by asking of every quarter of an hour whether each slot could start there. */
function soonestTried(room, run) {
  const step = 15 * MINUTE_MS;
  const isThere = (at, spans) =>
    spans.some(({ startsAt, endsAt }) => startsAt <= at && at < endsAt);
  const isLeft = (at, spans) =>
    spans.some(({ startsAt, endsAt }) => startsAt <= at && at <= endsAt);
  const can = (check) => [room.openSpans, run.memberSpans].every(check);
  const fits = (station, wish, at) => {
    const dutyWindows = station.dutyWindows.filter(({ duty }) => duty !== wish.duty);
    return (
      whyNot(
        {
          ...station,
          closures: [...station.closures, ...dutyWindows],
          dutyWindows: [],
          open: null,
        },
        wish,
        at,
      ) === null
    );
  };
  const known = new Map();
  const remember = (key, find) => known.get(key) ?? (known.set(key, find()), known.get(key));
  const stationsFor = (duty) => room.stations.filter(({ duties }) => duties.includes(duty));
  const cool = { ...run.cool, duty: 'cool', places: run.cool.crates };
  const bench = { ...run.bench, duty: 'bench' };
  const canShelve = (at) =>
    can((spans) => isThere(at, spans) && isLeft(at + cool.minutes * MINUTE_MS, spans)) &&
    stationsFor('cool').some((station) => fits(station, cool, at));
  const canPot = (at) =>
    can((spans) =>
      spans.some((one) => one.startsAt <= at && at + bench.minutes * MINUTE_MS <= one.endsAt),
    ) && stationsFor('bench').some((station) => fits(station, bench, at));
  let soonest = Infinity;
  for (const cabinet of stationsFor('warm')) {
    for (const option of run.warming.get(cabinet.stationId)) {
      for (
        let start = run.earliestStart;
        start < Math.min(soonest, run.latestPotAt);
        start += step
      ) {
        if (!can((spans) => isThere(start, spans))) continue;
        for (let others = 0; others <= cabinet.placeIds.length - run.pails; others++) {
          const end = start + option.minutes(others) * MINUTE_MS;
          const beside = cabinet.bookings.filter(
            ({ duty, startsAt, endsAt }) => duty === 'warm' && startsAt < end && start < endsAt,
          );
          const most = Math.max(
            0,
            ...[start, ...beside.map(({ startsAt }) => startsAt)]
              .filter((at) => at >= start)
              .map((at) =>
                beside
                  .filter(({ startsAt, endsAt }) => startsAt <= at && at < endsAt)
                  .reduce((sum, { placeIds }) => sum + placeIds.length, 0),
              ),
          );
          if (most > others) continue;
          const wish = {
            ...option,
            duty: 'warm',
            places: run.pails,
            minutes: option.minutes(others),
          };
          if (!can((spans) => isLeft(end, spans)) || !fits(cabinet, wish, start)) break;
          const ready = end + option.coolingMinutes * MINUTE_MS;
          for (
            let pot = ready;
            pot <= ready + run.maxStandMinutes * MINUTE_MS && pot < soonest;
            pot += step
          ) {
            if (!remember(`pot ${pot}`, () => canPot(pot))) continue;
            const potted = pot + bench.minutes * MINUTE_MS;
            for (
              let shelf = potted;
              shelf <= potted + run.maxShelveMinutes * MINUTE_MS;
              shelf += step
            ) {
              if (remember(`shelf ${shelf}`, () => canShelve(shelf)))
                soonest = Math.min(soonest, pot);
            }
          }
          break;
        }
      }
    }
  }
  return soonest;
}

/** Two cabinets (one of them also cools), a bench, a cool room; open in the daytime, closed on Sundays. */
function roomWith(count, days, chance) {
  const station = (stationId, duties, places) => ({
    stationId,
    duties,
    placeIds: Array.from({ length: places }, (_, index) => `${stationId}-${index + 1}`),
    changeoverMinutes: 4 * HOUR,
    bookings: [],
    closures: [],
    dutyWindows: [],
  });
  const stations = [
    station('large', ['warm'], 8),
    station('small', ['warm', 'cool'], 4),
    station('bench', ['bench'], 1),
    station('cellar', ['cool'], 60),
  ];
  const lasting = { warm: [24, 48], cool: [7 * 24, 14 * 24], bench: [2, 4] };
  let booked = 0;
  for (let tries = 0; booked < count && tries < 50 * count; tries++) {
    const one = stations[[0, 0, 1, 2, 2, 3][Math.floor(chance() * 6)]];
    const duty = one.duties[Math.floor(chance() * one.duties.length)];
    const [least, most] = lasting[duty];
    const startsAt = instant(
      Math.floor(chance() * days) * DAY + (8 + Math.floor(chance() * 10)) * HOUR,
    );
    const endsAt = startsAt + Math.round(least + chance() * (most - least)) * HOUR * MINUTE_MS;
    const changeoverMs = one.changeoverMinutes * MINUTE_MS;
    const near = one.bookings.filter(
      (other) => other.startsAt < endsAt + changeoverMs && startsAt - changeoverMs < other.endsAt,
    );
    if (near.some((other) => other.duty !== duty)) continue;
    const taken = new Set(near.flatMap(({ placeIds }) => placeIds));
    const free = one.placeIds.filter((placeId) => !taken.has(placeId));
    const placeIds = free.slice(0, 1 + Math.floor(chance() * 2));
    if (placeIds.length === 0) continue;
    const minC = duty === 'warm' ? 38 + Math.floor(chance() * 3) : 12;
    one.bookings.push({
      id: `${booked++}`,
      duty,
      minC,
      maxC: minC + 4,
      startsAt,
      endsAt,
      placeIds,
    });
  }
  stations[1].dutyWindows.push({
    duty: 'cool',
    startsAt: instant(100 * DAY),
    endsAt: instant(160 * DAY),
  });
  const daysAhead = Array.from({ length: days + 60 }, (_, day) => day);
  const during = (from, until, some) =>
    daysAhead.filter(some).map((day) => ({
      startsAt: instant(day * DAY + from * HOUR),
      endsAt: instant(day * DAY + until * HOUR),
    }));
  return {
    stations,
    openSpans: during(8, 20, (day) => day % 7 !== 6),
    days: during(0, 24, () => true),
  };
}

function wishFor(chance, fromDay) {
  const longer = (hours, percent) =>
    [0, 2, 4, 6, 8].map((extra) => option(hours + extra, percent - extra / 10));
  const option = (hours, diastaseLeftPercent) => ({
    setpointC: 42,
    minC: 40,
    maxC: 43,
    minutes: (others) => hours * HOUR + others * 90,
    coolingMinutes: 10 * HOUR,
    energyKWh: 4,
    diastaseLeftPercent,
    hmfGainedMgPerKg: 100 - diastaseLeftPercent,
  });
  const options = [...longer(36, 97), ...longer(28, 95), ...longer(22, 91)];
  return {
    preference: 'soonest',
    earliestStart: instant(fromDay * DAY + 9 * HOUR),
    latestPotAt: instant((fromDay + 60) * DAY),
    memberSpans: Array.from({ length: 430 }, (_, day) => ({
      startsAt: instant(day * DAY + 15 * HOUR),
      endsAt: instant(day * DAY + 22 * HOUR),
    })),
    pails: 1 + Math.floor(chance() * 3),
    warming: new Map([
      ['large', options],
      ['small', options],
    ]),
    coolsInPlace: null,
    maxStandMinutes: 18 * HOUR,
    bench: { minC: 10, maxC: 30, places: 1, minutes: 3 * HOUR },
    maxShelveMinutes: 60,
    cool: { minC: 12, maxC: 15, crates: 1 + Math.floor(chance() * 3), minutes: 14 * DAY },
  };
}

/** Numbers from 0 to 1 that are the same in every run. */
function repeatable(seed) {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

function timesOf(count, work) {
  return Array.from({ length: count }, () => {
    const began = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(began);
    return (user + system) / 1000;
  });
}

function share(values, percent) {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor((sorted.length * percent) / 100))];
}

function middle(values) {
  return share(values, 50);
}

if (process.argv[1] === import.meta.filename) comparePlanning();
