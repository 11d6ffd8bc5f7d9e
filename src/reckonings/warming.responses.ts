import { Decimal, Id, MassKg, OneOf, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';

const hours = { min: 0, max: 1e6, decimals: 2 };
const temperature = { min: -30, max: 100, decimals: 2 };

export class Assumption {
  @Text({ max: 500 })
  text!: string;

  @Text({ max: 500 })
  source!: string;
}

export class WarmingReckoning {
  @Id({ nullable: true, is: 'The longest warming booked for the batch.' })
  bookingId!: string | null;

  @Whole({ min: 0, max: 1_000_000, is: 'Further warmings booked for it; not looked at.' })
  otherBookings!: number;

  @Decimal(temperature)
  airC!: number;

  @Decimal({ ...temperature, is: 'Of the honey when the warming begins.' })
  startC!: number;

  @MassKg()
  pailMassKg!: number;

  @Decimal({ min: 0, max: 5, decimals: 3 })
  pailDiameterM!: number;

  @Decimal({ min: 0, max: 5, decimals: 3 })
  fillHeightM!: number;

  @Decimal({ min: 0, max: 10_000, decimals: 2, is: 'Film coefficient of the air, W/m²·K.' })
  filmWPerM2K!: number;

  @Decimal({
    ...hours,
    nullable: true,
    is: 'Until the coldest point is clear; null: not within ten days.',
  })
  hoursUntilClear!: number | null;

  @Decimal({ ...hours, nullable: true })
  bookedHours!: number | null;

  @Decimal({
    min: -1000,
    max: 1e6,
    decimals: 1,
    nullable: true,
    is: 'Booked hours that are left once it is clear; below 0: short by so many.',
  })
  spareHours!: number | null;

  @OneOf(['enough', 'short', 'too-cool', 'nothing-booked'])
  verdict!: 'enough' | 'short' | 'too-cool' | 'nothing-booked';

  @Each(() => Assumption, { max: 20 })
  assumptions!: Assumption[];
}
