import { Id, Instant, MassKg, OneOf, TemperatureC, Text, Whole, YesNo } from '../platform/fields';
import { PageQuery } from '../platform/paging';
import { Duty } from '../platform/prisma-client/enums';

export class BookingRequest {
  @Id()
  stationId!: string;

  @OneOf(Duty)
  duty!: Duty;

  @TemperatureC({ is: 'The lowest temperature that will do.' })
  minC!: number;

  @TemperatureC({ is: 'The highest.' })
  maxC!: number;

  @Instant({ is: 'On a whole minute.' })
  startsAt!: Date;

  @Instant({ is: 'On a whole minute. The place is free again from then on.' })
  endsAt!: Date;

  @Whole({ min: 1, max: 200, is: 'How many places; the service picks them: all of them, or none.' })
  places!: number;

  @MassKg({ optional: true, is: 'What will stand on the places, all together.' })
  loadKg?: number;

  @Id({ optional: true, is: 'The batch that it is for.' })
  batchId?: string;

  @Id({ optional: true, is: 'A steward may book for another member.' })
  memberId?: string;

  @Text({ min: 0, max: 500, optional: true })
  note?: string;

  @YesNo({ optional: true, is: 'A steward may book at times at which the room is closed.' })
  evenIfClosed?: boolean;

  @YesNo({ optional: true, is: 'A steward may book beyond the member’s fair share.' })
  overFairShare?: boolean;
}

export class BookingChange {
  @Id({ optional: true })
  stationId?: string;

  @TemperatureC({ optional: true })
  minC?: number;

  @TemperatureC({ optional: true })
  maxC?: number;

  @Instant({ optional: true })
  startsAt?: Date;

  @Instant({ optional: true })
  endsAt?: Date;

  @Whole({ min: 1, max: 200, optional: true })
  places?: number;

  @Text({ min: 0, max: 500, optional: true })
  note?: string;

  @YesNo({ optional: true, is: 'A steward may book at times at which the room is closed.' })
  evenIfClosed?: boolean;

  @YesNo({ optional: true, is: 'A steward may book beyond the member’s fair share.' })
  overFairShare?: boolean;

  @YesNo({
    optional: true,
    is: 'Of a booking that was booked with a plan: true moves the bookings that hang on it along, false moves it alone. Left out: asked, where it matters.',
  })
  moveTheRest?: boolean;
}

export class ArrivalRequest {
  @Instant({ optional: true, is: 'When the honey came in; now, when left out.' })
  at?: Date;

  @YesNo({
    optional: true,
    is: 'Somebody’s honey is said to stand on the places still: give me other places of the station.',
  })
  otherPlaces?: boolean;

  @YesNo({
    optional: true,
    is: 'Somebody’s honey is said to stand on the places still: they are clear all the same.',
  })
  placesAreClear?: boolean;
}

export class ReleaseRequest {
  @Text({ max: 200, optional: true, is: 'Why, for whoever holds it.', example: 'Nobody came' })
  reason?: string;

  @Instant({ optional: true, is: 'When the places were cleared; now, when left out.' })
  clearedAt?: Date;
}

export class BookingQuery extends PageQuery {
  @Id({ optional: true })
  stationId?: string;

  @Id({ optional: true })
  memberId?: string;

  @Id({ optional: true })
  batchId?: string;

  @Instant({ optional: true, is: 'Only bookings that end later.' })
  from?: Date;

  @Instant({ optional: true, is: 'Only bookings that start earlier.' })
  to?: Date;

  @YesNo({ optional: true, fromText: true, is: 'Cancelled ones too.' })
  withCancelled?: boolean;
}
