import {
  Day,
  Decimal,
  Id,
  Instant,
  MassKg,
  OneOf,
  TemperatureC,
  Text,
  Whole,
} from '../platform/fields';
import { Each } from '../platform/list-fields';

export const wishes = ['soonest', 'gentlest', 'shortest-hold'] as const;
export type PlanWish = (typeof wishes)[number];

/** A time of the day as clocks show it; 24:00 is its end. */
const clockTime = /^(?:[01]\d|2[0-3]):[0-5]\d$|^24:00$/;

export class PlanPails {
  @Whole({ min: 1, max: 200 })
  count!: number;

  @MassKg({ max: 100, is: 'The honey in one.' })
  massKg!: number;
}

export class PlanHoney {
  @Id()
  lotId!: string;

  @MassKg()
  massKg!: number;

  @Each(() => PlanPails, {
    optional: true,
    min: 1,
    max: 20,
    is: 'What it stands in, its mass together. Left out: pails alike, of 25 kg at most and no more than one place bears.',
  })
  pails?: PlanPails[];
}

export class PlanPots {
  @MassKg({ max: 100, is: 'Of one pot.' })
  netMassKg!: number;

  @Whole({ min: 1, max: 100_000 })
  count!: number;
}

export class ComingHours {
  @Whole({ min: 1, max: 7, is: '1 is Monday, 7 is Sunday (ISO 8601), in the club’s time zone.' })
  weekday!: number;

  @Text({ max: 5, min: 5, pattern: clockTime, example: '08:00' })
  opens!: string;

  @Text({ max: 5, min: 5, pattern: clockTime, example: '20:00', is: 'After opens; 24:00 at most.' })
  closes!: string;
}

export class ComingSpan {
  @Instant()
  startsAt!: Date;

  @Instant()
  endsAt!: Date;
}

export class PlanRequest {
  @Text({ max: 120, is: 'Of the batch that booking the plan makes.' })
  name!: string;

  @Each(() => PlanHoney, { min: 1, max: 20 })
  honey!: PlanHoney[];

  @Id({
    optional: true,
    is: 'Seed to stir in. Left out: any seed that fits, of what the member holds.',
  })
  seedLotId?: string;

  @Decimal({
    optional: true,
    min: 0.1,
    max: 100,
    decimals: 2,
    is: 'Seed for a hundred parts of honey; 10 unless given.',
  })
  seedPercent?: number;

  @Instant({ optional: true, is: 'Nothing begins before; from now on unless given.' })
  earliestStart?: Date;

  @Day({ is: 'By the end of this day, in the club’s time zone, all is potted.' })
  latestPotDay!: string;

  @Each(() => ComingHours, {
    optional: true,
    min: 1,
    max: 28,
    is: 'When the member can come, week by week. Left out, and no comesAt either: every day from 08:00 to 20:00.',
  })
  comes?: ComingHours[];

  @Each(() => ComingSpan, {
    optional: true,
    min: 1,
    max: 100,
    is: 'When the member can come, in times of the calendar; beside the hours in comes, if any.',
  })
  comesAt?: ComingSpan[];

  @Each(() => PlanPots, { optional: true, min: 1, max: 20, is: 'To be filled.' })
  pots?: PlanPots[];

  @Whole({
    optional: true,
    min: 1,
    max: 200,
    is: 'Places in the cool room. Left out: as many as pots need, or the mass of the blend.',
  })
  crates?: number;

  @OneOf(wishes, { optional: true, is: 'What matters most; soonest unless given.' })
  wish?: PlanWish;

  @Whole({
    optional: true,
    min: 50,
    max: 99,
    is: 'How certain it is to be that the honey has set when the cool room’s days are over; 80 unless given.',
  })
  certaintyPercent?: number;

  @TemperatureC({ optional: true, is: 'The honey is warmed in air no hotter; 50 unless given.' })
  hottestC?: number;

  @TemperatureC({
    optional: true,
    is: 'The coolest that will do in the cool room; 12 unless given.',
  })
  coolMinC?: number;

  @TemperatureC({ optional: true, is: 'The warmest; 16 unless given.' })
  coolMaxC?: number;

  @Id({
    optional: true,
    is: 'Whose run it is: the caller’s, unless a steward names somebody else.',
  })
  memberId?: string;
}

export class PlanBookingRequest {
  @Whole({ min: 0, max: 2, is: 'Which of the plan’s alternatives, counted from 0.' })
  alternative!: number;
}
