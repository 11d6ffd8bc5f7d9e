import { Decimal, MassKg, OneOf, Part, SharePercent, TemperatureC } from '../platform/fields';
import { Grain } from '../platform/prisma-client/enums';

/** The two ways in which makers speak of the same seed. */
export const conventions = ['perHoney', 'ofBlend'] as const;

export class SeedBuildUpRequest {
  @MassKg({ is: 'Seed in hand.' })
  startSeedKg!: number;

  @MassKg({ is: 'Seed that must lie ready.' })
  wantedSeedKg!: number;

  @Decimal({ min: 0, max: 100, decimals: 2, is: 'The part of every batch put by as seed.' })
  keepPercentOfBlend!: number;

  @Decimal({ optional: true, min: 0.1, max: 10, decimals: 2, is: '1 unless given.' })
  batchesPerMonth?: number;

  @MassKg({ optional: true, is: 'What the mixer or the pail holds; no limit unless given.' })
  largestBatchKg?: number;
}

/** Honey in hand, or a blend that is wanted: one of the two. */
export class SeedingRequest {
  @MassKg({ optional: true, is: 'Honey in hand.' })
  honeyKg?: number;

  @MassKg({ optional: true, min: 0.002, is: 'Honey and seed together, as wanted.' })
  wantedBlendKg?: number;

  @SharePercent({ is: 'Seed, in the way of speaking that convention names.' })
  percent!: number;

  @OneOf(conventions, {
    is: 'perHoney: grams of seed for every 100 g of honey; ofBlend: in every 100 g of the blend.',
  })
  convention!: (typeof conventions)[number];

  @TemperatureC({ optional: true, is: 'With seedC: how warm the blend gets.' })
  honeyC?: number;

  @TemperatureC({ optional: true })
  seedC?: number;

  @SharePercent({ optional: true, is: '17.2, the mean of many honeys, unless given.' })
  honeyMoisturePercent?: number;

  @SharePercent({ optional: true, is: 'As the honey’s unless given.' })
  seedMoisturePercent?: number;

  @Decimal({ optional: true, min: 0, max: 100, decimals: 1, is: 'In the seed; 15 unless given.' })
  seedCrystalPercent?: number;

  @OneOf(Grain, { optional: true, is: 'fine unless given.' })
  seedGrain?: Grain;

  @OneOf(Grain, { optional: true, is: 'As which the honey would set by itself.' })
  honeyGrain?: Grain;

  @Part(() => SeedBuildUpRequest, { optional: true, is: 'From a little seed to enough.' })
  buildUp?: SeedBuildUpRequest;
}
