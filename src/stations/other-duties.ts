import type { Transaction } from '../platform/database';
import { stillNeeded, type Need } from './needs';
import type { StationDutyRequest } from './stations.requests';
import type { StationResponse } from './stations.responses';

/** Refuses to drop a duty, or to change its band, while bookings or duty windows ahead need it as it is. */
export async function refuseUnlessDutiesGo(
  tx: Transaction,
  clubId: string,
  station: StationResponse,
  wanted: readonly StationDutyRequest[],
  needs: readonly Need[],
  now: Date,
): Promise<void> {
  const changes = station.duties.map((current) => {
    const to = wanted.find(({ duty }) => duty === current.duty);
    return { current, to, needs: needs.filter((need) => isNeededBy(need, current, to)) };
  });
  const dropped = changes.filter(({ to }) => to === undefined).map(({ current }) => current.duty);
  const windows = await tx.dutyWindow.findMany({
    where: { clubId, stationId: station.id, duty: { in: dropped }, endsAt: { gt: now } },
    select: { id: true, duty: true, endsAt: true },
    orderBy: { startsAt: 'asc' },
  });
  const isKept = (duty: string) => windows.some((window) => window.duty === duty);
  const refused = changes.filter((one) => one.needs.length > 0 || isKept(one.current.duty));
  if (refused.length === 0) return;

  const whats = refused.map(({ current: { duty }, to }) =>
    to === undefined ? `the duty "${duty}"` : `"${duty}" at other temperatures`,
  );
  const worksNow = [
    ...changes.flatMap((one) => {
      if (one.to !== undefined) return [reaching(one.to, one.needs)];
      return refused.includes(one) ? [one.current] : [];
    }),
    ...wanted.filter(({ duty }) => !station.duties.some((one) => one.duty === duty)),
  ];
  throw stillNeeded(
    {
      what: `${whats.join(' and ')} of ${station.name}`,
      pointer: '#/duties',
      needs: refused.flatMap((one) => one.needs),
      windows,
      advice: `What works now: ${worksNow.map(wordsOf).join(', ')}.`,
      offers: { duties: worksNow },
    },
    now,
  );
}

function isNeededBy(
  need: Need,
  current: StationDutyRequest,
  to: StationDutyRequest | undefined,
): boolean {
  if (need.duty !== current.duty) return false;
  return to === undefined || need.minC > to.maxC || need.maxC < to.minC;
}

function wordsOf({ duty, minC, maxC }: StationDutyRequest): string {
  return `"${duty}" at ${minC} to ${maxC} °C`;
}

/** The duty with its band as much wider as the bookings need. */
function reaching(
  { duty, minC, maxC }: StationDutyRequest,
  needs: readonly Need[],
): StationDutyRequest {
  return {
    duty,
    minC: Math.min(minC, ...needs.map((need) => need.maxC)),
    maxC: Math.max(maxC, ...needs.map((need) => need.minC)),
  };
}
