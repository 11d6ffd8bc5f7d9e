import { Decimal, Id, Instant, OneOf, TemperatureC, Whole } from '../platform/fields';
import { Grain } from '../platform/prisma-client/enums';

export class SettingForecastQuery {
  @Id({
    optional: true,
    is: 'A batch, seeded or not: what is on record of it need not be said. What is said goes before the record.',
  })
  batchId?: string;

  @Id({ optional: true, is: 'What most of the honey is of; left out: any that the club has.' })
  floralSourceId?: string;

  @Instant({
    optional: true,
    is: 'When the seed is stirred in. Needed unless the batch is seeded, or the bench is booked for it.',
  })
  startsAt?: Date;

  @TemperatureC({ optional: true, fromText: true, is: 'Of the place where it stands to set.' })
  temperatureC?: number;

  @Decimal({
    optional: true,
    fromText: true,
    min: 0.1,
    max: 50,
    decimals: 2,
    is: 'Seed in a hundred parts of honey and seed together.',
  })
  seedPercent?: number;

  @OneOf(Grain, { optional: true })
  seedGrain?: Grain;

  @Decimal({
    optional: true,
    fromText: true,
    min: 10,
    max: 30,
    decimals: 2,
    is: 'Water in the honey.',
  })
  moisturePercent?: number;

  @Decimal({
    optional: true,
    fromText: true,
    min: 0,
    max: 3650,
    decimals: 1,
    is: 'From extraction until the seed is stirred in.',
  })
  honeyAgeDays?: number;

  @Whole({
    optional: true,
    fromText: true,
    min: 50,
    max: 99,
    is: 'How certain the cool room’s days are to be; 80 when left out.',
  })
  certaintyPercent?: number;
}
