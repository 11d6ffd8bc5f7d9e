import { Decimal, MassKg, TemperatureC, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';

export class CoolingPail {
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

  @TemperatureC({ optional: true, is: 'When it is taken out, clear; 42 unless given.' })
  startC?: number;
}

export class CoolingRequest {
  @Each(() => CoolingPail, { min: 1, max: 6, is: 'Groups of pails of clear honey.' })
  pails!: CoolingPail[];

  @TemperatureC({ optional: true, is: 'Of the air, held; 15 unless given.' })
  airC?: number;

  @TemperatureC({
    optional: true,
    is: 'The warmest point must fall to it; 24, at which seed is safe, unless given.',
  })
  belowC?: number;

  @Decimal({ optional: true, min: 1, max: 240, decimals: 1, is: 'Looked at; 72 unless given.' })
  hours?: number;

  @Decimal({
    optional: true,
    min: 0.5,
    max: 100,
    decimals: 1,
    is: 'Heat that passes to the air on every face; 5 unless given (still air 2 to 25; a fan 25 and more).',
  })
  filmWPerM2K?: number;
}
