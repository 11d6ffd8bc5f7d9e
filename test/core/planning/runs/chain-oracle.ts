import type {
  Room,
  RoomStation,
  Run,
  Slot,
  WarmingOption,
} from '../../../../src/core/planning/runs/run';
import type { Duty, Span } from '../../../../src/core/planning/station-times';
import { MINUTE_MS } from '../small-stations';

/** What the oracle says of one run that could be booked. */
export type OracleRun = {
  readonly pottedAt: number;
  readonly diastaseLeftPercent: number;
  readonly hmfGainedMgPerKg: number;
  readonly placeMinutes: number;
};

type Use = Span & { duty: Duty; places: number; minC: number; maxC: number };

/**
 * Every run that starts, stands and waits in whole steps, each moment asked for by itself, step by step. Knows nothing
 * of sets of starts. Calls `see` with each. `asked` may give another station to be asked for a slot.
 */
export function everyRun(
  room: Room,
  run: Run,
  stepMs: number,
  see: (found: OracleRun) => void,
  asked: (duty: Duty, station: RoomStation) => RoomStation = (_duty, station) => station,
): void {
  const steps = (fromMs: number, untilMs: number): number[] => {
    const list: number[] = [];
    for (let at = fromMs; at <= untilMs; at += stepMs) list.push(at);
    return list;
  };
  const there = (at: number) =>
    covered(room.openSpans, at, at + MINUTE_MS) && covered(run.memberSpans, at, at + MINUTE_MS);
  const leaving = (at: number) => touchesCommon(room.openSpans, run.memberSpans, at);

  const shelves = new Map<string, boolean>();
  const canShelve = (station: RoomStation, at: number): boolean => {
    const key = `${station.stationId} ${at}`;
    const known = shelves.get(key);
    if (known !== undefined) return known;
    const end = at + run.cool.minutes * MINUTE_MS;
    const can =
      there(at) &&
      leaving(end) &&
      fits(asked('cool', station), {
        ...run.cool,
        places: run.cool.crates,
        duty: 'cool',
        startsAt: at,
        endsAt: end,
      });
    shelves.set(key, can);
    return can;
  };
  const pottings = new Map<string, boolean>();
  const canPot = (station: RoomStation, at: number): boolean => {
    const key = `${station.stationId} ${at}`;
    const known = pottings.get(key);
    if (known !== undefined) return known;
    const end = at + run.bench.minutes * MINUTE_MS;
    const can =
      steady(room.openSpans, run.memberSpans, at, end) &&
      room.days.some((day) => day.startsAt <= at && end <= day.endsAt) &&
      end <= run.latestPotAt &&
      fits(asked('bench', station), { ...run.bench, duty: 'bench', startsAt: at, endsAt: end });
    pottings.set(key, can);
    return can;
  };

  for (const cabinet of room.stations) {
    for (const option of run.warming.get(cabinet.stationId) ?? []) {
      if (!cabinet.duties.includes('warm') || cabinet.placeIds.length < run.pails) continue;
      for (const start of steps(run.earliestStart, run.latestPotAt)) {
        if (!there(start)) continue;
        const minutes = warmingMinutes(cabinet, run, option, start);
        const end = start + minutes * MINUTE_MS;
        const ready = end + option.coolingMinutes * MINUTE_MS;
        const left = run.coolsInPlace ? ready : end;
        if (!leaving(end) || !leaving(left)) continue;
        const warm = { duty: 'warm' as const, places: run.pails, startsAt: start };
        if (!fits(asked('warm', cabinet), { ...warm, ...option, endsAt: end })) continue;
        if (run.coolsInPlace && left > end) {
          const off = { ...warm, ...run.coolsInPlace, startsAt: end, endsAt: left };
          if (
            !fits(asked('warm', cabinet), off) ||
            freePlaces(asked('warm', cabinet), start, left) < run.pails
          )
            continue;
        }
        for (const bench of room.stations) {
          if (!bench.duties.includes('bench')) continue;
          for (const pot of steps(ready, ready + run.maxStandMinutes * MINUTE_MS)) {
            if (
              bench === cabinet &&
              pot < left + asked('bench', bench).changeoverMinutes * MINUTE_MS
            )
              continue;
            if (!canPot(bench, pot)) continue;
            const potted = pot + run.bench.minutes * MINUTE_MS;
            for (const store of room.stations) {
              if (!store.duties.includes('cool')) continue;
              const changed = asked('cool', store).changeoverMinutes * MINUTE_MS;
              const shelved = steps(potted, potted + run.maxShelveMinutes * MINUTE_MS).some(
                (shelf) =>
                  !(store === bench && shelf < potted + changed) &&
                  !(store === cabinet && shelf < left + changed) &&
                  canShelve(store, shelf),
              );
              if (!shelved) continue;
              see({
                pottedAt: potted,
                diastaseLeftPercent: option.diastaseLeftPercent,
                hmfGainedMgPerKg: option.hmfGainedMgPerKg,
                placeMinutes:
                  (run.pails * (left - start)) / MINUTE_MS +
                  run.bench.places * run.bench.minutes +
                  run.cool.crates * run.cool.minutes,
              });
            }
          }
        }
      }
    }
  }
}

/** The least number of other pails that is not exceeded while the honey is warmed as long as it says. */
export function warmingMinutes(
  cabinet: RoomStation,
  run: Run,
  option: WarmingOption,
  start: number,
): number {
  const most = cabinet.placeIds.length - run.pails;
  for (let others = 0; others < most; others++) {
    const end = start + option.minutes(others) * MINUTE_MS;
    const instants = [start, ...cabinet.bookings.map((one) => one.startsAt)];
    const greatest = Math.max(
      ...instants
        .filter((at) => at >= start && at < end)
        .map((at) =>
          cabinet.bookings
            .filter((one) => one.duty === 'warm' && one.startsAt <= at && at < one.endsAt)
            .reduce((sum, one) => sum + one.placeIds.length, 0),
        ),
    );
    if (greatest <= others) return option.minutes(others);
  }
  return option.minutes(most);
}

export function fits(station: RoomStation, use: Use): boolean {
  const changeoverMs = station.changeoverMinutes * MINUTE_MS;
  const overlaps = (one: Span, padMs = 0) =>
    one.startsAt < use.endsAt + padMs && use.startsAt - padMs < one.endsAt;
  return (
    station.duties.includes(use.duty) &&
    !station.closures.some((one) => overlaps(one)) &&
    !station.dutyWindows.some((one) => one.duty !== use.duty && overlaps(one)) &&
    !station.bookings.some(
      (one) =>
        (one.duty !== use.duty && overlaps(one, changeoverMs)) ||
        (overlaps(one) && Math.max(one.minC, use.minC) > Math.min(one.maxC, use.maxC)),
    ) &&
    freePlaces(station, use.startsAt, use.endsAt) >= use.places
  );
}

function freePlaces(station: RoomStation, startsAt: number, endsAt: number): number {
  return station.placeIds.filter(
    (placeId) =>
      !station.bookings.some(
        (one) => one.placeIds.includes(placeId) && one.startsAt < endsAt && startsAt < one.endsAt,
      ),
  ).length;
}

function covered(spans: readonly Span[], startsAt: number, endsAt: number): boolean {
  let reached = startsAt;
  for (const one of spans.toSorted((a, b) => a.startsAt - b.startsAt)) {
    if (one.startsAt <= reached) reached = Math.max(reached, one.endsAt);
  }
  return reached >= endsAt;
}

function steady(a: readonly Span[], b: readonly Span[], startsAt: number, endsAt: number): boolean {
  return covered(a, startsAt, endsAt) && covered(b, startsAt, endsAt);
}

/** Is somebody there just before or from this instant on? */
function touchesCommon(a: readonly Span[], b: readonly Span[], at: number): boolean {
  return steady(a, b, at - 1, at) || steady(a, b, at, at + 1);
}

export function slotFits(station: RoomStation, slot: Slot): boolean {
  return fits(station, { ...slot, places: slot.placeIds.length });
}
