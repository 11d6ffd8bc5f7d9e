import { invalidField, Refusal } from '../core/refusal';
import { gramsOf } from '../platform/fields';
import type { Duty } from '../platform/prisma-client/enums';
import type { StationDiary } from '../stations/station-diary';
import type { BookingRequest } from './bookings.requests';
import type { BookingRow } from './bookings.responses';

const minuteMs = 60_000;
const dayMs = 86_400_000;
const longestBookingDays = 120;

export interface Wished {
  stationId: string;
  duty: Duty;
  minC: number;
  maxC: number;
  startsAt: Date;
  endsAt: Date;
  places: number;
  note?: string;
}

export function wishOf({ duty, minC, maxC, startsAt, endsAt, places }: Wished) {
  return { duty, minC, maxC, places, minutes: (endsAt.getTime() - startsAt.getTime()) / minuteMs };
}

export function wishedNow(row: BookingRow): Wished {
  return {
    stationId: row.stationId,
    duty: row.duty,
    minC: row.minDeciC / 10,
    maxC: row.maxDeciC / 10,
    startsAt: row.startsAt,
    endsAt: row.endsAt,
    places: row.places.length,
    note: row.note,
  };
}

/** Opening hours that changed since it was booked do not bear on a booking whose times stay. */
export function isAtSameTime(wanted: Wished, { startsAt, endsAt }: BookingRow): boolean {
  return (
    wanted.startsAt.getTime() === startsAt.getTime() && wanted.endsAt.getTime() === endsAt.getTime()
  );
}

export function refuseBadTimes({ startsAt, endsAt, minC, maxC }: Wished): void {
  for (const [name, time] of Object.entries({ startsAt, endsAt })) {
    if (time.getTime() % minuteMs !== 0) {
      throw invalidField(`#/${name}`, `${name} must fall on a whole minute.`);
    }
  }
  if (endsAt <= startsAt) throw invalidField('#/endsAt', 'endsAt must be after startsAt.');
  if (endsAt.getTime() - startsAt.getTime() > longestBookingDays * dayMs) {
    throw invalidField('#/endsAt', `A booking lasts ${longestBookingDays} days at most.`);
  }
  if (minC > maxC) throw invalidField('#/maxC', `maxC must be at least minC (${minC}).`);
}

export function refuseOverload(diary: StationDiary, { loadKg, places }: BookingRequest): void {
  if (loadKg === undefined || gramsOf(loadKg) <= places * diary.placeLoadG) return;
  const needed = Math.ceil(gramsOf(loadKg) / diary.placeLoadG);
  throw new Refusal(
    'place-overloaded',
    `A place in ${diary.name} bears ${diary.placeLoadG / 1000} kg: ${loadKg} kg need ${needed} places.`,
    { offers: { places: needed } },
  );
}
