import { ApiProperty } from '@nestjs/swagger';
import { Decimal, Id, Instant, OneOf, Part, TemperatureC, Text, Whole } from '../platform/fields';
import { Each, Texts } from '../platform/list-fields';
import { Duty } from '../platform/prisma-client/enums';
import { PlaceNumbers } from '../stations/place-numbers';
import { wishes, type PlanWish } from './plans.requests';

export const slotSteps = ['warm', 'cool-down', 'bench', 'cool'] as const;
export type SlotStep = (typeof slotSteps)[number];

const hours = { min: 0, max: 10_000, decimals: 2 };

/** Places of one station, as they would be booked. */
export class PlanSlot {
  @OneOf(slotSteps)
  step!: SlotStep;

  @Id()
  stationId!: string;

  @Text({ max: 80 })
  stationName!: string;

  @OneOf(Duty)
  duty!: Duty;

  @TemperatureC()
  minC!: number;

  @TemperatureC()
  maxC!: number;

  @Instant()
  startsAt!: string;

  @Instant()
  endsAt!: string;

  @PlaceNumbers({ is: 'The numbers of its places; booking keeps them where they are still free.' })
  places!: number[];
}

export const handsOnDeeds = ['load', 'take-out', 'seed-and-pot', 'shelve', 'fetch'] as const;

/** When somebody has to be there. */
export class HandsOnMoment {
  @OneOf(handsOnDeeds)
  deed!: (typeof handsOnDeeds)[number];

  @Instant()
  at!: string;

  @Instant({ is: 'The same as at where it takes but a moment.' })
  until!: string;

  @Text({ max: 300 })
  inWords!: string;
}

/** What the heat costs the honey, at the place that is always the warmest. */
export class PlanHeat {
  @TemperatureC({ is: 'At which the cabinet is set.' })
  setPointC!: number;

  @Decimal({ ...hours, is: 'In the warmth.' })
  warmHours!: number;

  @Decimal({ ...hours, is: 'From taking it out until seed may go in.' })
  coolingHours!: number;

  @Decimal({ min: 0, max: 100, decimals: 1, is: 'Of the diastase that the honey has now.' })
  diastaseLeftPercent!: number;

  @Decimal({ min: 0, max: 10_000, decimals: 2 })
  hmfGainMgPerKg!: number;

  @Decimal({ min: 0, max: 100_000, decimals: 2, is: 'Taken up by the honey.' })
  energyKWh!: number;

  @Whole({ min: 0, max: 200, is: 'Other places of the cabinet in use meanwhile, at most.' })
  otherPails!: number;
}

export class PlanObstacle {
  @Text({ max: 40, is: 'Such as places, temperature, opening-hours.' })
  reason!: string;

  @OneOf(['warm', 'bench', 'cool'], { nullable: true })
  slot!: 'warm' | 'bench' | 'cool' | null;

  @Text({ max: 80, nullable: true })
  stationName!: string | null;

  @Instant({
    is: 'When it would be potted without this one; where they bind together: without all.',
  })
  pottedAt!: string;

  @Text({ max: 300 })
  inWords!: string;
}

export class PlanWhyNotSooner {
  @OneOf(['each', 'together'], {
    is: 'each: without any one of them it would be sooner. together: only without all.',
  })
  binds!: 'each' | 'together';

  @Each(() => PlanObstacle, { max: 50 })
  obstacles!: PlanObstacle[];

  @Text({ max: 1000 })
  inWords!: string;
}

/** One whole way through the room. */
export class PlanAlternative {
  @ApiProperty({
    type: String,
    enum: wishes,
    isArray: true,
    minItems: 1,
    maxItems: 3,
    description: 'What it is the best at.',
  })
  bestAt!: PlanWish[];

  @Each(() => PlanSlot, { max: 4, is: 'In order of time.' })
  slots!: PlanSlot[];

  @Instant({ is: 'Seed may go in from then on.' })
  coolEnoughAt!: string;

  @Instant()
  pottedAt!: string;

  @Each(() => HandsOnMoment, { max: 10 })
  handsOn!: HandsOnMoment[];

  @Part(() => PlanHeat)
  heat!: PlanHeat;

  @Decimal({ min: 0, max: 1_000_000, decimals: 1, is: 'Places times hours, of all slots.' })
  placeHours!: number;

  @Part(() => PlanWhyNotSooner)
  whyNotSooner!: PlanWhyNotSooner;

  @Texts({ max: 500, most: 10 })
  warnings!: string[];
}
