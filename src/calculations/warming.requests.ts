import { Decimal, MassKg, OneOf, Part, TemperatureC, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';

export const meltingGrains = ['fine', 'coarse'] as const;

export class WarmingPail {
  @Whole({ min: 1, max: 30, is: 'Pails alike.' })
  count!: number;

  @MassKg({ optional: true, max: 1000, is: 'In each; 25 unless it follows from the sizes.' })
  massKg?: number;

  @Decimal({
    optional: true,
    min: 8,
    max: 100,
    decimals: 1,
    is: 'Inside; unless given it is filled as high as it is wide.',
  })
  diameterCm?: number;

  @Decimal({ optional: true, min: 8, max: 100, decimals: 1, is: 'As far as it is filled.' })
  heightCm?: number;

  @Decimal({ optional: true, min: 0, max: 100, decimals: 2, is: '17.2 unless given.' })
  moisturePercent?: number;

  @Decimal({ optional: true, min: 0, max: 100, decimals: 1, is: '15 unless given; 0: clear.' })
  crystalPercent?: number;

  @OneOf(meltingGrains, {
    optional: true,
    is: 'fine crystals melt at 25 to 45 °C, coarse ones at 45 to 65 °C; fine unless given.',
  })
  grain?: (typeof meltingGrains)[number];

  @TemperatureC({ optional: true, is: 'When it is put in; 15 unless given.' })
  startC?: number;
}

export class WarmingCabinet {
  @Decimal({ min: 1, max: 20_000, decimals: 0, is: 'Power of its heater.' })
  heaterW!: number;

  @Decimal({ min: 0, max: 1000, decimals: 2, is: 'Lost for each degree warmer than the room.' })
  lossWPerK!: number;

  @TemperatureC({ is: 'At which the thermostat is set.' })
  thermostatC!: number;

  @TemperatureC({ optional: true, is: '18 unless given.' })
  roomC?: number;

  @TemperatureC({ optional: true, is: 'Of the air at first; as the room unless given.' })
  startC?: number;

  @Decimal({
    optional: true,
    min: 0,
    max: 1_000_000,
    decimals: 0,
    is: 'Of air, shelves and lining; 20,000 unless given.',
  })
  airCapacityJPerK?: number;
}

/** Pails in air of one temperature, or in a cabinet: one of the two. */
export class WarmingRequest {
  @Each(() => WarmingPail, { min: 1, max: 6, is: 'Groups of pails, all put in at once.' })
  pails!: WarmingPail[];

  @TemperatureC({ optional: true, is: 'Of the air, held.' })
  airC?: number;

  @Part(() => WarmingCabinet, { optional: true })
  cabinet?: WarmingCabinet;

  @Decimal({ optional: true, min: 1, max: 240, decimals: 1, is: 'In the warmth; 72 unless given.' })
  hours?: number;

  @TemperatureC({ optional: true, is: 'The coldest point must pass it; 40 unless given.' })
  clearC?: number;

  @Decimal({
    optional: true,
    min: 0.5,
    max: 100,
    decimals: 1,
    is: 'Heat that passes from the air on every face; 5 unless given (still air 2 to 25; a fan 25 and more).',
  })
  filmWPerM2K?: number;

  @Decimal({
    optional: true,
    min: 1,
    max: 240,
    decimals: 1,
    is: 'To be clear by then: which thermostat temperature is gentlest? For at most 2 groups.',
  })
  deadlineHours?: number;

  @TemperatureC({ optional: true, is: 'No gentlest temperature above it; 50 unless given.' })
  hottestC?: number;
}
