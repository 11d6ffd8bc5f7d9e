import { cautionTopics, type CautionTopic } from '../core/cautions';
import {
  Day,
  Decimal,
  Id,
  Instant,
  MassKg,
  OneOf,
  Part,
  TemperatureC,
  Text,
  Whole,
} from '../platform/fields';
import { Each, Texts } from '../platform/list-fields';
import { Duty } from '../platform/prisma-client/enums';
import { wishes, type PlanWish } from './plans.requests';
import { MemberName } from '../members/member-name';
import { PlanAlternative, slotSteps, type SlotStep } from './plan-alternative.responses';

export const planStates = ['offered', 'expired', 'booked'] as const;
export type PlanState = (typeof planStates)[number];

/** A duty window that a steward could set, with which the run would be sooner than any alternative. */
export class PlanChangeover {
  @Id()
  stationId!: string;

  @Text({ max: 80 })
  stationName!: string;

  @OneOf(Duty)
  duty!: Duty;

  @Instant()
  startsAt!: string;

  @Instant()
  endsAt!: string;

  @Instant()
  pottedAt!: string;

  @Text({ max: 500 })
  inWords!: string;
}

export class PlanHoneyLot {
  @Id()
  lotId!: string;

  @Text({ max: 120 })
  name!: string;

  @MassKg({ max: 1_000_000 })
  massKg!: number;
}

export class PlanSeed extends PlanHoneyLot {
  @Text({ max: 800, is: 'Why this seed.' })
  why!: string;
}

/** How long the pots stand cool, and how certain it is that they have set by then. */
export class PlanHold {
  @Whole({ min: 1, max: 4000 })
  days!: number;

  @Whole({ min: 50, max: 99 })
  certaintyPercent!: number;

  @Decimal({
    min: 0,
    max: 100,
    decimals: 1,
    nullable: true,
    is: 'How likely it is that it has set by then.',
  })
  chancePercent!: number | null;

  @Whole({ min: 0, max: 10_000_000, is: 'The club’s batches that it rests on.' })
  batchCount!: number;

  @Whole({ min: 0, max: 10_000_000, nullable: true, is: 'Of these: of the same floral source.' })
  sameSourceCount!: number | null;

  @Text({ max: 800 })
  inWords!: string;
}

export class PlanPail {
  @Whole({ min: 1, max: 200_000 })
  count!: number;

  @MassKg({ max: 5000 })
  massKg!: number;
}

/** The wish, with everything filled in that was not said. */
export class PlanInputs {
  @Each(() => PlanHoneyLot, { max: 20 })
  honey!: PlanHoneyLot[];

  @Each(() => PlanPail, { max: 400 })
  pails!: PlanPail[];

  @Decimal({ min: 0, max: 100, decimals: 2, is: 'Seed for a hundred parts of honey.' })
  seedPercent!: number;

  @Instant()
  earliestStart!: string;

  @Day()
  latestPotDay!: string;

  @OneOf(wishes)
  wish!: PlanWish;

  @Whole({ min: 1, max: 1_000_000, is: 'Places in the cool room.' })
  crates!: number;

  @Whole({ min: 1, max: 1_000_000 })
  benchMinutes!: number;

  @TemperatureC()
  hottestC!: number;

  @TemperatureC()
  coolMinC!: number;

  @TemperatureC()
  coolMaxC!: number;
}

export class PlanAssumption {
  @Text({ max: 500 })
  text!: string;

  @Text({ max: 500 })
  source!: string;
}

export class PlanCaution {
  @OneOf(cautionTopics)
  about!: CautionTopic;

  @Text({ max: 500 })
  text!: string;
}

export class PlanBooking {
  @OneOf(slotSteps)
  step!: SlotStep;

  @Id()
  bookingId!: string;
}

export class PlanResponse {
  @Id()
  id!: string;

  @Part(() => MemberName)
  member!: MemberName;

  @Text({ max: 120 })
  name!: string;

  @OneOf(planStates, {
    is: 'An offer holds no places, and is over when it expires or is booked.',
  })
  state!: PlanState;

  @Instant()
  createdAt!: string;

  @Instant()
  expiresAt!: string;

  @Id({ nullable: true, is: 'The batch that booking it made.' })
  batchId!: string | null;

  @Whole({ min: 0, max: 2, nullable: true, is: 'The alternative that was booked.' })
  bookedAlternative!: number | null;

  @Each(() => PlanBooking, { max: 4, is: 'As they were booked; empty until then.' })
  bookings!: PlanBooking[];

  @Part(() => PlanInputs)
  inputs!: PlanInputs;

  @Part(() => PlanSeed)
  seed!: PlanSeed;

  @Part(() => PlanHold)
  hold!: PlanHold;

  @Each(() => PlanAlternative, { max: 3, is: 'The one that was wished for first.' })
  alternatives!: PlanAlternative[];

  @Part(() => PlanChangeover, { nullable: true })
  soonerWithDutyWindow!: PlanChangeover | null;

  @Texts({ max: 500, most: 30 })
  warnings!: string[];

  @Each(() => PlanCaution, { max: 12 })
  cautions!: PlanCaution[];

  @Each(() => PlanAssumption, { max: 20 })
  assumptions!: PlanAssumption[];
}
