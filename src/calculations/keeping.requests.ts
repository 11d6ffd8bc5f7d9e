import { Decimal, Instant, OneOf, Part, TemperatureC } from '../platform/fields';
import { Each } from '../platform/list-fields';

/** Which limits the law sets: low-enzyme such as citrus; tropical where so declared. */
export const legalKinds = ['general', 'low-enzyme', 'tropical'] as const;

export class KeepingStep {
  @TemperatureC()
  temperatureC!: number;

  @Decimal({ min: 0, max: 100_000, decimals: 2 })
  hours!: number;
}

export class KeepingReading {
  @Instant()
  at!: Date;

  @TemperatureC()
  temperatureC!: number;
}

export class HoneyBefore {
  @Decimal({ min: 0, max: 1000, decimals: 1, is: 'Measured.' })
  hmfMgPerKg!: number;

  @Decimal({ min: 0, max: 1000, decimals: 1, is: 'Measured, Schade units.' })
  diastaseNumber!: number;

  @Decimal({
    optional: true,
    min: 0,
    max: 100,
    decimals: 1,
    is: 'Of the first invertase; 100 unless given.',
  })
  invertaseLeftPercent?: number;
}

export class ClubLimits {
  @Decimal({ optional: true, min: 0, max: 1000, decimals: 1 })
  hmfMgPerKg?: number;

  @Decimal({ optional: true, min: 0.1, max: 1000, decimals: 1 })
  diastaseNumber?: number;

  @Decimal({ optional: true, min: 0.1, max: 100, decimals: 1, is: 'Of the first invertase.' })
  invertaseLeftPercent?: number;
}

/** Steps, planned or past, or readings of a thermometer: one of the two. */
export class KeepingRequest {
  @Each(() => KeepingStep, { optional: true, min: 1, max: 200, is: 'Held one after another.' })
  steps?: KeepingStep[];

  @Each(() => KeepingReading, {
    optional: true,
    min: 2,
    max: 1000,
    is: 'In the order of time; straight lines between them.',
  })
  readings?: KeepingReading[];

  @Decimal({
    optional: true,
    min: 0.1,
    max: 1000,
    decimals: 2,
    is: 'Readings further apart are counted at the warmer of the two; 2 unless given.',
  })
  longestGapHours?: number;

  @Part(() => HoneyBefore, { optional: true, is: 'Needed to know what is left of the limits.' })
  before?: HoneyBefore;

  @OneOf(legalKinds, { optional: true, is: 'general unless given.' })
  legalKind?: (typeof legalKinds)[number];

  @Part(() => ClubLimits, { optional: true, is: 'Your own rules, beside the law’s.' })
  clubLimits?: ClubLimits;

  @TemperatureC({
    optional: true,
    is: 'From then on, for the days that are left; 15 unless given.',
  })
  keptAtC?: number;
}
