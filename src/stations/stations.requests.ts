import { Instant, MassKg, OneOf, TemperatureC, Text, Whole, YesNo } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { PageQuery } from '../platform/paging';
import { Duty } from '../platform/prisma-client/enums';

export class StationDutyRequest {
  @OneOf(Duty)
  duty!: Duty;

  @TemperatureC({ is: 'The lowest temperature that the station holds in this duty.' })
  minC!: number;

  @TemperatureC({ is: 'The highest.' })
  maxC!: number;
}

export class StationRequest {
  @Text({ max: 80, example: 'Warming cabinet' })
  name!: string;

  @MassKg({ is: 'What one place bears: a pail, or a crate of pots.', max: 1000 })
  placeLoadKg!: number;

  @Whole({ min: 0, max: 10080, is: 'How long it takes from one duty to another.' })
  changeoverMinutes!: number;

  @Each(() => StationDutyRequest, { min: 1, max: 3 })
  duties!: StationDutyRequest[];

  @Whole({ min: 1, max: 200, is: 'How many places it has; they are numbered from 1.' })
  places!: number;
}

export class StationChange {
  @Text({ max: 80, optional: true })
  name?: string;

  @MassKg({ max: 1000, optional: true })
  placeLoadKg?: number;

  @Whole({
    min: 0,
    max: 10080,
    optional: true,
    is: 'Holds for bookings ahead, too: as long as they leave it.',
  })
  changeoverMinutes?: number;

  @Each(() => StationDutyRequest, {
    min: 1,
    max: 3,
    optional: true,
    is: 'The whole list anew. What bookings ahead or duty windows need, stays.',
  })
  duties?: StationDutyRequest[];

  @Whole({
    min: 1,
    max: 200,
    optional: true,
    is: 'More: they are numbered on. Fewer: those with the highest numbers go, once nothing is booked on them and nothing stands there.',
  })
  places?: number;

  @YesNo({
    optional: true,
    is: 'Bookings ahead on places that go get other places of the station at their own times, instead of standing in the way.',
  })
  otherPlaces?: boolean;

  @YesNo({
    optional: true,
    is: 'true takes the station out of use, once nothing is booked and nothing stands there; false takes it into use again.',
  })
  retired?: boolean;
}

export class StationQuery extends PageQuery {
  @YesNo({ optional: true, fromText: true, is: 'Those out of use, too.' })
  withRetired?: boolean;
}

export class FreeQuery {
  @Instant({ is: 'Start no earlier.' })
  from!: Date;

  @Instant({ is: 'End no later; at most 400 days after from.' })
  to!: Date;

  @Whole({ min: 1, max: 200, fromText: true })
  places!: number;

  @Whole({ min: 1, max: 172800, fromText: true })
  minutes!: number;

  @OneOf(Duty)
  duty!: Duty;

  @TemperatureC({ fromText: true })
  minC!: number;

  @TemperatureC({ fromText: true })
  maxC!: number;
}

export class ClosureRequest {
  @Instant()
  startsAt!: Date;

  @Instant()
  endsAt!: Date;

  @Text({ max: 200, example: 'Cleaning' })
  reason!: string;

  @OneOf(['move', 'cancel'], {
    optional: true,
    is: 'What to do with bookings in the way, instead of refusing: move each to its next free time at the station, or cancel it where there is none; or cancel all. One that has begun ends as the closure starts.',
  })
  bookings?: 'move' | 'cancel';
}

export class ClosureChange {
  @Instant({ optional: true })
  startsAt?: Date;

  @Instant({ optional: true })
  endsAt?: Date;

  @Text({ max: 200, optional: true })
  reason?: string;
}

export class ClosureQuery extends PageQuery {
  @Instant({ optional: true, is: 'Only closures that end later.' })
  from?: Date;
}
