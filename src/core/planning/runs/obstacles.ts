import { minutesToMs, obstacleOf, spansOverlap } from '../station-times';
import { toInstant } from './minute-spans';
import type { Obstacle, Run } from './run';
import type { FoundRun } from './search-chains';
import { slotUses, type SlotUse } from './slot-uses';
import { slotOf, type SlotReason, type Waiver } from './waivers';

/** What the waived constraint consists of where this run, found without it, would be. */
export function obstacleAt(run: Run, found: FoundRun, waiver: Waiver): Obstacle {
  const pottedAt = toInstant(found.moments.bench + run.bench.minutes);
  const uses = slotUses(run, found);
  const at = slotOf(waiver);
  if (at === null) {
    const reason = waiver as Obstacle['reason'];
    const bookings =
      reason === 'other-pails' ? uses.slice(0, 1).flatMap((use) => pailsBeside(use)) : [];
    return { reason, slot: null, stationId: null, bookings, spans: [], pottedAt };
  }
  const own = uses.filter(({ slot }) => slot === at.slot);
  return {
    ...at,
    stationId: own[0]?.station.stationId ?? null,
    bookings: own.flatMap((use) => bookingsInTheWay(use, at.reason)).filter(isFirst),
    spans: own.flatMap((use) => spansInTheWay(use, at.reason)).filter(isFirst),
    pottedAt,
  };
}

function bookingsInTheWay({ station, wish, span }: SlotUse, reason: SlotReason) {
  const changeoverMs = minutesToMs(station.changeoverMinutes);
  const padded = { startsAt: span.startsAt - changeoverMs, endsAt: span.endsAt + changeoverMs };
  return station.bookings.filter((booking) => {
    const obstacle = obstacleOf(booking, wish);
    if (reason === 'changeover') {
      const isNear = spansOverlap(booking, padded) && !spansOverlap(booking, span);
      return obstacle === 'other-duty' && isNear;
    }
    return obstacle === reason && spansOverlap(booking, reason === 'other-duty' ? padded : span);
  });
}

function spansInTheWay({ station, wish, span }: SlotUse, reason: SlotReason) {
  if (reason === 'closed') return station.closures.filter((closure) => spansOverlap(closure, span));
  if (reason !== 'duty-window') return [];
  return station.dutyWindows.filter(
    (window) => window.duty !== wish.duty && spansOverlap(window, span),
  );
}

function pailsBeside({ station, span }: SlotUse) {
  return station.bookings.filter(
    ({ duty, ...held }) => duty === 'warm' && spansOverlap(held, span),
  );
}

function isFirst<T>(one: T, index: number, all: readonly T[]): boolean {
  return all.indexOf(one) === index;
}
