import { openSpans } from '../core/planning/open-spans';
import type { StationBooking } from '../core/planning/station-times';
import { placesOrWhyNot } from '../core/planning/why-not';
import { Refusal } from '../core/refusal';
import type { Transaction } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { canServe } from '../stations/stations.service';
import type { StoredSlot } from './plan-rows';
import { roomRows, type StationRow } from './room-rows';

const minuteMs = 60_000;

/** A station that is locked while a plan is booked. */
interface HeldStation extends StationRow {
  open: ReturnType<typeof openSpans>;
  /** What this plan has got of it so far. */
  booked: StationBooking[];
}

/** Locks the stations in the order of their ids, then reads their diaries. */
export async function holdStations(
  tx: Transaction,
  clubId: string,
  slots: readonly StoredSlot[],
): Promise<Map<string, HeldStation>> {
  const ids = [...new Set(slots.map(({ stationId }) => stationId))];
  await tx.$queryRaw(Prisma.sql`
    select 1 from station where club_id = ${clubId}::uuid and id = any(${ids}::uuid[])
    order by id for no key update`);
  const from = Math.min(...slots.map(({ startsAt }) => Date.parse(startsAt)));
  const until = Math.max(...slots.map(({ endsAt }) => Date.parse(endsAt)));
  const rows = await tx.$queryRaw<StationRow[]>(roomRows(clubId, new Date(from), new Date(until)));
  return new Map(
    rows.map((row) => [
      row.stationId,
      { ...row, open: openSpans(row.room, from, until + minuteMs), booked: [] },
    ]),
  );
}

/** The places of a slot, those that were planned first; or the refusal that they are taken. */
export function placesOrTaken(
  slot: StoredSlot,
  stations: ReadonlyMap<string, HeldStation>,
): readonly string[] {
  const station = stationOf(slot, stations);
  const { duty, minC, maxC } = slot;
  if (!canServe(station, slot)) {
    throw new Refusal('plan-taken', `${station.name} no longer serves that (${duty}).`);
  }
  const startsAt = Date.parse(slot.startsAt);
  const endsAt = Date.parse(slot.endsAt);
  const minutes = (endsAt - startsAt) / minuteMs;
  const found = placesOrWhyNot(
    {
      placeIds: station.places.map(({ id }) => id),
      changeoverMinutes: station.changeoverMinutes,
      bookings: [...station.bookings, ...station.booked],
      closures: station.closures,
      dutyWindows: station.dutyWindows,
      open: station.open,
    },
    { duty, minC, maxC, places: slot.placeIds.length, minutes },
    startsAt,
    slot.placeIds,
  );
  if (!found.fits) {
    throw new Refusal(
      'plan-taken',
      `${station.name} is no longer free as planned (${found.whyNot.reason}).`,
    );
  }
  station.booked.push({ duty, minC, maxC, startsAt, endsAt, placeIds: found.placeIds });
  return found.placeIds;
}

/** Refuses a station that is no more. */
export function stationOf(
  { stationId }: StoredSlot,
  stations: ReadonlyMap<string, HeldStation>,
): HeldStation {
  const station = stations.get(stationId);
  if (station === undefined) throw new Refusal('plan-taken', 'A station of the plan is no more.');
  return station;
}
