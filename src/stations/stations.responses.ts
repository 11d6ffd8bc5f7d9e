import { Id, Instant, kgOf, MassKg, OneOf, TemperatureC, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Duty } from '../platform/prisma-client/enums';

export class StationDutyResponse {
  @OneOf(Duty)
  duty!: Duty;

  @TemperatureC()
  minC!: number;

  @TemperatureC()
  maxC!: number;
}

export class StationResponse {
  @Id()
  id!: string;

  @Text({ max: 80 })
  name!: string;

  @MassKg({ max: 1000 })
  placeLoadKg!: number;

  @Whole({ min: 0, max: 10080 })
  changeoverMinutes!: number;

  @Each(() => StationDutyResponse, { max: 3 })
  duties!: StationDutyResponse[];

  @Whole({ min: 1, max: 200, is: 'Numbered from 1.' })
  places!: number;

  @Instant({ nullable: true, is: 'Out of use since then; null while it is in use.' })
  retiredAt!: string | null;
}

export interface StationRow {
  id: string;
  name: string;
  placeLoadG: number;
  changeoverMinutes: number;
  duties: { duty: Duty; minDeciC: number; maxDeciC: number }[];
  placeCount: number;
  retiredAt: Date | null;
}

export function toStationResponse(row: StationRow): StationResponse {
  return {
    id: row.id,
    name: row.name,
    placeLoadKg: kgOf(row.placeLoadG),
    changeoverMinutes: row.changeoverMinutes,
    duties: row.duties.map(({ duty, minDeciC, maxDeciC }) => ({
      duty,
      minC: minDeciC / 10,
      maxC: maxDeciC / 10,
    })),
    places: row.placeCount,
    retiredAt: row.retiredAt?.toISOString() ?? null,
  };
}

export class FreeTime {
  @Instant({ is: 'The first moment at which it may start.' })
  firstStart!: string;

  @Instant({ is: 'The last one: every start between the two will do.' })
  lastStart!: string;

  @Whole({ min: 1, max: 200, is: 'Places free for the whole time.' })
  freePlaces!: number;
}

export class FreeTimesResponse {
  @Each(() => FreeTime, { max: 50, is: 'In order of time, at most 50.' })
  items!: FreeTime[];
}

export class ClosureResponse {
  @Id()
  id!: string;

  @Id()
  stationId!: string;

  @Instant()
  startsAt!: string;

  @Instant()
  endsAt!: string;

  @Text({ max: 200 })
  reason!: string;
}

export class DisplacedBooking {
  @Id()
  bookingId!: string;

  @Id()
  memberId!: string;

  @OneOf(['moved', 'shortened', 'cancelled'])
  outcome!: 'moved' | 'shortened' | 'cancelled';

  @Instant({ nullable: true, is: 'Its times now; null when it is cancelled.' })
  startsAt!: string | null;

  @Instant({ nullable: true })
  endsAt!: string | null;
}

export class ClosureMadeResponse extends ClosureResponse {
  @Each(() => DisplacedBooking, {
    max: 10_000,
    optional: true,
    is: 'What became of the bookings that were in the way, where some were. Their holders have been told.',
  })
  bookings?: DisplacedBooking[];
}

export interface ClosureRow {
  id: string;
  stationId: string;
  startsAt: Date;
  endsAt: Date;
  reason: string;
}

export function toClosureResponse(row: ClosureRow): ClosureResponse {
  return {
    id: row.id,
    stationId: row.stationId,
    startsAt: row.startsAt.toISOString(),
    endsAt: row.endsAt.toISOString(),
    reason: row.reason,
  };
}
